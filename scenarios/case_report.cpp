#include "scenarios/case_report.hpp"

#include "scenarios/case_keys.hpp"
#include "scenarios/case_resolved.hpp"

#include <nlohmann/json.hpp>

namespace hoofload::scenarios {
namespace {

using nlohmann::json;

json errors_json(const CaseErrors& errors) {
  json list = json::array();
  for (const CaseError& e : errors) {
    list.push_back({{"file", e.file},
                    {"line", e.at.line},
                    {"column", e.at.column},
                    {"key", shown_text(e.key)},
                    {"problem", e.problem},
                    {"value", e.value},
                    {"allowed", e.allowed},
                    {"nearest", e.nearest},
                    {"text", error_text(e)}});
  }
  return list;
}

std::string settings(const std::vector<std::string>& keys, const Case& c) {
  std::string text;
  for (const std::string& name : keys)
    if (name != "name") text += (text.empty() ? "" : ", ") + name + " = " + shown_value(*find_key(name), c);
  return text;
}

}  // namespace

json check_json(const std::string& file, const CaseReading& reading) {
  json runs = json::array();
  for (const Case& c : reading.runs) runs.push_back(resolved_case_json(c));
  return {{"schema", "hoofload-check/1"},
          {"file", file},
          {"errors", errors_json(reading.errors)},
          {"warnings", errors_json(reading.warnings)},
          {"runs", runs}};
}

std::string check_text(const std::string& file, const CaseReading& reading) {
  const std::size_t count = reading.runs.size();
  std::string text = file + ": no problem found; " + std::to_string(count) + (count == 1 ? " run\n" : " runs\n");
  for (const Case& c : reading.runs) {
    const std::string changes = &c == &reading.runs[0] ? "" : settings(c.changed, c);
    text += "  " + shown_text(c.name) + (changes.empty() ? "" : ": " + changes) + "\n";
  }
  const Case& base = reading.runs[0];
  if (!base.followed.empty())
    text += "left out, follows from the measurements: " + settings(base.followed, base) + "\n";
  if (!base.defaulted.empty()) text += "left to defaults: " + settings(base.defaulted, base) + "\n";
  return text;
}

}  // namespace hoofload::scenarios
