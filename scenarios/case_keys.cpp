#include "scenarios/case_keys.hpp"

#include "scenarios/case_words.hpp"

namespace hoofload::scenarios {
namespace {

template <auto First, auto... Rest>
constexpr auto& member(auto& owner) {
  if constexpr (sizeof...(Rest) == 0)
    return owner.*First;
  else
    return member<Rest...>(owner.*First);
}

template <auto... Path>
constexpr NumberAt number(std::string_view unit, double low, double high) {
  return {[](const Case& c) -> std::optional<double> { return member<Path...>(c); },
          [](Case& c, double value) { member<Path...>(c) = value; }, unit, low, high};
}

template <auto... Path>
constexpr IntegerAt integer(std::int64_t low, std::int64_t high) {
  return {[](const Case& c) -> std::int64_t { return member<Path...>(c); },
          [](Case& c, std::int64_t value) {
            auto& at = member<Path...>(c);
            at = static_cast<std::remove_reference_t<decltype(at)>>(value);
          },
          low, high};
}

template <auto... Path>
constexpr FlagAt flag() {
  return {[](const Case& c) { return member<Path...>(c); }, [](Case& c, bool value) { member<Path...>(c) = value; }};
}

template <auto... Path>
constexpr TextAt text() {
  return {[](const Case& c) -> const std::string& { return member<Path...>(c); },
          [](Case& c, const std::string& value) { member<Path...>(c) = value; }};
}

template <auto... Path>
constexpr MaterialAt material(std::string_view kind) {
  return {[](const Case& c) -> const std::string& { return member<Path...>(c); },
          [](Case& c, const std::string& value) { member<Path...>(c) = value; }, kind};
}

template <auto... Path>
constexpr WordAt word(std::span<const std::string_view> words, std::span<const Synonym> synonyms = {}) {
  return {[](const Case& c) { return static_cast<int>(member<Path...>(c)); },
          [](Case& c, int index) {
            auto& at = member<Path...>(c);
            at = static_cast<std::remove_reference_t<decltype(at)>>(index);
          },
          {words, synonyms}};
}

template <auto... Path>
constexpr WordListAt word_list(std::span<const std::string_view> words, std::span<const Synonym> synonyms) {
  return {[](const Case& c) {
            std::vector<int> indices;
            for (const auto item : member<Path...>(c)) indices.push_back(static_cast<int>(item));
            return indices;
          },
          [](Case& c, const std::vector<int>& indices) {
            auto& items = member<Path...>(c);
            items.clear();
            for (const int index : indices)
              items.push_back(static_cast<typename std::remove_reference_t<decltype(items)>::value_type>(index));
          },
          {words, synonyms}};
}

template <double mesh::Foot::*Member>
constexpr NumberAt foot(std::string_view unit, double low, double high) {
  return number<&Case::foot, Member>(unit, low, high);
}

template <double mesh::Shoe::*Member>
constexpr NumberAt shoe(std::string_view unit, double low, double high) {
  return number<&Case::shoeing, &mesh::Shoeing::shoe, Member>(unit, low, high);
}

template <double mesh::Nails::*Member>
constexpr NumberAt nails(std::string_view unit, double low, double high) {
  return number<&Case::shoeing, &mesh::Shoeing::nails, Member>(unit, low, high);
}

template <double mesh::Packing::*Member>
constexpr NumberAt packing(std::string_view unit, double low, double high) {
  return number<&Case::shoeing, &mesh::Shoeing::packing, Member>(unit, low, high);
}

template <auto Member>
constexpr NumberAt load(std::string_view unit, double low, double high) {
  return number<&Case::load, Member>(unit, low, high);
}

using mesh::Foot;
using mesh::Nails;
using mesh::Packing;
using mesh::Pad;
using mesh::Shoe;
using mesh::Shoeing;
constexpr auto whole_case = Scope::whole_case;

// clang-format off
constexpr Key kKeys[] = {
  {"schema", integer<&Case::schema>(1, 1), "version of the case format", '-', "", whole_case},
  {"title", text<&Case::title>(), "title of the case, printed on every result", '-', "", whole_case},
  {"name", text<&Case::name>(), "name of the run: of the baseline at the top level, of an option inside [[option]]", '-', ""},

  {"horse.mass", number<&Case::horse, &Horse::mass>("kg", 50, 1500), "body mass", 'D', "reference horse"},
  {"horse.limb", word<&Case::horse, &Horse::limb>(words::kLimb, words::kLimbToo), "limb; the loads and the reference foot are those of a fore limb", '-', ""},

  {"foot.toe_angle", foot<&Foot::toe_angle>("deg", 35, 70), "dorsal wall against the bearing plane; left out, parallel to the bone", 'A', "Crevier-Denoix 2001, sample 45.5 to 55 deg"},
  {"foot.heel_angle", foot<&Foot::heel_angle>("deg", 20, 70), "heel tubules against the bearing plane", 'D', "within 5 deg of the toe angle"},
  {"foot.toe_length", foot<&Foot::toe_length>("mm", 50, 130), "dorsal wall, bearing edge to coronet", 'D', "Stachurska 2008 (toe to heel ratio about 2)"},
  {"foot.heel_length", foot<&Foot::heel_length>("mm", 8, 80), "heel wall, bearing edge to coronet", 'D', "Stachurska 2008 (toe to heel ratio about 2)"},
  {"foot.bearing_length", foot<&Foot::bearing_length>("mm", 80, 200), "toe to heel buttress in the bearing plane", 'M', "Stachurska 2008; from memory"},
  {"foot.bearing_width", foot<&Foot::bearing_width>("mm", 80, 200), "widest part of the bearing outline", 'M', "Stachurska 2008; from memory"},
  {"foot.wall_thickness_toe", foot<&Foot::wall_thickness_toe>("mm", 4, 18), "horn of the dorsal wall, normal to it", 'D', "about 3/8 in, common practice"},
  {"foot.wall_thickness_quarter", foot<&Foot::wall_thickness_quarter>("mm", 3, 16), "horn of the wall at the quarters", 'D', "assumed"},
  {"foot.wall_thickness_heel", foot<&Foot::wall_thickness_heel>("mm", 2, 14), "horn of the wall at the heels", 'D', "assumed"},
  {"foot.lamella_thickness", foot<&Foot::lamella_thickness>("mm", 1, 6), "lamellar layer between wall and bone", 'B', "2.5 to 3 mm in the published layers"},
  {"foot.lamella_end", foot<&Foot::lamella_end>("mm", -10, 60), "the lamellae end this far in front of the heel buttress", 'D', "assumed; results depend on it"},
  {"foot.sole_horn", foot<&Foot::sole_horn>("mm", 1, 60), "thickness of the sole's horn; left out, it follows from sole_depth_tip", 'C', "clinical texts"},
  {"foot.sole_cup", foot<&Foot::sole_cup>("mm", 0, 25), "deepest concavity of the sole above the bearing plane", 'M', "from memory, 5 to 15 mm"},
  {"foot.palmar_angle", foot<&Foot::palmar_angle>("deg", -15, 35), "lower border of the distal phalanx against the bearing plane, positive with the heel side higher; left out, the bone is parallel to the wall", 'M', "from memory, 2 to 8 deg"},
  {"foot.sole_depth_tip", foot<&Foot::sole_depth_tip>("mm", 3, 60), "sole below the tip of the distal phalanx, horn and corium together", 'C', "clinical texts"},
  {"foot.sole_depth_wing", foot<&Foot::sole_depth_wing>("mm", 3, 80), "sole below the palmar process; left out, it follows from the tip and the palmar angle", 'M', "from memory, 15 to 22 mm"},
  {"foot.hl_proximal", foot<&Foot::hl_proximal>("mm", 8, 45), "horn-lamellar distance at the top, bone to outer wall, normal to the wall", 'M', "from memory, 14 to 19 mm"},
  {"foot.hl_distal", foot<&Foot::hl_distal>("mm", 8, 60), "the same near the tip; left out, it follows from the angles of wall and bone", 'M', "from memory, 14 to 19 mm"},
  {"foot.dorsal_length", foot<&Foot::dorsal_length>("mm", 35, 80), "distal phalanx, tip to extensor process", 'D', "landmarks of the reference foot"},
  {"foot.palmar_length", foot<&Foot::palmar_length>("mm", 45, 110), "distal phalanx, tip to palmar process", 'D', "landmarks of the reference foot"},
  {"foot.toe_to_tip", foot<&Foot::toe_to_tip>("mm", 10, 80), "horizontal, toe to the bone's tip; left out, it follows from wall angle, horn-lamellar distance and sole depth", 'M', "Kummer 2006, range from memory"},
  {"foot.toe_to_cor", foot<&Foot::toe_to_cor>("mm", 40, 130), "horizontal, toe to the coffin joint's centre of rotation; left out, it moves with the bone", 'D', "consistent with Eliashar 2002, arm 86 mm"},
  {"foot.cor_height", foot<&Foot::cor_height>("mm", 25, 100), "the same centre above the bearing plane; left out, it moves with the bone", 'D', "landmarks of the reference foot"},
  {"foot.frog_width", foot<&Foot::frog_width>("mm", 15, 100), "frog at its base", 'M', "from memory"},
  {"foot.frog_length", foot<&Foot::frog_length>("mm", 30, 130), "frog from apex to base", 'M', "from memory"},
  {"foot.ddft_arm", foot<&Foot::ddft_arm>("mm", 15, 45), "arm of the deep flexor tendon about the coffin joint", 'M', "22 to 32 mm; no primary number found"},
  {"foot.pastern_angle", foot<&Foot::pastern_angle>("deg", 30, 75), "middle phalanx against the ground when standing", 'D', "parallel to the dorsal wall"},

  {"shoe.type", word<&Case::shoeing, &Shoeing::shoe, &Shoe::type>(words::kShoeType, words::kShoeTypeToo), "kind of shoe; bare for an unshod foot", '-', ""},
  {"shoe.material", material<&Case::material, &MaterialChoice::shoe>("shoe"), "catalogue id of the shoe's material", '-', ""},
  {"shoe.toe", word<&Case::shoeing, &Shoeing::shoe, &Shoe::toe>(words::kToe, words::kToeToo), "shape of the toe", '-', ""},
  {"shoe.attachment", word<&Case::shoeing, &Shoeing::shoe, &Shoe::attachment>(words::kAttachment, words::kAttachmentToo), "how the shoe is held", '-', ""},
  {"shoe.web", shoe<&Shoe::web>("mm", 10, 100), "width of the branch", '-', "common practice, 3/4 to 1 in"},
  {"shoe.thickness", shoe<&Shoe::thickness>("mm", 3, 40), "thickness at the toe", '-', "common practice, 8 to 10 mm"},
  {"shoe.setback", shoe<&Shoe::setback>("mm", 0, 60), "toe of the shoe behind the toe of the hoof", '-', ""},
  {"shoe.breakover", shoe<&Shoe::breakover>("mm", 0, 80), "foremost ground contact behind the shoe's front edge; 6 mm is a worn flat shoe", 'D', "arm 88.3 mm against 86 +- 6 mm, Eliashar 2002"},
  {"shoe.roll_radius", shoe<&Shoe::roll_radius>("mm", 5, 150), "radius of a rolled toe", '-', ""},
  {"shoe.rocker_start", shoe<&Shoe::rocker_start>("mm", 5, 100), "start of a rocker behind the shoe's front edge", '-', ""},
  {"shoe.rocker_angle", shoe<&Shoe::rocker_angle>("deg", 1, 45), "angle of a rocker", '-', ""},
  {"shoe.elevation", shoe<&Shoe::elevation>("deg", 0, 20), "heel elevation as a wedge in the shoe, about its front edge", '-', ""},
  {"shoe.heel_extension", shoe<&Shoe::heel_extension>("mm", -20, 80), "branch beyond the heel buttress", '-', "common practice, 10 to 20 mm"},
  {"shoe.plate_thickness", shoe<&Shoe::plate_thickness>("mm", 1, 40), "full plate, frog plate or bar; its lower face is flush with the ground face", '-', "common practice, 6 mm"},
  {"shoe.plate_recess", shoe<&Shoe::plate_recess>("mm", 0, 20), "lifts that plate off the ground face", '-', ""},
  {"shoe.bar_width", shoe<&Shoe::bar_width>("mm", 8, 60), "width of a straight or egg bar", '-', ""},
  {"shoe.layer_thickness", shoe<&Shoe::layer_thickness>("mm", 0, 40), "lower layer of another material; 0 for none", '-', ""},
  {"shoe.layer_material", material<&Case::material, &MaterialChoice::layer>("shoe"), "catalogue id of that layer", '-', ""},

  {"nails.count", integer<&Case::shoeing, &Shoeing::nails, &Nails::count>(2, 14), "nails of both branches together", '-', "common practice, 4 to 8"},
  {"nails.first", nails<&Nails::first>("mm", 5, 200), "first nail behind the toe of the shoe", '-', "common practice, no source"},
  {"nails.last", nails<&Nails::last>("mm", 5, 250), "last nail behind the toe of the shoe", '-', "at or ahead of the widest part, common practice"},
  {"nails.preload", nails<&Nails::preload>("N", 0, 1000), "clinch of each nail", 'D', "assumed"},
  {"nails.patch", nails<&Nails::patch>("mm", 3, 12), "width of the patch that a nail bears on", 'D', "assumed, nail shank 3 to 4.5 mm"},

  {"pad.type", word<&Case::shoeing, &Shoeing::pad, &Pad::type>(words::kPad, words::kPadToo), "pad between hoof and shoe", '-', ""},
  {"pad.thickness", number<&Case::shoeing, &Shoeing::pad, &Pad::thickness>("mm", 1, 20), "thickness of the pad", '-', "common practice, 1/8 to 3/8 in"},
  {"pad.material", material<&Case::material, &MaterialChoice::pad>("pad"), "catalogue id of the pad's material", '-', ""},
  {"pad.hardness", number<&Case::material, &MaterialChoice::pad_hardness>("ShoreA", 20, 80), "hardness of the pad; its modulus follows by Gent's relation instead of the catalogue's", '-', ""},

  {"packing.region", word<&Case::shoeing, &Shoeing::packing, &Packing::region>(words::kRegion, words::kRegionToo), "part of the sole that is filled", '-', ""},
  {"packing.material", material<&Case::material, &MaterialChoice::packing>("packing"), "catalogue id of the packing", '-', ""},
  {"packing.hardness", number<&Case::material, &MaterialChoice::packing_hardness>("ShoreA", 20, 80), "hardness of the set packing; its modulus follows by Gent's relation instead of the catalogue's", '-', ""},
  {"packing.order", word<&Case::shoeing, &Shoeing::packing, &Packing::order>(words::kOrder, words::kOrderToo), "whether it goes in before or after the shoe is nailed", '-', ""},
  {"packing.bond", word<&Case::shoeing, &Shoeing::packing, &Packing::bond>(words::kBond), "how it holds to sole and backing", '-', ""},
  {"packing.proud", packing<&Packing::proud>("mm", 0, 6), "height beyond the void over a backing, beyond the shoe's ground face without one", '-', ""},
  {"packing.thickness", packing<&Packing::thickness>("mm", 0, 40), "filled depth above the backing or ground face; 0 fills the void to the sole", '-', ""},
  {"packing.rested", number<&Case::material, &MaterialChoice::packing_rested>("s", 0, 86400), "time since the shoe was nailed over which the packing has relaxed, e.g. \"10 min\"", '-', ""},

  {"ground.type", word<&Case::ground, &Ground::type>(words::kGround, words::kGroundToo), "rigid ground or an elastic bed", '-', ""},
  {"ground.material", material<&Case::material, &MaterialChoice::ground>("ground"), "catalogue id of an elastic bed", '-', ""},
  {"ground.depth", number<&Case::ground, &Ground::depth>("mm", 5, 2000), "depth of an elastic bed over a rigid base", 'D', "assumed"},
  {"ground.friction", number<&Case::ground, &Ground::friction>("", 0, 2), "coefficient of friction on the ground; left out, the catalogue's pair holds", '-', ""},

  {"load.gait", word<&Case::load, &Load::gait>(words::kGait), "gait of midstance, breakover and stance", '-', ""},
  {"load.phases", word_list<&Case::load, &Load::phases>(words::kPhase, words::kPhaseToo), "phases to solve", '-', "", whole_case},
  {"load.standing_force", load<&Load::standing_force>("N/kg", 0.5, 10), "vertical ground force of the limb when standing", 'D', "28 % of body weight; van Eps 2021 measured 27.3 %"},
  {"load.standing_cop", load<&Load::standing_cop>("mm", -60, 80), "the baseline's centre of pressure ahead of the joint centre when standing", 'D', "assumed"},
  {"load.midstance_at", load<&Load::midstance_at>("%", 20, 80), "part of stance at which midstance is solved", 'D', "assumed"},
  {"load.steps", integer<&Case::load, &Load::steps>(3, 101), "steps of the phase \"stance\"", '-', ""},
  {"load.curve", text<&Case::load, &Load::curve>(), "file of a stance that replaces the gait's, relative to the case file, or its text: rows \"time,normal,tangential,pastern\", the second row its units; see docs/theory.md, section 19", '-', ""},
  {"load.posture", word<&Case::load, &Load::posture>(words::kPosture), "whether the limb above the foot holds its posture when the shoe raises the heel, or passively follows by measured ratios", 'A', "Crevier-Denoix 2001: coffin 0.98, pastern 0.24, fetlock 0.23 deg per deg"},
  {"load.tendon_stiffness", load<&Load::tendon_stiffness>("N/mm", 50, 1000), "deep flexor tendon with its accessory ligament", 'A', "Swanstrom 2004"},
  {"load.force", load<&Load::force>("N", 1, 20000), "vertical force of the phase \"press\"", '-', ""},
  {"load.tendon_force", load<&Load::tendon_force>("N", 0, 15000), "tendon force of the phase \"press\"; 0 N is slack", '-', ""},

  {"study.density", number<&Case::study, &Study::density>("", 0.25, 4), "mesh divisions relative to the default", '-', ""},
  {"study.bars", flag<&Case::study, &Study::bars>(), "discretisation bars from a coarser twin", '-', "", whole_case},
  {"study.samples", integer<&Case::study, &Study::samples>(0, 100000), "draws of what is uncertain, for the intervals; 0 for none", '-', "", whole_case},
  {"study.seed", integer<&Case::study, &Study::seed>(0, 9007199254740991), "seed of the draws", '-', "", whole_case},
  {"study.vary", word_list<&Case::study, &Study::vary>(words::kUncertain, words::kUncertainToo), "what the draws vary (docs/uncertainty.md)", '-', "", whole_case},
  {"study.sample_density", number<&Case::study, &Study::sample_density>("", 0.25, 4), "mesh divisions of the draws, relative to the default; coarser than study.density saves time, and the interval is then that of the coarse mesh", '-', "", whole_case},
  {"study.models", word_list<&Case::study, &Study::models>(words::kModel, words::kModelToo), "models to solve", '-', "", whole_case},
  {"study.bone", word<&Case::study, &Study::bone>(words::kBone), "distal phalanx of the axisymmetric model", '-', ""},
};
// clang-format on

struct KeySynonym {
  std::string_view word, key;
};

constexpr std::array kSynonyms = {
    KeySynonym{"foot.plantar_angle", "foot.palmar_angle"},
    KeySynonym{"foot.bone_angle", "foot.palmar_angle"},
    KeySynonym{"foot.sole_depth", "foot.sole_depth_tip"},
    KeySynonym{"foot.hl_prox", "foot.hl_proximal"},
    KeySynonym{"foot.hl_dist", "foot.hl_distal"},
    KeySynonym{"foot.toe_to_centre", "foot.toe_to_cor"},
    KeySynonym{"foot.toe_to_center", "foot.toe_to_cor"},
    KeySynonym{"foot.centre_height", "foot.cor_height"},
    KeySynonym{"foot.center_height", "foot.cor_height"},
    KeySynonym{"shoe.wedge", "shoe.elevation"},
    KeySynonym{"shoe.heel_elevation", "shoe.elevation"},
    KeySynonym{"shoe.toe_shape", "shoe.toe"},
    KeySynonym{"nails.clench", "nails.preload"},
    KeySynonym{"nails.clinch", "nails.preload"},
    KeySynonym{"schema_version", "schema"},
};

constexpr std::array<std::string_view, 10> kSections = {"horse",   "foot",   "shoe", "nails",     "pad",
                                                        "packing", "ground", "load", "materials", "study"};

}  // namespace

std::span<const Key> case_keys() { return kKeys; }

std::span<const std::string_view> case_sections() { return kSections; }

const Key* find_key(std::string_view name) {
  for (const KeySynonym& s : kSynonyms)
    if (s.word == name) name = s.key;
  for (const Key& key : kKeys)
    if (key.name == name) return &key;
  return nullptr;
}

std::vector<std::string_view> synonyms_of(std::string_view key) {
  std::vector<std::string_view> names;
  for (const KeySynonym& s : kSynonyms)
    if (s.key == key) names.push_back(s.word);
  return names;
}

}  // namespace hoofload::scenarios
