#include "scenarios/lesson.hpp"

#include "scenarios/case_keys.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <stdexcept>

namespace hoofload::scenarios {
namespace {

constexpr std::array<std::string_view, 4> kNames = {"packing", "setback", "elevation", "trial"};

// What a lesson takes over from a case: the foot and the horse, and those measurements of the shoeing that no lesson varies.
constexpr std::array<std::string_view, 4> kSections = {"horse.", "foot.", "ground.", "nails."};
constexpr std::array<std::string_view, 8> kKeys = {"shoe.web",          "shoe.thickness",       "shoe.heel_extension",
                                                   "load.gait",         "load.standing_force",  "load.standing_cop",
                                                   "load.midstance_at", "load.tendon_stiffness"};

bool is_taken_over(std::string_view key) {
  return std::find(kKeys.begin(), kKeys.end(), key) != kKeys.end() ||
         std::any_of(kSections.begin(), kSections.end(), [&](std::string_view s) { return key.rfind(s, 0) == 0; });
}

std::string line(const std::string& key, const std::string& value) { return key + " = " + value + "\n"; }

std::string override_line(const MaterialOverride& o) {
  const std::string value = o.unit.empty() ? number_text(o.value) : toml_string(quantity_text(o.value, o.unit));
  return line("materials." + toml_string(o.material) + "." + toml_string(o.parameter), value);
}

std::string foot_text(const Case& baseline, const std::set<std::string>& taken) {
  std::string text;
  for (const std::string& name : baseline.given) {
    const Key* key = find_key(name);
    if (key == nullptr || !is_taken_over(name) || taken.contains(name)) continue;
    const std::string value = toml_value(*key, baseline);
    if (!value.empty()) text += line(name, value);
  }
  for (const MaterialOverride& o : baseline.overrides) text += override_line(o);
  return text;
}

std::string settings_text(const std::vector<Setting>& settings) {
  std::string text;
  for (const auto& [key, value] : settings) text += line(key, value);
  return text;
}

}  // namespace

std::span<const std::string_view> lesson_names() { return kNames; }

std::optional<Lesson> find_lesson(std::string_view name) {
  const auto it = std::find(kNames.begin(), kNames.end(), name);
  if (it == kNames.end()) return std::nullopt;
  return static_cast<Lesson>(it - kNames.begin());
}

std::string hardest_packing(const MaterialWords& materials) {
  std::string hardest;
  double most = 0;
  for (const MaterialWord& word : materials) {
    if (!serves_as(word, "packing")) continue;
    for (const ParameterWord& p : word.parameters)
      if (p.name == "E" && p.value > most) {
        most = p.value;
        hardest = word.id;
      }
  }
  if (hardest.empty()) throw std::runtime_error("the catalogue has no packing with a Young's modulus");
  return hardest;
}

CaseReading lesson_runs(const LessonPlan& plan, const Case* baseline, std::optional<double> density,
                        const MaterialWords& materials) {
  std::set<std::string> taken;
  for (const auto* settings : {&plan.common, &plan.runs.front().settings})
    for (const auto& [key, value] : *settings) taken.insert(key);
  std::string text = line("schema", "1") + line("title", toml_string(plan.title)) +
                     line("name", toml_string(plan.runs.front().name)) +
                     line("study.density", number_text(density.value_or(plan.density))) + settings_text(plan.common) +
                     settings_text(plan.runs.front().settings);
  if (baseline != nullptr) text += foot_text(*baseline, taken);
  for (std::size_t k = 1; k < plan.runs.size(); ++k)
    text += "[[option]]\n" + line("name", toml_string(plan.runs[k].name)) + settings_text(plan.runs[k].settings);
  return read_case(text, "lesson " + std::string(kNames[static_cast<std::size_t>(plan.lesson)]), materials);
}

}  // namespace hoofload::scenarios
