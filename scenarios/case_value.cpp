#include "scenarios/case_value.hpp"

#include "scenarios/units.hpp"

#include <algorithm>
#include <cmath>

namespace hoofload::scenarios {
namespace {

using Problem = std::optional<ValueProblem>;

// Ranges are stated in the key's unit; a limit written in another unit of the same length must not fail by a last bit.
constexpr double kRounding = 1e-12;

constexpr std::size_t kLongestText = 200;
constexpr std::size_t kLongestTable = 1 << 20;

std::string example_of(std::string_view unit) { return "a number with a unit, e.g. \"3 " + std::string(unit) + "\""; }

ValueProblem wrong_type(const Value& value, std::string allowed) {
  return {"expected " + allowed + ", found " + std::string(kind_of(value)), "", ""};
}

NumberReading fail(std::string problem, std::string allowed, std::string nearest = {}) {
  return {std::nullopt, {std::move(problem), std::move(allowed), std::move(nearest)}};
}

std::optional<double> bare_number(const Value& value) {
  if (const auto* i = std::get_if<std::int64_t>(&value.content)) return static_cast<double>(*i);
  if (const auto* f = std::get_if<double>(&value.content)) return *f;
  return std::nullopt;
}

/// "N/mm" and "kg" keys say all their units; a plain number says so.
std::string units_allowed(const Unit* unit) {
  if (unit == nullptr) return "a plain number";
  return "a " + std::string(name_of(unit->dimension)) + " in " + units_of(unit->dimension);
}

NumberReading read_text_number(const std::string& text, std::string_view unit_name) {
  const Unit* unit = find_unit(unit_name);
  const ParsedQuantity parsed = parse_quantity(text);
  if (!parsed.quantity) return fail(parsed.problem, units_allowed(unit), parsed.nearest);
  const Dimension wanted = unit == nullptr ? Dimension::none : unit->dimension;
  const Quantity q = *parsed.quantity;
  if (q.dimension == wanted && (wanted != Dimension::none || unit == nullptr || text.find('%') != std::string::npos))
    return {q.value, {}};
  if (q.dimension == Dimension::none) return fail("number without a unit", example_of(unit_name));
  return fail(
      "wrong unit: a " + std::string(name_of(q.dimension)) + " where a " + std::string(name_of(wanted)) + " belongs",
      units_allowed(unit));
}

Problem set_number(const NumberAt& number, const Key& key, const Value& value, Case& c) {
  const NumberReading read = read_number(value, number.unit);
  if (!read.value) return read.problem;
  const Unit* unit = find_unit(number.unit);
  const double factor = unit == nullptr ? 1 : unit->factor;
  const double slack = kRounding * std::max(std::abs(number.low), std::abs(number.high)) * factor;
  if (!(*read.value >= number.low * factor - slack && *read.value <= number.high * factor + slack))
    return ValueProblem{"out of range", allowed_text(key), ""};
  number.set(c, *read.value);
  return std::nullopt;
}

Problem set_integer(const IntegerAt& integer, const Key& key, const Value& value, Case& c) {
  const auto* i = std::get_if<std::int64_t>(&value.content);
  if (i == nullptr) return wrong_type(value, "a whole number");
  if (*i < integer.low || *i > integer.high) return ValueProblem{"out of range", allowed_text(key), ""};
  integer.set(c, *i);
  return std::nullopt;
}

Problem set_flag(const FlagAt& flag, const Value& value, Case& c) {
  const auto* b = std::get_if<bool>(&value.content);
  if (b == nullptr) return wrong_type(value, "true or false");
  flag.set(c, *b);
  return std::nullopt;
}

Problem set_text(const TextAt& text, const Key& key, const Value& value, Case& c) {
  const auto* s = std::get_if<std::string>(&value.content);
  if (s == nullptr) return wrong_type(value, "text");
  if (s->find_first_not_of(" \t\r\n") == std::string::npos) return ValueProblem{"missing value", allowed_text(key), ""};
  // A table may stand in the case itself, as the resolved case holds it.
  const bool is_table = key.name == "load.curve" && s->find('\n') != std::string::npos;
  if (s->size() > (is_table ? kLongestTable : kLongestText))
    return ValueProblem{"text too long", allowed_text(key), ""};
  text.set(c, *s);
  return std::nullopt;
}

Problem unknown_word(const Words& words, const std::string& text) {
  const bool empty = plain_words(text).empty();
  return ValueProblem{empty ? "missing value" : "unknown word", listed(words), nearest_word(words, text)};
}

Problem set_word(const WordAt& word, const Value& value, Case& c) {
  const auto* s = std::get_if<std::string>(&value.content);
  if (s == nullptr) return wrong_type(value, "one of " + listed(word.words));
  const auto index = index_of(word.words, *s);
  if (!index) return unknown_word(word.words, *s);
  word.set(c, *index);
  return std::nullopt;
}

Problem set_word_list(const WordListAt& list, const Value& value, Case& c) {
  const auto* items = std::get_if<List>(&value.content);
  if (items == nullptr) return wrong_type(value, "a list such as [" + toml_string(list.words.canonical[0]) + "]");
  if (items->empty()) return ValueProblem{"empty list", "one or more of " + listed(list.words), ""};
  std::vector<int> indices;
  for (const Value& item : *items) {
    const auto* s = std::get_if<std::string>(&item.content);
    if (s == nullptr) return wrong_type(item, "text in the list");
    const auto index = index_of(list.words, *s);
    if (!index) {
      Problem unknown = unknown_word(list.words, *s);
      unknown->problem.append(" ").append(toml_string(shown_text(*s)));
      return unknown;
    }
    if (std::find(indices.begin(), indices.end(), *index) != indices.end())
      return ValueProblem{toml_string(shown_text(*s)) + " stands twice in the list", "each once", ""};
    indices.push_back(*index);
  }
  list.set(c, indices);
  return std::nullopt;
}

Problem set_material(const MaterialAt& at, const Value& value, const MaterialWords& materials, Case& c) {
  const auto* s = std::get_if<std::string>(&value.content);
  if (s == nullptr) return wrong_type(value, "the name of a " + std::string(at.kind) + " material");
  if (plain_words(*s).empty()) return ValueProblem{"missing value", materials_of(materials, at.kind), ""};
  const MaterialWord* word = find_material(materials, *s);
  if (word == nullptr)
    return ValueProblem{"unknown material", materials_of(materials, at.kind), nearest_material(materials, *s, at.kind)};
  if (!serves_as(*word, at.kind))
    return ValueProblem{"not a " + std::string(at.kind) + " material", materials_of(materials, at.kind), ""};
  at.set(c, word->id);
  return std::nullopt;
}

}  // namespace

NumberReading read_number(const Value& value, std::string_view unit) {
  if (const auto* s = std::get_if<std::string>(&value.content)) return read_text_number(*s, unit);
  const auto bare = bare_number(value);
  if (!bare) {
    return {std::nullopt, wrong_type(value, unit.empty() ? "a plain number" : example_of(unit))};
  }
  if (!unit.empty()) return fail("number without a unit", example_of(unit));
  if (!std::isfinite(*bare)) return fail("not a finite number", "a plain number");
  return {bare, {}};
}

std::optional<ValueProblem> set_value(const Key& key, const Value& value, const MaterialWords& materials, Case& c) {
  if (const auto* n = std::get_if<NumberAt>(&key.binding)) return set_number(*n, key, value, c);
  if (const auto* i = std::get_if<IntegerAt>(&key.binding)) return set_integer(*i, key, value, c);
  if (const auto* f = std::get_if<FlagAt>(&key.binding)) return set_flag(*f, value, c);
  if (const auto* t = std::get_if<TextAt>(&key.binding)) return set_text(*t, key, value, c);
  if (const auto* w = std::get_if<WordAt>(&key.binding)) return set_word(*w, value, c);
  if (const auto* l = std::get_if<WordListAt>(&key.binding)) return set_word_list(*l, value, c);
  return set_material(std::get<MaterialAt>(key.binding), value, materials, c);
}

}  // namespace hoofload::scenarios
