#include "scenarios/case_checks.hpp"

#include "scenarios/foot_pose.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <cmath>

namespace hoofload::scenarios {
namespace {

using mesh::Attachment;
using mesh::PackingOrder;
using mesh::PackingRegion;
using mesh::PadType;
using mesh::ShoeType;
using mesh::ToeShape;

// Two tangent lengths that should be equal are compared with what a radiograph can resolve (common practice, no source).
constexpr double kReadable = 3;
// A branch may run to the bulbs and a little past them before it is longer than its foot (common practice: egg bar to
// the bulbs, not past).
constexpr double kPastBulbs = 8;
// The thinnest corium that can be meshed and that a foot can have.
constexpr double kThinnestCorium = 1;

std::string mm(double value) { return number_text(std::round(value * 100) / 100) + " mm"; }

using Clashes = std::vector<Clash>;

/// Adds a clash unless the condition holds.
void require(Clashes& found, bool holds, std::vector<std::string_view> keys, std::string problem, std::string value,
             std::string allowed) {
  if (!holds) found.push_back({std::move(keys), std::move(problem), std::move(value), std::move(allowed)});
}

bool is_plated(const Case& c) {
  const ShoeType type = c.shoeing.shoe.type;
  return type != ShoeType::bare && type != ShoeType::open;
}

bool has_backing(const Case& c) { return is_plated(c) || c.shoeing.pad.type == PadType::full; }

bool has_pad(const Case& c) { return c.shoeing.shoe.type != ShoeType::bare && c.shoeing.pad.type != PadType::none; }

bool is_bar(const Case& c) {
  return c.shoeing.shoe.type == ShoeType::straight_bar || c.shoeing.shoe.type == ShoeType::egg_bar;
}

bool has_phase(const Case& c, Phase phase) {
  return std::find(c.load.phases.begin(), c.load.phases.end(), phase) != c.load.phases.end();
}

bool walks(const Case& c) {
  return has_phase(c, Phase::midstance) || has_phase(c, Phase::breakover) || has_phase(c, Phase::stance);
}

void check_sole(const mesh::Foot& f, Clashes& found) {
  const double bone = bone_height(f);
  require(found, f.sole_depth_tip < bone, {"foot.sole_depth_tip", "foot.dorsal_length", "foot.palmar_angle"},
          "impossible geometry: the sole is deeper than the bone is high",
          mm(f.sole_depth_tip) + " against " + mm(bone), "sole_depth_tip below the height of the distal phalanx");
  require(found, f.sole_horn + kThinnestCorium <= f.sole_depth_tip, {"foot.sole_horn", "foot.sole_depth_tip"},
          "impossible geometry: the sole's horn leaves no corium below the bone",
          mm(f.sole_horn) + " of " + mm(f.sole_depth_tip), "sole_horn at least 1 mm below sole_depth_tip");
  const double room = tip_height(f) + f.palmar_length / 2 * std::sin(f.palmar_angle) + f.palmar_length / 20;
  require(found, f.sole_cup + f.sole_horn + kThinnestCorium <= room,
          {"foot.sole_cup", "foot.sole_horn", "foot.palmar_angle", "foot.sole_depth_tip"},
          "impossible geometry: cup and sole horn reach into the bone",
          mm(f.sole_cup + f.sole_horn) + " below a bone " + mm(room) + " high at mid-sole",
          "sole_cup + sole_horn at least 1 mm below the bone's lower border");
}

void check_wall(const mesh::Foot& f, Clashes& found) {
  const double narrow = std::min(f.hl_proximal, f.hl_distal);
  require(found, f.wall_thickness_toe + f.lamella_thickness <= narrow + 1e-9,
          {"foot.wall_thickness_toe", "foot.lamella_thickness", "foot.hl_distal", "foot.hl_proximal",
           "foot.palmar_angle", "foot.toe_angle"},
          "impossible geometry: wall and lamellae are thicker than the horn-lamellar distance",
          mm(f.wall_thickness_toe) + " + " + mm(f.lamella_thickness) + " against " + mm(narrow),
          "wall_thickness_toe + lamella_thickness at most hl_proximal and hl_distal");
  require(found, f.heel_length * std::sin(f.heel_angle) < f.toe_length * std::sin(f.toe_angle),
          {"foot.heel_length", "foot.toe_length"}, "impossible geometry: the heel is higher than the toe",
          mm(f.heel_length * std::sin(f.heel_angle)) + " against " + mm(f.toe_length * std::sin(f.toe_angle)),
          "heel height below toe height");
  const double low = f.bearing_length / 2;
  require(found, f.lamella_end < low, {"foot.lamella_end", "foot.bearing_length"},
          "impossible geometry: the lamellae would end in the dorsal half of the foot", mm(f.lamella_end),
          "less than half of bearing_length, " + mm(low));
  const double thick = std::max(f.wall_thickness_quarter, f.wall_thickness_heel);
  require(found, 4 * thick < f.bearing_width,
          {"foot.wall_thickness_quarter", "foot.wall_thickness_heel", "foot.bearing_width"},
          "impossible geometry: the walls fill the foot", mm(thick), "less than a quarter of bearing_width");
}

void check_bone(const mesh::Foot& f, Clashes& found) {
  require(found, f.toe_to_tip < f.toe_to_cor,
          {"foot.toe_to_tip", "foot.toe_to_cor", "foot.hl_distal", "foot.sole_depth_tip"},
          "impossible geometry: the joint lies in front of the bone's tip",
          mm(f.toe_to_cor) + " against " + mm(f.toe_to_tip), "toe_to_tip less than toe_to_cor");
  require(found, f.toe_to_cor < f.bearing_length, {"foot.toe_to_cor", "foot.bearing_length", "foot.palmar_angle"},
          "impossible geometry: the joint lies behind the foot", mm(f.toe_to_cor) + " against " + mm(f.bearing_length),
          "toe_to_cor less than bearing_length");
  require(found, f.cor_height > tip_height(f), {"foot.cor_height", "foot.sole_depth_tip", "foot.palmar_angle"},
          "impossible geometry: the joint lies below the bone's tip",
          mm(f.cor_height) + " against " + mm(tip_height(f)), "cor_height above the bone's tip");
  require(found, f.frog_length < f.bearing_length, {"foot.frog_length", "foot.bearing_length"},
          "impossible geometry: the frog is longer than the foot", mm(f.frog_length), "less than bearing_length");
  require(found, f.frog_width < 0.8 * f.bearing_width, {"foot.frog_width", "foot.bearing_width"},
          "impossible geometry: the frog is as wide as the foot", mm(f.frog_width), "less than 80 % of bearing_width");
}

void check_shoe(const Case& c, Clashes& found) {
  const mesh::Foot& f = c.foot;
  const mesh::Shoe& s = c.shoeing.shoe;
  const double overhang = f.heel_length * std::cos(f.heel_angle) + kPastBulbs;
  require(found, s.heel_extension + s.setback <= overhang, {"shoe.heel_extension", "shoe.setback", "foot.heel_length"},
          "impossible geometry: the shoe is longer than its foot",
          mm(s.heel_extension + s.setback) + " behind the heel buttress",
          "at most " + mm(overhang) + ", just past the bulbs");
  require(found, 2 * s.web < f.bearing_width, {"shoe.web", "foot.bearing_width"},
          "impossible geometry: the branches are wider than the foot", "twice " + mm(s.web),
          "web less than half of bearing_width, " + mm(f.bearing_width / 2));
  require(found, s.setback < s.web, {"shoe.setback", "shoe.web"},
          "impossible geometry: set back further than the web is wide, so the toe wall misses the shoe",
          mm(s.setback) + " against " + mm(s.web), "setback less than web");
  const double start = s.toe == ToeShape::rocker ? std::max(s.breakover, s.rocker_start) : s.breakover;
  require(found, s.setback + start < f.toe_to_cor,
          {"shoe.breakover", "shoe.rocker_start", "shoe.setback", "foot.toe_to_cor"},
          "impossible geometry: the shoe breaks over behind the coffin joint",
          mm(s.setback + start) + " behind the toe", "setback + breakover less than toe_to_cor, " + mm(f.toe_to_cor));
  require(found, s.layer_thickness < s.thickness, {"shoe.layer_thickness", "shoe.thickness"},
          "impossible geometry: the lower layer is as thick as the shoe",
          mm(s.layer_thickness) + " of " + mm(s.thickness), "less than thickness");
  if (s.toe == ToeShape::rocker) {
    const double cut = s.rocker_start * std::tan(s.rocker_angle);
    require(found, cut < s.thickness, {"shoe.rocker_angle", "shoe.rocker_start", "shoe.thickness"},
            "impossible geometry: the rocker cuts through the shoe's front edge", mm(cut) + " of " + mm(s.thickness),
            "rocker_start x tan(rocker_angle) less than thickness");
  }
  if (is_plated(c)) {
    require(found, s.plate_thickness + s.plate_recess <= s.thickness,
            {"shoe.plate_thickness", "shoe.plate_recess", "shoe.thickness"},
            "impossible geometry: negative void, the plate stands above the shoe",
            mm(s.plate_thickness) + " + " + mm(s.plate_recess) + " in " + mm(s.thickness),
            "plate_thickness + plate_recess at most thickness");
  }
}

void check_nails(const Case& c, Clashes& found) {
  const mesh::Nails& n = c.shoeing.nails;
  const double branch = c.foot.bearing_length - c.shoeing.shoe.setback;
  require(found, n.first <= n.last, {"nails.first", "nails.last"}, "the first nail lies behind the last",
          mm(n.first) + " against " + mm(n.last), "nails.first at most nails.last");
  const double end = std::min(branch, branch + c.shoeing.shoe.heel_extension) - n.patch / 2;
  for (const auto& [key, at] : {std::pair{"nails.first", n.first}, std::pair{"nails.last", n.last}}) {
    require(found, at <= end, {key, "shoe.setback", "foot.bearing_length", "nails.patch"},
            "impossible geometry: nail outside the shoe and the wall", mm(at) + " behind the shoe's toe",
            "at most " + mm(end));
  }
}

void check_packing(const Case& c, Clashes& found) {
  const mesh::Packing& p = c.shoeing.packing;
  const mesh::Shoe& s = c.shoeing.shoe;
  require(found, !c.material.packing.empty(), {"packing.region", "packing.material"}, "packing without a material",
          "no packing.material", "packing.material, or packing.region = \"none\"");
  require(found, p.proud == 0 || p.thickness == 0, {"packing.proud", "packing.thickness"},
          "contradictory: a filling of given depth does not reach the sole, so nothing of it is proud",
          "proud " + mm(p.proud) + ", thickness " + mm(p.thickness), "one of the two");
  const bool poured = p.order == PackingOrder::after_nailing && has_backing(c);
  require(found, p.proud == 0 || !poured, {"packing.proud", "packing.order"},
          "contradictory: over a backing, packing that goes in after nailing just fills the void",
          "proud " + mm(p.proud), "order = \"before nailing\", or no proud");
  const double plate = is_plated(c) ? s.plate_thickness + s.plate_recess : 0;
  const double pad = has_pad(c) ? c.shoeing.pad.thickness : 0;
  const bool padded_over = c.shoeing.pad.type == PadType::full;
  const double depth = c.foot.sole_cup + (padded_over ? 0 : s.thickness + pad - plate);
  require(found, p.thickness <= depth + 1e-9, {"packing.thickness", "foot.sole_cup", "shoe.thickness"},
          "impossible geometry: the filling is deeper than the void", mm(p.thickness) + " in " + mm(depth),
          "at most the void's depth");
}

void check_companions(const Case& c, Clashes& found) {
  if (has_pad(c)) {
    require(found, !c.material.pad.empty(), {"pad.type", "pad.material"}, "pad without a material", "no pad.material",
            "pad.material, or pad.type = \"none\"");
  }
  if (c.shoeing.shoe.layer_thickness > 0 && c.shoeing.shoe.type != ShoeType::bare) {
    require(found, !c.material.layer.empty(), {"shoe.layer_thickness", "shoe.layer_material"},
            "layer without a material", "no shoe.layer_material", "shoe.layer_material, or no layer");
  }
  if (c.ground.type == GroundType::elastic) {
    require(found, !c.material.ground.empty() && c.material.ground != "rigid", {"ground.type", "ground.material"},
            "elastic ground without a material", c.material.ground.empty() ? "no ground.material" : c.material.ground,
            "ground.material, e.g. \"turf\", or ground.type = \"rigid\"");
  }
  if (has_phase(c, Phase::press)) {
    require(found, c.load.force.has_value(), {"load.phases", "load.force"}, "phase \"press\" without a force",
            "no load.force", "load.force, e.g. \"2500 N\"");
  }
}

/// The first rule that matches a key's name says whether it is idle.
struct Idle {
  std::string_view key;  ///< a key, or a section with its dot
  bool idle;
  std::string_view reason;
  bool contradiction = true;
};

std::vector<Idle> shoe_rules(const Case& c) {
  const mesh::Shoe& s = c.shoeing.shoe;
  const bool bare = s.type == ShoeType::bare;
  return {
      {"shoe.type", false, ""},
      {"shoe.", bare, "the foot is bare"},
      {"shoe.roll_radius", s.toe != ToeShape::rolled, "the toe is not rolled"},
      {"shoe.rocker_start", s.toe != ToeShape::rocker, "the toe is no rocker"},
      {"shoe.rocker_angle", s.toe != ToeShape::rocker, "the toe is no rocker"},
      {"shoe.plate_", !is_plated(c), "this type of shoe has no plate or bar"},
      {"shoe.bar_width", !is_bar(c), "this type of shoe has no straight or egg bar"},
      {"shoe.layer_material", s.layer_thickness == 0, "the shoe has no lower layer (layer_thickness)"},
      {"nails.", bare, "the foot is bare"},
      {"nails.", s.attachment != Attachment::nailed, "the shoe is not nailed"},
      {"pad.type", bare, "the foot is bare", c.shoeing.pad.type != PadType::none},
      {"pad.type", false, ""},
      {"pad.", bare, "the foot is bare"},
      {"pad.", c.shoeing.pad.type == PadType::none, "there is no pad (pad.type)"},
      {"packing.region", bare, "the foot is bare", c.shoeing.packing.region != PackingRegion::none},
      {"packing.region", false, ""},
      {"packing.", bare, "the foot is bare"},
      {"packing.", c.shoeing.packing.region == PackingRegion::none, "there is no packing (packing.region)"},
  };
}

std::vector<Idle> load_rules(const Case& c) {
  const bool rigid = c.ground.type == GroundType::rigid;
  const bool press = has_phase(c, Phase::press);
  const bool axisymmetric =
      std::find(c.study.models.begin(), c.study.models.end(), ModelKind::axisymmetric) != c.study.models.end();
  return {
      {"ground.material", rigid, "the ground is rigid"},
      {"ground.depth", rigid, "the ground is rigid"},
      {"load.force", !press, "the phase \"press\" is not asked for (load.phases)"},
      {"load.tendon_force", !press, "the phase \"press\" is not asked for (load.phases)"},
      {"load.gait", !walks(c), "no phase of the gait is asked for", false},
      {"load.standing_", !has_phase(c, Phase::standing), "the phase \"standing\" is not asked for", false},
      {"load.midstance_at", !has_phase(c, Phase::midstance), "the phase \"midstance\" is not asked for", false},
      {"load.curve", !walks(c), "no phase of the gait is asked for", false},
      {"load.posture", c.shoeing.shoe.elevation == 0 || c.shoeing.shoe.type == ShoeType::bare,
       "the shoe does not raise the heel", false},
      {"load.steps", !has_phase(c, Phase::stance), "the phase \"stance\" is not asked for", false},
      {"study.vary", c.study.samples == 0, "no draws are asked for (study.samples)", false},
      {"study.sample_density", c.study.samples == 0, "no draws are asked for (study.samples)", false},
      {"study.bone", !axisymmetric, "the axisymmetric model is not asked for", false},
  };
}

/// Rules written for a section or a common beginning end in '.' or '_'; the others name one key.
bool covers(std::string_view rule, std::string_view key) {
  return rule == key || ((rule.back() == '.' || rule.back() == '_') && key.substr(0, rule.size()) == rule);
}

}  // namespace

std::vector<Clash> clashes(const Case& c) {
  Clashes found;
  check_sole(c.foot, found);
  check_wall(c.foot, found);
  check_bone(c.foot, found);
  const bool shod = c.shoeing.shoe.type != ShoeType::bare;
  if (shod) check_shoe(c, found);
  if (shod && c.shoeing.shoe.attachment == Attachment::nailed) check_nails(c, found);
  if (shod && c.shoeing.packing.region != PackingRegion::none) check_packing(c, found);
  check_companions(c, found);
  return found;
}

std::vector<Clash> doubts(const Case& c) {
  Clashes found;
  const auto agree = [&](std::string_view key, double given, double implied, std::vector<std::string_view> keys) {
    keys.insert(keys.begin(), key);
    require(found, std::abs(given - implied) <= kReadable, std::move(keys),
            "measurements disagree: the others imply " + mm(implied), mm(given), "within 3 mm");
  };
  const mesh::Foot& f = c.foot;
  agree("foot.hl_distal", f.hl_distal, implied_hl_distal(f),
        {"foot.hl_proximal", "foot.palmar_angle", "foot.toe_angle"});
  agree("foot.toe_to_tip", f.toe_to_tip, implied_toe_to_tip(f),
        {"foot.hl_distal", "foot.sole_depth_tip", "foot.toe_angle"});
  agree("foot.sole_depth_wing", f.sole_depth_wing, implied_sole_depth_wing(f),
        {"foot.sole_depth_tip", "foot.palmar_angle"});
  return found;
}

Unused why_unused(const Case& c, std::string_view key) {
  const bool about_load = key.rfind("ground.", 0) == 0 || key.rfind("load.", 0) == 0 || key.rfind("study.", 0) == 0;
  for (const Idle& rule : about_load ? load_rules(c) : shoe_rules(c)) {
    if (!covers(rule.key, key)) continue;
    if (rule.idle) return {rule.reason, rule.contradiction};
    if (rule.key == key && rule.reason.empty()) return {};
  }
  return {};
}

}  // namespace hoofload::scenarios
