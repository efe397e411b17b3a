#include "scenarios/sweep_vary.hpp"

#include "scenarios/nearest.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace hoofload::scenarios {

namespace {

using Problem = std::optional<VaryProblem>;

constexpr std::size_t kMostValues = 100000;
constexpr std::array<std::string_view, 4> kShapes = {"uniform", "log-uniform", "normal", "triangular"};

VaryProblem problem(const Value& value, std::string what, std::string allowed, std::string nearest = {}) {
  return {value.at, {std::move(what), std::move(allowed), std::move(nearest)}, written(value)};
}

double factor_of(const Input& input) {
  const Unit* unit = input.unit.empty() ? nullptr : find_unit(input.unit);
  return unit == nullptr ? 1 : unit->factor;
}

bool is_numeric(const Input& input) {
  return input.key == nullptr || std::holds_alternative<NumberAt>(input.key->binding);
}

std::string in_unit(const Input& input, double inside) {
  const std::string text = quantity_text(inside, find_unit(input.unit) == nullptr ? "" : input.unit);
  return text.substr(0, text.find(' '));
}

/// A catalogue parameter, between the bounds that its law admits.
Problem read_parameter(const Input& input, const Value& value, const MaterialWords& materials, std::string& text) {
  const NumberReading read = read_number(value, input.unit);
  if (!read.value) return VaryProblem{value.at, read.problem, written(value)};
  for (const ParameterWord& p : find_material(materials, input.material)->parameters)
    if (p.name == input.parameter && !(*read.value > p.above && *read.value < p.below))
      return problem(value, "out of range", "above " + number_text(p.above) + ", below " + number_text(p.below));
  text = in_unit(input, *read.value);
  return {};
}

/// One value, checked as in a case file, as text without its unit.
Problem read_one(const Input& input, const Value& value, const MaterialWords& materials, std::string& text) {
  if (input.key == nullptr) return read_parameter(input, value, materials, text);
  Case scratch;
  if (const auto wrong = set_value(*input.key, value, materials, scratch))
    return VaryProblem{value.at, *wrong, written(value)};
  if (const auto* number = std::get_if<NumberAt>(&input.key->binding)) {
    text = in_unit(input, number->get(scratch).value());
  } else {
    text = toml_value(*input.key, scratch);
    if (text.size() >= 2 && text.front() == '"') text = text.substr(1, text.size() - 2);
  }
  return {};
}

Problem read_values(const Input& input, const List& list, const MaterialWords& materials,
                    std::vector<std::string>& values) {
  for (const Value& one : list) {
    std::string text;
    if (const Problem wrong = read_one(input, one, materials, text)) return wrong;
    values.push_back(std::move(text));
  }
  return {};
}

/// The whole numbers from the first to the last of two.
std::vector<std::string> whole_numbers(const std::vector<std::string>& ends) {
  std::vector<std::string> values;
  const long first = std::stol(ends.front()), last = std::stol(ends.back());
  for (long k = first; k <= last && values.size() < kMostValues; ++k) values.push_back(std::to_string(k));
  return values;
}

Problem read_drawn_list(const Input& input, const Value& value, Variation& v) {
  const bool is_integer = input.key != nullptr && std::holds_alternative<IntegerAt>(input.key->binding);
  if (!is_numeric(input) && !is_integer) return {};
  if (v.values.size() != 2)
    return problem(value, "a drawn number needs two ends, found " + std::to_string(v.values.size()) + " values",
                   "[low, high], or a table with a distribution");
  const double low = parse_number(v.values[0]).value(), high = parse_number(v.values[1]).value();
  if (!(low < high)) return problem(value, "low is not below high", "[low, high]");
  if (is_integer) {
    v.values = whole_numbers(v.values);
    return {};
  }
  v.distribution = Distribution{Shape::uniform, low, high, 0, 0};
  v.values.clear();
  return {};
}

Problem read_list(const Input& input, const Value& value, SweepMethod method, const MaterialWords& materials,
                  Variation& v) {
  const auto& list = std::get<List>(value.content);
  if (list.empty() || list.size() > kMostValues)
    return problem(value, list.empty() ? "empty list" : "too many values", "1 to " + std::to_string(kMostValues));
  if (const Problem wrong = read_values(input, list, materials, v.values)) return wrong;
  if (is_drawn(method)) return read_drawn_list(input, value, v);
  if (method == SweepMethod::list) return {};
  std::vector<std::string> sorted = v.values;
  std::sort(sorted.begin(), sorted.end());
  if (std::adjacent_find(sorted.begin(), sorted.end()) != sorted.end())
    return problem(value, "a value stands twice in the list", "each once");
  return {};
}

/// The members of a table by name; anything else in it is a problem.
struct Fields {
  const Table& table;
  [[nodiscard]] const Value* find(std::string_view name) const {
    for (const Member& m : table)
      if (m.key == name) return &m.value;
    return nullptr;
  }
};

Problem unknown_field(const Fields& fields, std::span<const std::string_view> known) {
  for (const Member& m : fields.table) {
    if (std::find(known.begin(), known.end(), m.key) != known.end()) continue;
    std::string allowed;
    for (const std::string_view k : known) allowed += (allowed.empty() ? "" : ", ") + std::string(k);
    return VaryProblem{m.at, {"unknown key: " + shown_text(m.key), allowed, nearest_name(m.key, known)}, ""};
  }
  return {};
}

/// A number of the table in the input's unit; `sd` may have any size.
Problem read_field(const Input& input, const Fields& fields, std::string_view name, const Value& whole,
                   const MaterialWords& materials, double& number) {
  const Value* value = fields.find(name);
  if (value == nullptr) return problem(whole, "missing value: " + std::string(name), std::string(name) + " = ...");
  if (name == "sd") {
    const NumberReading read = read_number(*value, input.unit);
    if (!read.value) return VaryProblem{value->at, read.problem, written(*value)};
    number = *read.value / factor_of(input);
    return {};
  }
  std::string text;
  if (Problem wrong = read_one(input, *value, materials, text)) return wrong;
  number = parse_number(text).value();
  return {};
}

Problem read_grid_table(const Input& input, const Value& value, const MaterialWords& materials, Variation& v) {
  const Fields fields{std::get<Table>(value.content)};
  constexpr std::array<std::string_view, 3> kKnown = {"low", "high", "points"};
  if (Problem wrong = unknown_field(fields, kKnown)) return wrong;
  double low = 0, high = 0;
  if (Problem wrong = read_field(input, fields, "low", value, materials, low)) return wrong;
  if (Problem wrong = read_field(input, fields, "high", value, materials, high)) return wrong;
  const Value* points = fields.find("points");
  const auto* count = points == nullptr ? nullptr : std::get_if<std::int64_t>(&points->content);
  if (count == nullptr || *count < 2 || *count > static_cast<std::int64_t>(kMostValues))
    return problem(points == nullptr ? value : *points, "a grid needs its number of points", "points = 2 or more");
  if (!(low < high)) return problem(value, "low is not below high", "low below high");
  for (std::int64_t k = 0; k < *count; ++k) {
    const double x = low + (high - low) * static_cast<double>(k) / static_cast<double>(*count - 1);
    std::array<char, 40> text{};
    std::snprintf(text.data(), text.size(), "%.9g", x);
    v.values.push_back(number_text(parse_number(text.data()).value_or(x)));
  }
  return {};
}

Problem read_shape(const Value& value, const Fields& fields, Shape& shape) {
  const Value* word = fields.find("distribution");
  std::string allowed;
  for (const std::string_view s : kShapes) allowed += (allowed.empty() ? "" : ", ") + std::string(s);
  if (word == nullptr) return problem(value, "missing value: distribution", allowed);
  const auto* name = std::get_if<std::string>(&word->content);
  const auto it = name == nullptr ? kShapes.end() : std::find(kShapes.begin(), kShapes.end(), *name);
  if (it == kShapes.end())
    return problem(*word, "unknown distribution", allowed, name == nullptr ? "" : nearest_name(*name, kShapes));
  shape = static_cast<Shape>(it - kShapes.begin());
  return {};
}

Problem read_drawn_table(const Input& input, const Value& value, const MaterialWords& materials, Variation& v) {
  const Fields fields{std::get<Table>(value.content)};
  constexpr std::array<std::string_view, 6> kKnown = {"distribution", "low", "high", "mean", "sd", "mode"};
  if (Problem wrong = unknown_field(fields, kKnown)) return wrong;
  Distribution d;
  if (Problem wrong = read_shape(value, fields, d.shape)) return wrong;
  const auto read = [&](std::string_view name, double& number) {
    return read_field(input, fields, name, value, materials, number);
  };
  if (d.shape == Shape::normal) {
    double mean = 0, sd = 0;
    if (Problem wrong = read("mean", mean)) return wrong;
    if (Problem wrong = read("sd", sd)) return wrong;
    d = normal_around(mean, sd);
  }
  const bool has_ends = fields.find("low") != nullptr || fields.find("high") != nullptr;
  if (d.shape != Shape::normal || has_ends) {
    if (Problem wrong = read("low", d.low)) return wrong;
    if (Problem wrong = read("high", d.high)) return wrong;
  }
  if (d.shape == Shape::triangular)
    if (Problem wrong = read("mode", d.middle)) return wrong;
  if (const std::string wrong = unsound(d); !wrong.empty()) return problem(value, wrong, "low below middle below high");
  v.distribution = d;
  return {};
}

Problem read_table(const Input& input, const Value& value, SweepMethod method, const MaterialWords& materials,
                   Variation& v) {
  if (!is_numeric(input)) return problem(value, "a choice has no distribution", "a list of values");
  if (method == SweepMethod::list) return problem(value, "a list of runs needs every value", "[value, value, ...]");
  return method == SweepMethod::grid ? read_grid_table(input, value, materials, v)
                                     : read_drawn_table(input, value, materials, v);
}

}  // namespace

std::variant<Variation, VaryProblem> read_variation(const Input& input, const Value& value, SweepMethod method,
                                                    const MaterialWords& materials) {
  Variation v{input, {}, {}};
  Problem wrong;
  if (std::holds_alternative<List>(value.content))
    wrong = read_list(input, value, method, materials, v);
  else if (std::holds_alternative<Table>(value.content))
    wrong = read_table(input, value, method, materials, v);
  else
    wrong = problem(value, "expected a list or a table, found " + std::string(kind_of(value)),
                    "[\"0 mm\", \"9 mm\"], or { low = ..., high = ..., ... }");
  if (wrong) return *wrong;
  return v;
}

}  // namespace hoofload::scenarios
