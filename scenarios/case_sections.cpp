#include "scenarios/case_sections.hpp"

#include "scenarios/nearest.hpp"

#include <algorithm>

namespace hoofload::scenarios {
namespace {

void add_error(Sections& s, Location at, std::string key, std::string problem, std::string value, std::string allowed,
               std::string nearest = {}) {
  s.errors.push_back(
      {s.file, at, std::move(key), std::move(problem), std::move(value), std::move(allowed), std::move(nearest)});
}

std::string_view leaf_of(std::string_view name) { return name.substr(name.find('.') + 1); }

/// Nearest key: in the section first, then a key of this (or a near) name elsewhere.
std::string nearest_key(const std::string& section, const std::string& leaf) {
  std::vector<std::string_view> here, everywhere, full;
  for (const Key& key : case_keys()) {
    const bool inside = key.name.substr(0, section.size() + 1) == section + ".";
    if (inside) here.push_back(leaf_of(key.name));
    everywhere.push_back(leaf_of(key.name));
    full.push_back(key.name);
  }
  const auto exact = std::find(everywhere.begin(), everywhere.end(), leaf);
  if (exact != everywhere.end()) return std::string(full[static_cast<std::size_t>(exact - everywhere.begin())]);
  if (const std::string near = nearest_name(leaf, here); !near.empty()) return section + "." + near;
  const std::string near = nearest_name(leaf, everywhere);
  const auto at = std::find(everywhere.begin(), everywhere.end(), near);
  return near.empty() ? "" : std::string(full[static_cast<std::size_t>(at - everywhere.begin())]);
}

std::string nearest_at_top(const std::string& word, bool option) {
  std::vector<std::string_view> names(case_sections().begin(), case_sections().end());
  for (const std::string_view name : {"name", "title", "schema", "option"})
    if (!option || name == "name") names.push_back(name);
  // A key without its section is named with it, even where some section is spelt a little like it.
  for (const Key& key : case_keys())
    if (leaf_of(key.name) == word) return std::string(key.name);
  if (const std::string near = nearest_name(word, names); !near.empty()) return near;
  return nearest_key("", word);
}

std::string sections_allowed(bool option) {
  std::string text = option ? "name" : "schema, title, name, option";
  for (const std::string_view section : case_sections()) text += ", " + std::string(section);
  return text;
}

void add(Sections& s, std::vector<Assignment>& list, Assignment assignment) {
  for (const Assignment& a : list) {
    const bool same =
        a.key == assignment.key && a.material == assignment.material && a.parameter == assignment.parameter;
    if (!same) continue;
    add_error(s, assignment.at, assignment.written,
              "duplicate: set on line " + std::to_string(a.at.line) + " as " + a.written, written(*assignment.value),
              "once");
    return;
  }
  list.push_back(std::move(assignment));
}

void read_parameters(Sections& s, const Member& material, std::vector<Assignment>& list) {
  const std::string path = "materials." + material.key;
  const MaterialWord* word = find_material(s.materials, material.key);
  if (word == nullptr) {
    add_error(s, material.at, path, "unknown material", "", "an id of the catalogue",
              nearest_material(s.materials, material.key, ""));
    return;
  }
  const auto* table = std::get_if<Table>(&material.value.content);
  if (table == nullptr) {
    add_error(s, material.at, path, "expected parameters, e.g. " + material.key + ".E = \"200 MPa\"",
              written(material.value), "");
    return;
  }
  std::string known;
  std::vector<std::string_view> names;
  for (const ParameterWord& p : word->parameters) {
    known += (known.empty() ? "" : ", ") + p.name;
    names.push_back(p.name);
  }
  for (const Member& m : *table) {
    const std::string full = path + "." + m.key;
    const auto p =
        std::find_if(word->parameters.begin(), word->parameters.end(), [&](const auto& x) { return x.name == m.key; });
    if (p == word->parameters.end()) {
      add_error(s, m.at, full, "unknown parameter of this material", "", known, nearest_name(m.key, names));
    } else {
      add(s, list, {nullptr, word, &*p, full, m.at, &m.value});
    }
  }
}

void read_section(Sections& s, const Member& section, std::vector<Assignment>& list) {
  const auto* table = std::get_if<Table>(&section.value.content);
  if (table == nullptr) {
    add_error(s, section.at, section.key, "expected a section", written(section.value),
              "[" + section.key + "] and its keys");
    return;
  }
  for (const Member& m : *table) {
    if (section.key == "materials") {
      read_parameters(s, m, list);
      continue;
    }
    const std::string full = section.key + "." + m.key;
    const Key* key = find_key(full);
    if (key == nullptr) {
      add_error(s, m.at, full, "unknown key", "", "", nearest_key(section.key, m.key));
    } else {
      add(s, list, {key, nullptr, nullptr, full, m.at, &m.value});
    }
  }
}

bool is_section(const std::string& name) {
  const auto names = case_sections();
  return std::find(names.begin(), names.end(), name) != names.end();
}

void read_member(Sections& s, const Member& m, bool option, std::vector<Assignment>& list) {
  if (is_section(m.key)) {
    read_section(s, m, list);
    return;
  }
  const Key* key = m.key.find('.') == std::string::npos ? find_key(m.key) : nullptr;
  if (key != nullptr) {
    add(s, list, {key, nullptr, nullptr, m.key, m.at, &m.value});
    return;
  }
  const bool table = std::holds_alternative<Table>(m.value.content) || std::holds_alternative<List>(m.value.content);
  add_error(s, m.at, m.key, table ? "unknown section" : "unknown key", "", sections_allowed(option),
            nearest_at_top(m.key, option));
}

void read_options(Sections& s, const Member& m, std::vector<const Value*>& options) {
  const auto* list = std::get_if<List>(&m.value.content);
  const auto is_table = [](const Value& v) { return std::holds_alternative<Table>(v.content); };
  if (list == nullptr || !std::all_of(list->begin(), list->end(), is_table)) {
    add_error(s, m.at, m.key, "expected tables", written(m.value),
              "[[option]] in double brackets, once for each option");
    return;
  }
  for (const Value& option : *list) options.push_back(&option);
}

}  // namespace

SectionReading read_root(Sections& sections, const Table& root) {
  SectionReading reading;
  for (const Member& m : root) {
    if (m.key == "option")
      read_options(sections, m, reading.options);
    else
      read_member(sections, m, false, reading.assignments);
  }
  return reading;
}

std::vector<Assignment> read_option(Sections& sections, const Table& option) {
  std::vector<Assignment> list;
  for (const Member& m : option) read_member(sections, m, true, list);
  return list;
}

}  // namespace hoofload::scenarios
