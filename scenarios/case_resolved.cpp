#include "scenarios/case_resolved.hpp"

#include "scenarios/case_checks.hpp"
#include "scenarios/case_keys.hpp"
#include "scenarios/sha256.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

namespace hoofload::scenarios {
namespace {

using nlohmann::json;

bool in_use(const Key& key, const Case& c) { return why_unused(c, key.name).reason.empty(); }

std::string_view section_of(std::string_view name) {
  const std::size_t dot = name.find('.');
  return dot == std::string_view::npos ? std::string_view{} : name.substr(0, dot);
}

std::string_view leaf_of(std::string_view name) { return name.substr(name.find('.') + 1); }

std::string override_text(const MaterialOverride& o) {
  return o.unit.empty() ? number_text(o.value) : toml_string(quantity_text(o.value, o.unit));
}

/// The decimal at the start of a text of quantity_text, whatever the locale.
double leading_number(const std::string& text) {
  double value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

/// The number in its unit; the decimal of the text, so that JSON and TOML say the same.
json number_json(const Key& key, const NumberAt& number, const Case& c) {
  const std::string text = quantity_text(number.get(c).value(), number.unit);
  const std::string shown = shown_value(key, c);
  json j = {{"value", leading_number(text)}, {"unit", number.unit.empty() ? "1" : std::string(number.unit)}};
  if (shown != text) j["text"] = shown;
  return j;
}

json value_json(const Key& key, const Case& c) {
  if (const auto* n = std::get_if<NumberAt>(&key.binding)) return number_json(key, *n, c);
  if (const auto* i = std::get_if<IntegerAt>(&key.binding)) return {{"value", i->get(c)}, {"unit", "1"}};
  if (const auto* f = std::get_if<FlagAt>(&key.binding)) return {{"value", f->get(c)}};
  if (const auto* w = std::get_if<WordAt>(&key.binding))
    return {{"value", w->words.canonical[static_cast<std::size_t>(w->get(c))]}};
  if (const auto* t = std::get_if<TextAt>(&key.binding)) return {{"value", t->get(c)}};
  if (const auto* m = std::get_if<MaterialAt>(&key.binding)) return {{"value", m->get(c)}};
  json list = json::array();
  const auto& words = std::get<WordListAt>(key.binding);
  for (const int index : words.get(c)) list.push_back(words.words.canonical[static_cast<std::size_t>(index)]);
  return {{"value", list}};
}

std::string origin_of(const std::string& key, const Case& c) {
  const auto has = [&](const std::vector<std::string>& keys) {
    return std::find(keys.begin(), keys.end(), key) != keys.end();
  };
  return has(c.followed) ? "follows" : has(c.given) ? "given" : "default";
}

}  // namespace

std::string resolved_case_toml(const Case& c) {
  std::string text;
  std::string_view section;
  for (const Key& key : case_keys()) {
    const std::string value = toml_value(key, c);
    if (value.empty() || !in_use(key, c)) continue;
    if (section_of(key.name) != section) {
      section = section_of(key.name);
      text += "\n[" + std::string(section) + "]\n";
    }
    text += std::string(leaf_of(key.name)) + " = " + value + "\n";
  }
  if (!c.overrides.empty()) text += "\n[materials]\n";
  for (const MaterialOverride& o : c.overrides)
    text += toml_string(o.material) + "." + toml_string(o.parameter) + " = " + override_text(o) + "\n";
  return text;
}

json resolved_case_json(const Case& c) {
  json j = {{"title", c.title}, {"name", c.name}, {"schema", c.schema}, {"sha256", case_fingerprint(c)}};
  for (const Key& key : case_keys()) {
    const std::string section(section_of(key.name));
    if (section.empty() || toml_value(key, c).empty() || !in_use(key, c)) continue;
    json value = value_json(key, c);
    value["origin"] = origin_of(std::string(key.name), c);
    j[section][std::string(leaf_of(key.name))] = std::move(value);
  }
  for (const MaterialOverride& o : c.overrides) {
    const std::string text = o.unit.empty() ? number_text(o.value) : quantity_text(o.value, o.unit);
    j["materials"][o.material][o.parameter] = {
        {"value", leading_number(text)}, {"unit", o.unit.empty() ? "1" : o.unit}, {"origin", "given"}};
  }
  j["changed"] = c.changed;
  j["defaulted"] = c.defaulted;
  return j;
}

std::string case_fingerprint(const Case& c) { return sha256(resolved_case_toml(c)); }

}  // namespace hoofload::scenarios
