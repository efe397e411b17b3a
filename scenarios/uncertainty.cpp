#include "scenarios/uncertainty.hpp"

#include "scenarios/case_words.hpp"
#include "scenarios/uncertainty_foot.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <set>

namespace hoofload::scenarios {

namespace {

constexpr double kWide = 3;  ///< ends so many times apart: only the order of magnitude is known

// What the models are made of beside the chosen materials (build_axisymmetric.cpp, build_sagittal.cpp, sagittal_springs.cpp).
constexpr std::array<std::string_view, 4> kTissues = {"wall", "sole horn", "sole corium", "lamellae"};
constexpr std::array<std::string_view, 1> kOnlyAxisymmetric = {"white line"};
constexpr std::array<std::string_view, 2> kOnlySagittal = {"frog horn", "digital cushion palmar"};

bool solves(const Case& c, ModelKind kind) {
  return std::find(c.study.models.begin(), c.study.models.end(), kind) != c.study.models.end();
}

bool is_set(const Case& c, const std::string& material, const std::string& parameter) {
  return std::any_of(c.overrides.begin(), c.overrides.end(),
                     [&](const MaterialOverride& o) { return o.material == material && o.parameter == parameter; });
}

void add_material(const Case& c, const materials::Catalogue& catalogue, std::string_view id, UncertainGroup group,
                  Uncertainties& list) {
  const materials::Entry* entry = materials::find(catalogue, id);
  if (entry == nullptr) return;
  for (const auto& [name, v] : entry->parameters) {
    if (is_set(c, entry->id, name) || !(v.low < v.high)) continue;
    const std::string input = "materials." + entry->id + "." + name;
    list.push_back({input,
                    group,
                    distribution_of(v),
                    v.unit == "1" ? "" : v.unit,
                    Effect::replace,
                    {{input, 1}},
                    v.source.empty() ? entry->source : v.source,
                    v.grade});
  }
}

void add_tissues(const Case& c, const materials::Catalogue& catalogue, Uncertainties& list) {
  const auto add = [&](std::string_view id) { add_material(c, catalogue, id, UncertainGroup::tissues, list); };
  for (const std::string_view id : kTissues) add(id);
  if (solves(c, ModelKind::axisymmetric))
    for (const std::string_view id : kOnlyAxisymmetric) add(id);
  if (solves(c, ModelKind::sagittal))
    for (const std::string_view id : kOnlySagittal) add(id);
}

/// The materials that any of the runs chooses.
std::set<std::string> chosen_materials(const std::vector<Case>& runs) {
  std::set<std::string> ids;
  for (const Case& c : runs) {
    ids.insert(c.material.shoe);
    if (c.shoeing.shoe.layer_thickness > 0) ids.insert(c.material.layer);
    if (c.shoeing.pad.type != mesh::PadType::none && !c.material.pad_hardness) ids.insert(c.material.pad);
    if (c.shoeing.packing.region != mesh::PackingRegion::none && !c.material.packing_hardness)
      ids.insert(c.material.packing);
    if (c.ground.type == GroundType::elastic) ids.insert(c.material.ground);
  }
  ids.erase("");
  return ids;
}

/// A hardness that the baseline gives has the error of reading a durometer.
void add_hardness(const Case& c, std::string_view key, Uncertainties& list) {
  if (std::find(c.given.begin(), c.given.end(), key) == c.given.end()) return;
  list.push_back({"reading of " + std::string(key),
                  UncertainGroup::shoeing,
                  normal_around(0, 1.5),
                  "ShoreA",
                  Effect::add,
                  {{std::string(key), 1}},
                  "reading error of a bench durometer, +- 3, common practice",
                  'C'});
}

void append(Uncertainties more, const Case& c, UncertainGroup group, Uncertainties& list) {
  const auto& wanted = c.study.vary;
  if (std::find(wanted.begin(), wanted.end(), group) == wanted.end()) return;
  list.insert(list.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

std::string nine_figures(double x) {
  std::array<char, 40> text{};
  std::snprintf(text.data(), text.size(), "%.9g", x);
  return number_text(parse_number(text.data()).value_or(x));
}

}  // namespace

Distribution distribution_of(const materials::Graded& v) {
  const bool is_wide = v.low > 0 && v.high > kWide * v.low;
  if (v.grade == 'A' || v.grade == 'B')
    return is_wide ? Distribution{Shape::log_normal, v.low, v.high, v.value, std::log(v.high / v.low) / 4}
                   : Distribution{Shape::normal, v.low, v.high, v.value, (v.high - v.low) / 4};
  return {is_wide ? Shape::log_uniform : Shape::uniform, v.low, v.high, 0, 0};
}

Uncertainties uncertainties(const std::vector<Case>& runs, const materials::Catalogue& catalogue) {
  const Case& c = runs.front();
  Uncertainties list, tissues, shoeing = uncertain_shoeing(c);
  append(measuring_errors(c), c, UncertainGroup::measurements, list);
  append(unmeasured_foot(c), c, UncertainGroup::unmeasured_foot, list);
  add_tissues(c, catalogue, tissues);
  append(std::move(tissues), c, UncertainGroup::tissues, list);
  for (const std::string& id : chosen_materials(runs)) add_material(c, catalogue, id, UncertainGroup::shoeing, shoeing);
  for (const char* key : {"packing.hardness", "pad.hardness"}) add_hardness(c, key, shoeing);
  append(std::move(shoeing), c, UncertainGroup::shoeing, list);
  append(uncertain_loads(c), c, UncertainGroup::loads, list);
  return list;
}

double value_in_case(const std::string& name, const Case& c, const MaterialWords& words) {
  const Input input = find_input(name, words).value();
  if (input.key != nullptr) {
    const Unit* unit = find_unit(input.unit);
    return std::get<NumberAt>(input.key->binding).get(c).value_or(0) / (unit == nullptr ? 1 : unit->factor);
  }
  for (const ParameterWord& p : find_material(words, input.material)->parameters)
    if (p.name == input.parameter) return p.value;
  return 0;
}

std::vector<InputValue> drawn_inputs(const Uncertainties& list, const Case& baseline, const MaterialWords& words,
                                     const std::vector<double>& shares) {
  std::map<std::string, double> values;
  const auto at = [&](const std::string& name) -> double& {
    return values.try_emplace(name, value_in_case(name, baseline, words)).first->second;
  };
  for (const Effect effect : {Effect::replace, Effect::scale, Effect::add})
    for (std::size_t k = 0; k < list.size(); ++k) {
      if (list[k].effect != effect) continue;
      const double drawn = quantile(list[k].distribution, shares[k]);
      for (const Moved& m : list[k].moved) {
        double& value = at(m.input);
        if (effect == Effect::replace) value = m.weight * drawn;
        if (effect == Effect::scale) value *= 1 + m.weight * drawn;
        if (effect == Effect::add) value += m.weight * drawn;
      }
    }
  std::vector<InputValue> inputs;
  for (const auto& [name, value] : values) inputs.push_back({find_input(name, words).value(), nine_figures(value)});
  return inputs;
}

std::string_view name_of(UncertainGroup group) { return words::kUncertain[static_cast<std::size_t>(group)]; }

}  // namespace hoofload::scenarios
