#include "scenarios/uncertainty_foot.hpp"

#include <algorithm>
#include <array>

namespace hoofload::scenarios {

namespace {

bool holds(const std::vector<std::string>& keys, std::string_view key) {
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

Distribution uniform(double low, double high) { return {Shape::uniform, low, high, 0, 0}; }

/// A length read on a film or on the foot, and how well it can be read (standard deviation, mm or degrees).
struct Measurement {
  std::string_view key;
  double sd;
  bool on_film;
};

// Landmarks of a radiograph: 0.5 mm a point is the error that a synthetic phantom allows (common practice, no source); an
// angle over a line of 55 to 75 mm between two such points has 0.5 degrees. Hoof measurements with rule and gauge: 1 mm, 1 degree.
constexpr std::array kMeasurements = {Measurement{"foot.toe_angle", 1, false},
                                      Measurement{"foot.heel_angle", 1.5, false},
                                      Measurement{"foot.toe_length", 1, false},
                                      Measurement{"foot.heel_length", 1, false},
                                      Measurement{"foot.bearing_length", 1, false},
                                      Measurement{"foot.bearing_width", 1, false},
                                      Measurement{"foot.wall_thickness_toe", 0.7, false},
                                      Measurement{"foot.wall_thickness_quarter", 0.7, false},
                                      Measurement{"foot.wall_thickness_heel", 0.7, false},
                                      Measurement{"foot.frog_width", 2, false},
                                      Measurement{"foot.frog_length", 2, false},
                                      Measurement{"foot.sole_cup", 1, false},
                                      Measurement{"foot.palmar_angle", 0.5, true},
                                      Measurement{"foot.sole_depth_tip", 0.7, true},
                                      Measurement{"foot.sole_depth_wing", 0.7, true},
                                      Measurement{"foot.sole_horn", 0.7, true},
                                      Measurement{"foot.hl_proximal", 0.7, true},
                                      Measurement{"foot.hl_distal", 0.7, true},
                                      Measurement{"foot.dorsal_length", 0.7, true},
                                      Measurement{"foot.palmar_length", 0.7, true},
                                      Measurement{"foot.toe_to_tip", 0.7, true},
                                      Measurement{"foot.toe_to_cor", 1, true},
                                      Measurement{"foot.cor_height", 1, true},
                                      Measurement{"foot.ddft_arm", 1.5, true},
                                      Measurement{"foot.pastern_angle", 1, true},
                                      Measurement{"foot.lamella_thickness", 0.3, true},
                                      Measurement{"foot.lamella_end", 3, true}};

/// A value that a case may leave out: its spread over feet, in the key's unit.
struct Spread {
  std::string_view key;
  double low, high;
  char grade;
  std::string_view source;
};

// docs/reference-foot.md, column "range"; the cup's upper end is cut where the reference bone leaves no room for it.
constexpr std::array kSpreads = {
    Spread{"foot.heel_angle", 40, 50, 'D', "within 5 deg of the toe angle"},
    Spread{"foot.lamella_thickness", 2.5, 3.5, 'B', "layers of published models, 2.5 to 3 mm; upper end assumed"},
    Spread{"foot.lamella_end", 6, 26, 'D', "assumed"},
    Spread{"foot.sole_cup", 5, 12, 'M', "from memory, 5 to 15 mm; upper end cut for room under the bone"},
    Spread{"foot.palmar_angle", 2, 8, 'M', "from memory, 2 to 8 deg"},
    Spread{"foot.sole_depth_tip", 10, 20, 'C', "clinical texts: 15 wanted, 18 to 20, below 10 thin"},
    Spread{"foot.hl_proximal", 14.5, 19, 'M', "from memory, 14 to 19 mm; lower end cut for wall and lamellae"},
    Spread{"foot.ddft_arm", 22, 32, 'M', "22 to 32 mm; no primary number found"},
    Spread{"foot.pastern_angle", 45, 55, 'D', "parallel to the dorsal wall, within 5 deg"}};

constexpr std::array<std::string_view, 8> kSizes = {"foot.toe_length",    "foot.heel_length",   "foot.bearing_length",
                                                    "foot.bearing_width", "foot.dorsal_length", "foot.palmar_length",
                                                    "foot.frog_width",    "foot.frog_length"};
constexpr std::array<std::string_view, 3> kWalls = {"foot.wall_thickness_toe", "foot.wall_thickness_quarter",
                                                    "foot.wall_thickness_heel"};

template <class Keys>
std::vector<Moved> moved_defaults(const Keys& keys, const Case& c) {
  std::vector<Moved> moved;
  for (const std::string_view key : keys)
    if (holds(c.defaulted, key)) moved.push_back({std::string(key), 1});
  return moved;
}

void add_if_moved(Uncertainty u, Uncertainties& list) {
  if (!u.moved.empty()) list.push_back(std::move(u));
}

/// A replaced value of one key that the case leaves to its default.
void add_spread(const Case& c, UncertainGroup group, const Spread& s, Uncertainties& list) {
  if (!holds(c.defaulted, s.key)) return;
  const std::string key(s.key);
  list.push_back({key,
                  group,
                  uniform(s.low, s.high),
                  std::string(unit_of(*find_key(s.key))),
                  Effect::replace,
                  {{key, 1}},
                  std::string(s.source),
                  s.grade});
}

}  // namespace

Uncertainties measuring_errors(const Case& c) {
  constexpr auto group = UncertainGroup::measurements;
  Uncertainties list;
  std::vector<Moved> magnified, centred;
  for (const Measurement& m : kMeasurements) {
    if (!holds(c.given, m.key)) continue;
    const std::string key(m.key), unit(unit_of(*find_key(m.key)));
    list.push_back({"reading of " + key,
                    group,
                    normal_around(0, m.sd),
                    unit,
                    Effect::add,
                    {{key, 1}},
                    m.on_film ? "two landmarks of 0.5 mm each; common practice, no source"
                              : "rule and gauge; common practice, no source",
                    'D'});
    if (m.on_film && unit == "mm") magnified.push_back({key, 1});
    if (m.key == "foot.palmar_angle" || m.key == "foot.sole_depth_tip") centred.push_back({key, 1});
  }
  add_if_moved(
      {"magnification of the radiograph", group, uniform(-0.035, 0.035), "", Effect::scale, magnified,
       "source to detector 1000 mm, foot 65 mm in front of it: 7 % if not corrected, half of it to either side", 'D'},
      list);
  add_if_moved(
      {"beam centring", group, uniform(-1, 1), "mm, deg", Effect::add, centred,
       "a lower beam gave smaller palmar angle and sole depth in 24 feet; the size, 1 mm and 1 deg, is assumed", 'D'},
      list);
  return list;
}

Uncertainties unmeasured_foot(const Case& c) {
  constexpr auto group = UncertainGroup::unmeasured_foot;
  Uncertainties list;
  for (const Spread& s : kSpreads) add_spread(c, group, s, list);
  add_if_moved(
      {"size of the unmeasured foot", group, uniform(-0.06, 0.06), "", Effect::scale, moved_defaults(kSizes, c),
       "assumed: lengths of hoof, bone and frog that were not measured move together", 'D'},
      list);
  add_if_moved({"thickness of the unmeasured wall", group, uniform(-0.15, 0.15), "", Effect::scale,
                moved_defaults(kWalls, c), "assumed: toe, quarters and heels together", 'D'},
               list);
  return list;
}

Uncertainties uncertain_loads(const Case& c) {
  constexpr auto group = UncertainGroup::loads;
  Uncertainties list;
  const bool is_weighed = holds(c.given, "horse.mass");
  list.push_back({"horse.mass",
                  group,
                  is_weighed ? normal_around(0, 0.03) : uniform(-0.2, 0.2),
                  "",
                  Effect::scale,
                  {{"horse.mass", 1}},
                  is_weighed ? "weight tape; common practice, no source" : "400 to 600 kg, assumed",
                  'D'});
  add_spread(c, group,
             {"load.standing_force", 2.5, 3.0, 'D', "27.3 % of body weight measured, van Eps 2021; spread assumed"},
             list);
  add_spread(c, group, {"load.standing_cop", 5, 25, 'D', "assumed"}, list);
  add_spread(c, group, {"load.midstance_at", 45, 55, 'D', "assumed"}, list);
  if (holds(c.defaulted, "load.tendon_stiffness"))
    list.push_back({"load.tendon_stiffness",
                    group,
                    normal_around(247, 11),
                    "N/mm",
                    Effect::replace,
                    {{"load.tendon_stiffness", 1}},
                    "Swanstrom 2004, 247 +- 11 N/mm",
                    'A'});
  return list;
}

Uncertainties uncertain_shoeing(const Case& c) {
  constexpr auto group = UncertainGroup::shoeing;
  Uncertainties list;
  add_spread(c, group, {"shoe.breakover", 4, 8, 'D', "worn flat shoe, 6 mm; spread assumed"}, list);
  add_spread(c, group, {"nails.preload", 40, 160, 'D', "assumed"}, list);
  return list;
}

}  // namespace hoofload::scenarios
