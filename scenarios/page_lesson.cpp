#include "scenarios/page_lesson.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "scenarios/lesson_story.hpp"
#include "viz/text.hpp"

namespace hoofload::scenarios {

namespace {

using nlohmann::json;

/// The plan of a question with its two runs alone.
LessonPlan plan_of(const LessonQuestion& question, const MaterialWords& materials) {
  LessonPlan plan = lesson_plan(question.lesson, materials);
  std::vector<LessonRun> two;
  for (const std::string& name : {plan.left, plan.right})
    for (const LessonRun& run : plan.runs)
      if (run.name == name) two.push_back(run);
  // An option inherits what the baseline sets, and over a backing nothing that goes in after nailing is proud.
  const auto is_proud = [](const Setting& s) { return s.first == "packing.proud"; };
  auto &left = two.at(0).settings, &right = two.at(1).settings;
  if (std::any_of(left.begin(), left.end(), is_proud) && std::none_of(right.begin(), right.end(), is_proud))
    right.emplace_back("packing.proud", "\"0 mm\"");
  plan.runs = std::move(two);
  return plan;
}

const Difference* find_difference(const Comparison& comparison, const LessonQuestion& q) {
  for (const Difference& d : comparison.differences)
    if (d.quantity->key == q.key && d.phase == q.phase && d.model == q.model) return &d;
  return nullptr;
}

json changes_json(const Comparison& comparison, const LessonQuestion& q, Verdict verdict) {
  json list = json::array();
  for (const Difference& d : comparison.differences)
    if (d.verdict == verdict && d.phase == q.phase && d.model == q.model)
      list.push_back({{"key", d.quantity->key},
                      {"words", d.quantity->words},
                      {"unit", d.quantity->unit},
                      {"change", d.change},
                      {"percent", d.percent ? json(*d.percent) : json(nullptr)}});
  return list;
}

const char* answer_of(const Difference& d) {
  if (!d.is_distinguishable) return "stays";
  return d.change > 0 ? "rises" : "falls";
}

}  // namespace

std::vector<LessonQuestion> lesson_questions() {
  return {
      {Lesson::packing,
       "Left: packed 1 mm proud, then nailed. Right: nailed, then filled flush. The foot is in the air. What does the "
       "pressure on the sole do from left to right?",
       "swing_sole_pressure", Phase::swing, ModelKind::axisymmetric},
      {Lesson::packing, "The same two, now standing. What does the largest pressure on the sole do from left to right?",
       "sole_pressure_peak", Phase::standing, ModelKind::axisymmetric},
      {Lesson::setback,
       "The shoe is set back 3/8 in. What does the arm do that the foot rolls over, from left to right?",
       "rollover_arm", Phase::breakover, ModelKind::sagittal},
      {Lesson::setback, "The same two at mid-stance. What does the moment of the deep flexor tendon do?", "ddft_moment",
       Phase::midstance, ModelKind::sagittal},
      {Lesson::elevation, "The heel is raised 6 degrees at the trot. What does the ground pressure under the heel do?",
       "ground_pressure_heel", Phase::midstance, ModelKind::sagittal},
      {Lesson::trial,
       "The same proud packing under a shoe that is taped on (left) or nailed on (right). The foot is in the air. What "
       "does the pressure on the sole do from left to right?",
       "swing_sole_pressure", Phase::swing, ModelKind::axisymmetric}};
}

json lesson_questions_json(const MaterialWords& materials) {
  json list = json::array();
  for (const LessonQuestion& q : lesson_questions()) {
    const LessonPlan plan = lesson_plan(q.lesson, materials);
    list.push_back({{"title", plan.title},
                    {"ask", q.ask},
                    {"left", plan.left},
                    {"right", plan.right},
                    {"key", q.key},
                    {"phase", name_of(q.phase)},
                    {"model", name_of(q.model)},
                    {"notes", plan.notes}});
  }
  return list;
}

CaseReading lesson_question_runs(std::size_t question, const MaterialWords& materials) {
  const auto questions = lesson_questions();
  if (question >= questions.size()) return {};
  return lesson_runs(plan_of(questions[question], materials), nullptr, {}, materials);
}

json lesson_answer_json(std::size_t question, const std::vector<RunResult>& results) {
  const LessonQuestion q = lesson_questions().at(question);
  const Comparison comparison = compare(results);
  const Difference* d = find_difference(comparison, q);
  if (d == nullptr) return {{"answer", nullptr}, {"sentence", "One of the two could not be solved."}};
  const Column column{q.key, q.phase, q.model};
  const std::string left = reading_text(find_reading(results, results.front().run.name, column));
  const std::string right = reading_text(find_reading(results, results.back().run.name, column));
  return {{"answer", answer_of(*d)},
          {"sentence", words_and_unit_of(q.key) + ": " + left + " on the left, " + right + " on the right."},
          {"left", left},
          {"right", right},
          {"bar", d->has_bar ? json(d->bar) : json(nullptr)},
          {"percent", d->percent ? json(*d->percent) : json(nullptr)},
          {"worse", changes_json(comparison, q, Verdict::worse)},
          {"better", changes_json(comparison, q, Verdict::better)}};
}

}  // namespace hoofload::scenarios
