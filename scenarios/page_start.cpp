// What the page knows before anything is solved: keys, materials, quantities, the demo's case, lessons.
#include <nlohmann/json.hpp>

#include "scenarios/case_keys.hpp"
#include "scenarios/case_resolved.hpp"
#include "scenarios/page_answer.hpp"
#include "scenarios/page_lesson.hpp"
#include "viz/cautions.hpp"

namespace hoofload::scenarios {

namespace {

using nlohmann::json;

json key_json(const Key& key) {
  json j{{"unit", unit_of(key)}, {"type", type_text(key)}, {"meaning", key.meaning}, {"allowed", allowed_text(key)}};
  if (const auto* n = std::get_if<NumberAt>(&key.binding)) j["low"] = n->low, j["high"] = n->high;
  if (const auto* i = std::get_if<IntegerAt>(&key.binding)) j["low"] = i->low, j["high"] = i->high;
  if (const auto* w = std::get_if<WordAt>(&key.binding)) {
    j["words"] = json::array();
    for (const auto word : w->words.canonical) j["words"].push_back(word);
  }
  if (const auto* m = std::get_if<MaterialAt>(&key.binding)) j["kind"] = m->kind;
  return j;
}

json materials_json(const MaterialWords& materials) {
  json kinds = json::object();
  for (const MaterialWord& word : materials)
    for (const std::string& kind : word.kinds) kinds[kind].push_back(word.id);
  return kinds;
}

json quantities_json() {
  json list = json::array();
  for (const QuantityKey& q : quantity_catalogue())
    list.push_back({{"key", q.key},
                    {"words", q.words},
                    {"unit", q.unit},
                    {"definition", q.definition},
                    {"worse", q.worse_sign},
                    {"leads", name_of(leading_model(q))}});
  return list;
}

/// Values of the reference foot and shoeing, in the keys' own units.
json values_json(const Case& c) {
  json values = json::object();
  const json resolved = resolved_case_json(c);
  for (const Key& key : case_keys()) {
    const std::string name(key.name);
    const std::size_t dot = name.find('.');
    if (dot == std::string::npos) continue;
    const auto section = resolved.find(name.substr(0, dot));
    if (section == resolved.end()) continue;
    if (const auto leaf = section->find(name.substr(dot + 1)); leaf != section->end()) values[name] = leaf->at("value");
  }
  return values;
}

json demo_json(const MaterialWords& materials, const std::string& text) {
  json runs = json::array();
  for (const Case& run : read_case(text, "demo.toml", materials).runs) {
    json given = json::array();
    for (const std::string& key : run.given) given.push_back(key);
    runs.push_back({{"name", run.name}, {"given", given}, {"values", values_json(run)}});
  }
  return runs;
}

}  // namespace

json start_json(const MaterialWords& materials, const std::string& demo_text) {
  json keys = json::object();
  for (const Key& key : case_keys()) keys[std::string(key.name)] = key_json(key);
  return {{"keys", keys},
          {"materials", materials_json(materials)},
          {"quantities", quantities_json()},
          {"demo", demo_json(materials, demo_text)},
          {"lessons", lesson_questions_json(materials)},
          {"most_runs", kMostPageRuns},
          {"caution", viz::caution_text}};
}

}  // namespace hoofload::scenarios
