// Lessons on the page: a question about two runs, a guess, then what the solver says.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "scenarios/comparison.hpp"
#include "scenarios/page_case.hpp"

namespace hoofload::scenarios {

/// A question that can be answered by rises, falls or stays: `key` of `right` against `left` in that phase and model.
struct LessonQuestion {
  Lesson lesson = Lesson::packing;
  std::string ask;  ///< the question, in words
  std::string key;
  Phase phase = Phase::standing;
  ModelKind model = ModelKind::sagittal;
};

[[nodiscard]] std::vector<LessonQuestion> lesson_questions();

/// [{"lesson", "title", "ask", "left", "right", "phase", ...}]; no answer stands in it.
[[nodiscard]] nlohmann::json lesson_questions_json(const MaterialWords& materials);

/// The two runs of a question on the lesson's own foot, to be read as a case; empty for an unknown number.
[[nodiscard]] CaseReading lesson_question_runs(std::size_t question, const MaterialWords& materials);

/// {"answer": "rises" | "falls" | "stays", "sentence", "left", "right", "unit", "bar", "worse": [...]} of solved runs.
[[nodiscard]] nlohmann::json lesson_answer_json(std::size_t question, const std::vector<RunResult>& results);

}  // namespace hoofload::scenarios
