// What a key of the case file is called in a report.
#include <algorithm>
#include <array>

#include "scenarios/report.hpp"

namespace hoofload::scenarios {

namespace {

struct KeyWords {
  std::string_view key, words;
};

constexpr std::array kWords = std::to_array<KeyWords>({
    {"horse.mass", "mass of the horse"},
    {"horse.limb", "limb"},
    {"foot.toe_angle", "toe angle"},
    {"foot.palmar_angle", "palmar angle"},
    {"foot.sole_depth_tip", "sole depth under the tip of the bone"},
    {"foot.sole_depth_wing", "sole depth under the wings of the bone"},
    {"foot.sole_cup", "hollow of the sole"},
    {"foot.cor_height", "height of the coffin joint's centre"},
    {"foot.toe_to_cor", "toe to the coffin joint's centre"},
    {"foot.toe_to_tip", "toe to the tip of the bone"},
    {"shoe.type", "kind of shoe"},
    {"shoe.material", "material of the shoe"},
    {"shoe.thickness", "thickness of the shoe"},
    {"shoe.web", "width of the web"},
    {"shoe.setback", "set back by"},
    {"shoe.elevation", "heel elevation"},
    {"shoe.toe", "toe of the shoe"},
    {"shoe.breakover", "breakover behind the front edge"},
    {"shoe.roll_radius", "radius of the roll"},
    {"shoe.rocker_start", "start of the rocker"},
    {"shoe.rocker_angle", "angle of the rocker"},
    {"shoe.plate_thickness", "thickness of plate or bar"},
    {"shoe.attachment", "held by"},
    {"pad.type", "pad"},
    {"pad.material", "material of the pad"},
    {"pad.thickness", "thickness of the pad"},
    {"pad.hardness", "hardness of the pad"},
    {"packing.region", "packed"},
    {"packing.material", "material of the packing"},
    {"packing.order", "order of work"},
    {"packing.proud", "proud of the void by"},
    {"packing.thickness", "depth of the filling"},
    {"packing.hardness", "hardness of the packing"},
    {"nails.count", "number of nails"},
    {"load.gait", "gait"},
    {"load.phases", "phases"},
    {"ground.type", "ground"},
    {"ground.material", "material of the ground"},
    {"ground.depth", "depth of the bed"},
});

}  // namespace

std::string key_words(std::string_view key) {
  const auto it = std::find_if(kWords.begin(), kWords.end(), [&](const KeyWords& k) { return k.key == key; });
  if (it != kWords.end()) return std::string(it->words);
  std::string spoken(key);
  std::replace_if(
      spoken.begin(), spoken.end(), [](char c) { return c == '.' || c == '_'; }, ' ');
  return spoken;
}

}  // namespace hoofload::scenarios
