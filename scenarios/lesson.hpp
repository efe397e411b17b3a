// A lesson: a fixed set of runs around one question, its baseline first, and what is to be told of them. The runs are
// written as a case file and read like one, so that a lesson checks and solves nothing in its own way.
#pragma once

#include "scenarios/case.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace hoofload::scenarios {

enum class Lesson { packing, setback, elevation, trial };

/// Names in the order of the enumeration.
[[nodiscard]] std::span<const std::string_view> lesson_names();
[[nodiscard]] std::optional<Lesson> find_lesson(std::string_view name);

/// A key of the case and its value as TOML: {"shoe.type", "\"open\""}.
using Setting = std::pair<std::string, std::string>;

struct LessonRun {
  std::string name;
  std::vector<Setting> settings;
};

/// Runs by name, before a baseline foot is known.
struct LessonPlan {
  Lesson lesson = Lesson::packing;
  std::string title;
  double density = 0.5;            ///< unless the caller asks for another one
  std::vector<Setting> common;     ///< of every run: phases, models, gait
  std::vector<LessonRun> runs;     ///< baseline first
  std::string left, right;         ///< runs shown side by side
  std::vector<std::string> shown;  ///< runs that get pictures; empty: all
  std::vector<std::string> notes;  ///< what is left out, and why
};

/// The catalogue decides which packing is the hardest one.
[[nodiscard]] LessonPlan lesson_plan(Lesson lesson, const MaterialWords& materials);

/// Id of the packing with the highest Young's modulus; the first of equals. Throws std::runtime_error without any.
[[nodiscard]] std::string hardest_packing(const MaterialWords& materials);

/// The runs of a plan on the reference foot or on the foot, horse, ground, nails and materials that `baseline` gives; what
/// the lesson itself sets wins. Errors name the lesson as their file when foot and lesson do not go together.
[[nodiscard]] CaseReading lesson_runs(const LessonPlan& plan, const Case* baseline, std::optional<double> density,
                                      const MaterialWords& materials);

}  // namespace hoofload::scenarios
