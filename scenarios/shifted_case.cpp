#include "scenarios/shifted_case.hpp"

#include "scenarios/foot_pose.hpp"
#include "scenarios/units.hpp"

#include <algorithm>

namespace hoofload::scenarios {

namespace {

double factor_of(const Input& input) {
  const Unit* unit = find_unit(input.unit);
  return input.key == nullptr || unit == nullptr ? 1 : unit->factor;
}

MaterialOverride* find_override(Case& c, const Input& input) {
  for (MaterialOverride& o : c.overrides)
    if (o.material == input.material && o.parameter == input.parameter) return &o;
  return nullptr;
}

void set_number(const Input& input, double value, Case& c) {
  if (input.key != nullptr) {
    std::get<NumberAt>(input.key->binding).set(c, value * factor_of(input));
  } else if (MaterialOverride* o = find_override(c, input)) {
    o->value = value;
  } else {
    c.overrides.push_back({input.material, input.parameter, value, input.unit});
    std::sort(c.overrides.begin(), c.overrides.end(), [](const auto& a, const auto& b) {
      return std::tie(a.material, a.parameter) < std::tie(b.material, b.parameter);
    });
  }
}

/// What is wrong with a number there, "" if nothing.
std::string out_of_range(const Input& input, double value, const MaterialWords& words) {
  bool is_in = true;
  if (input.key != nullptr) {
    const auto& number = std::get<NumberAt>(input.key->binding);
    is_in = value >= number.low && value <= number.high;
  } else {
    for (const ParameterWord& p : find_material(words, input.material)->parameters)
      if (p.name == input.parameter) is_in = value > p.above && value < p.below;
  }
  return is_in ? "" : input.name + " would leave the range that is allowed";
}

/// The foot that follows exactly from what is given, and which of its keys did.
struct FollowedFoot {
  Case c;
  std::vector<std::string> followed;
};
FollowedFoot followed_from(const Case& c, const std::vector<Shift>& shifts) {
  FollowedFoot foot{c, {}};
  const auto is_moved = [&](std::string_view key) {
    return std::any_of(shifts.begin(), shifts.end(), [&](const Shift& s) { return s.input.name == key; });
  };
  const auto is_given = [&](std::string_view key) {
    return std::find(c.given.begin(), c.given.end(), key) != c.given.end() || is_moved(key);
  };
  const Case reference;
  for (const std::string& name : c.followed) {
    const auto& number = std::get<NumberAt>(find_key(name)->binding);
    if (!is_moved(name)) number.set(foot.c, number.get(reference).value());
  }
  foot.followed = complete_foot(foot.c.foot, is_given, Stated::exactly);
  return foot;
}

bool moves_foot(const std::vector<Shift>& shifts) {
  return std::any_of(shifts.begin(), shifts.end(), [](const Shift& s) { return s.input.name.rfind("foot.", 0) == 0; });
}

}  // namespace

double number_of(const Input& input, const Case& c, const MaterialWords& words) {
  if (input.key != nullptr) return std::get<NumberAt>(input.key->binding).get(c).value_or(0) / factor_of(input);
  Case copy = c;
  if (const MaterialOverride* o = find_override(copy, input)) return o->value;
  for (const ParameterWord& p : find_material(words, input.material)->parameters)
    if (p.name == input.parameter) return p.value;
  return 0;
}

ShiftedCase shifted_case(const Case& c, const std::vector<Shift>& shifts, const MaterialWords& words) {
  ShiftedCase shifted{c, ""};
  for (const Shift& s : shifts) {
    const double value = number_of(s.input, c, words) + s.by;
    if (shifted.why = out_of_range(s.input, value, words); !shifted.why.empty()) return shifted;
    set_number(s.input, value, shifted.run);
  }
  if (!moves_foot(shifts)) return shifted;
  const FollowedFoot here = followed_from(c, shifts), there = followed_from(shifted.run, shifts);
  for (const std::string& name : here.followed) {
    const auto& number = std::get<NumberAt>(find_key(name)->binding);
    const double change = number.get(there.c).value() - number.get(here.c).value();
    number.set(shifted.run, number.get(c).value() + change);
  }
  return shifted;
}

}  // namespace hoofload::scenarios
