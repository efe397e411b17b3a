#include "scenarios/explain.hpp"

#include "scenarios/nearest.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace hoofload::scenarios {
namespace {

using nlohmann::json;

std::string_view leaf_of(std::string_view name) { return name.substr(name.find('.') + 1); }

bool in_section(const Key& key, std::string_view section) {
  return key.name.size() > section.size() && key.name.substr(0, section.size()) == section &&
         key.name[section.size()] == '.';
}

/// By full name or synonym; by the leaf alone if only one section has it.
const Key* key_called(std::string_view name) {
  if (const Key* key = find_key(name)) return key;
  const Key* found = nullptr;
  for (const Key& key : case_keys()) {
    if (leaf_of(key.name) != name) continue;
    if (found != nullptr) return nullptr;
    found = &key;
  }
  return found;
}

std::string grade_text(const Key& key) {
  if (key.grade == '-') return std::string(key.source);
  return "grade " + std::string(1, key.grade) + ", " + std::string(key.source);
}

std::string shown_default(const Key& key) {
  const std::string text = shown_value(key, Case{});
  return text.empty() ? "none" : text;
}

std::string joined(const std::vector<std::string_view>& names) {
  std::string text;
  for (const std::string_view n : names) text += (text.empty() ? "" : ", ") + std::string(n);
  return text;
}

std::string words_text(const Key& key) {
  const auto* word = std::get_if<WordAt>(&key.binding);
  std::vector<std::string_view> names;
  if (word != nullptr)
    for (const Synonym& s : word->words.synonyms) names.push_back(s.word);
  return joined(names);
}

std::string key_text(const Key& key) {
  std::string text = std::string(key.name) + ": " + std::string(key.meaning) + "\n";
  text += "  type     " + type_text(key) + "\n";
  text += "  allowed  " + allowed_text(key) + "\n";
  text += "  default  " + shown_default(key) + "\n";
  if (const std::string words = words_text(key); !words.empty()) text += "  or       " + words + "\n";
  if (const auto names = synonyms_of(key.name); !names.empty()) text += "  also     " + joined(names) + "\n";
  if (const std::string grade = grade_text(key); !grade.empty()) text += "  source   " + grade + "\n";
  if (key.scope == Scope::whole_case) text += "  scope    the whole case; an [[option]] cannot change it\n";
  return text;
}

json key_json(const Key& key) {
  json j = {{"name", key.name},
            {"type", type_text(key)},
            {"unit", unit_of(key)},
            {"allowed", allowed_text(key)},
            {"default", default_text(key)},
            {"meaning", key.meaning},
            {"grade", std::string(1, key.grade)},
            {"source", key.source},
            {"scope", key.scope == Scope::whole_case ? "case" : "run"},
            {"synonyms", synonyms_of(key.name)}};
  if (const auto* n = std::get_if<NumberAt>(&key.binding)) {
    j["low"] = n->low;
    j["high"] = n->high;
  }
  return j;
}

std::string material_text(const MaterialWord& m) {
  std::vector<std::string_view> kinds(m.kinds.begin(), m.kinds.end());
  std::string text = m.id + ": material of the catalogue (" + joined(kinds) + ")\n";
  for (const ParameterWord& p : m.parameters) {
    const std::string unit = p.unit.empty() ? "" : " " + p.unit;
    text += "  " + p.name + " = " + number_text(p.value) + unit + ", published " + number_text(p.low) + " to " +
            number_text(p.high) + unit + "\n";
  }
  return text + "  change it with [materials] " + toml_string(m.id) + ".<parameter> = ...\n";
}

json material_json(const MaterialWord& m) {
  json j = {{"name", m.id}, {"type", "material"}, {"kinds", m.kinds}};
  for (const ParameterWord& p : m.parameters)
    j["parameters"][p.name] = {
        {"value", p.value}, {"unit", p.unit.empty() ? "1" : p.unit}, {"low", p.low}, {"high", p.high}};
  return j;
}

bool is_section(std::string_view name) {
  const auto names = case_sections();
  return std::find(names.begin(), names.end(), name) != names.end();
}

std::string overview_line(const Key& key) {
  std::string name(key.name);
  name.resize(std::max<std::size_t>(name.size() + 1, 28), ' ');
  return "  " + name + std::string(key.meaning) + "\n";
}

std::string section_text(std::string_view section) {
  if (section == "materials") {
    return "[materials]: values of the catalogue replaced for this case, e.g.\n"
           "  \"mild steel\".E = \"200 GPa\"\n"
           "  explain the id of a material to see its parameters\n";
  }
  std::string text = "[" + std::string(section) + "]\n";
  for (const Key& key : case_keys())
    if (in_section(key, section)) text += overview_line(key);
  return text;
}

std::string cell(std::string text) {
  for (std::size_t at = 0; (at = text.find('|', at)) != std::string::npos; at += 2) text.insert(at, "\\");
  return text;
}

}  // namespace

std::optional<std::string> explain(const Explainable& known, std::string_view name) {
  if (const Key* key = key_called(name)) return key_text(*key);
  if (is_section(name)) return section_text(name);
  if (name == "option") return "[[option]]: a run that changes some keys of the baseline; it needs a name\n";
  for (const Topic& topic : known.topics)
    if (topic.name == name) return topic.text;
  if (const MaterialWord* m = find_material(known.materials, name)) return material_text(*m);
  return std::nullopt;
}

std::optional<json> explain_json(const Explainable& known, std::string_view name) {
  if (const Key* key = key_called(name)) return key_json(*key);
  for (const Topic& topic : known.topics)
    if (topic.name == name) return json{{"name", topic.name}, {"type", "quantity"}, {"meaning", topic.text}};
  if (const MaterialWord* m = find_material(known.materials, name)) return material_json(*m);
  const auto text = explain(known, name);
  if (!text) return std::nullopt;
  return json{{"name", name}, {"type", "section"}, {"meaning", *text}};
}

std::string explain_overview() {
  std::string text;
  for (const Key& key : case_keys())
    if (key.name.find('.') == std::string_view::npos) text += overview_line(key);
  for (const std::string_view section : case_sections()) text += section_text(section);
  return text;
}

std::string nearest_topic(const Explainable& known, std::string_view name) {
  std::vector<std::string_view> names(case_sections().begin(), case_sections().end());
  for (const Key& key : case_keys()) {
    names.push_back(key.name);
    names.push_back(leaf_of(key.name));
  }
  for (const Topic& topic : known.topics) names.push_back(topic.name);
  for (const MaterialWord& m : known.materials) names.push_back(m.id);
  return nearest_name(name, names);
}

std::string case_keys_markdown() {
  std::string text =
      "# Case keys\n\n"
      "Generated from the key table (`scenarios/case_keys.cpp`); a test compares the two. Write it anew with\n"
      "`hoofload explain --markdown > docs/case-keys.md`. A case file is TOML 1.0; numbers with a dimension carry "
      "their\n"
      "unit as text, e.g. `\"1 1/4 in\"`. An `[[option]]` may set any key but those marked *case*. Grade A to D and M "
      "as in\n"
      "docs/materials.md (M: from memory); `-` is a setting.\n";
  std::string section = "?";
  for (const Key& key : case_keys()) {
    const std::size_t dot = key.name.find('.');
    const std::string now(dot == std::string_view::npos ? std::string_view{} : key.name.substr(0, dot));
    if (now != section) {
      section = now;
      text += "\n## " + (section.empty() ? "Top level" : "[" + section + "]") +
              "\n\n| key | type | allowed | default | meaning | grade, source |\n|---|---|---|---|---|---|\n";
    }
    text += "| `" + std::string(leaf_of(key.name)) + "`" + (key.scope == Scope::whole_case ? " *case*" : "") + " | " +
            type_text(key) + " | " + cell(allowed_text(key)) + " | " + cell(default_text(key)) + " | " +
            cell(std::string(key.meaning)) + " | " + std::string(1, key.grade) +
            (key.source.empty() ? "" : " " + std::string(key.source)) + " |\n";
  }
  text +=
      "\n## [materials]\n\nValues of the catalogue replaced for this case: `\"mild steel\".E = \"200 GPa\"`.\n\n## "
      "Units\n\n";
  for (const Unit& unit : all_units()) {
    const bool first = find_unit(unit.name) == &unit && units_of(unit.dimension).rfind(std::string(unit.name), 0) == 0;
    if (first) text += "- " + std::string(name_of(unit.dimension)) + ": " + units_of(unit.dimension) + "\n";
  }
  return text;
}

}  // namespace hoofload::scenarios
