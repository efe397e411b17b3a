// What a lesson tells of its solved runs: a table of a few quantities, two runs side by side, and one closing sentence
// made of the solved numbers and their bars, which says no more than they do and never advises.
#pragma once

#include <string>
#include <vector>

#include "scenarios/comparison.hpp"
#include "scenarios/lesson.hpp"

namespace hoofload::scenarios {

/// Of the largest value of its kind: what is smaller is shown as 0.
inline constexpr double kNothingToRead = 1e-3;

/// One quantity of one phase and model.
struct Column {
  std::string key;
  Phase phase = Phase::swing;
  ModelKind model = ModelKind::sagittal;
};

/// The columns of the lesson's table.
[[nodiscard]] std::vector<Column> lesson_columns(Lesson lesson);

/// The solved value, or null.
[[nodiscard]] const Reading* find_reading(const std::vector<RunResult>& results, const std::string& run,
                                          const Column& column);

/// "318 ± 12"; "0" for what is below a thousandth of the largest of its kind or rounding; "not solved" for null.
[[nodiscard]] std::string reading_text(const Reading* reading);

/// The closing sentence; what was not solved is said instead of left out.
[[nodiscard]] std::string closing_sentence(const LessonPlan& plan, const std::vector<RunResult>& results,
                                           const Comparison& comparison);

/// Table, side by side, notes, closing sentence, warnings, cautions.
[[nodiscard]] std::string lesson_text(const LessonPlan& plan, const std::vector<RunResult>& results,
                                      const Comparison& comparison);

}  // namespace hoofload::scenarios
