// Lessons: their runs are good cases, and what is told comes from what was solved. docs/lessons.md.
#include "scenarios/lesson.hpp"

#include <gtest/gtest.h>
#include <array>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "scenarios/lesson_pictures.hpp"
#include "scenarios/lesson_story.hpp"
#include "scenarios/result_json.hpp"
#include "tests/scenarios/case_fixture.hpp"
#include "tests/scenarios/schema_check.hpp"
#include "viz/cautions.hpp"

namespace hoofload::scenarios {
namespace {

constexpr std::array kAll = {Lesson::packing, Lesson::setback, Lesson::elevation, Lesson::trial};

struct Solved {
  LessonPlan plan;
  std::vector<RunResult> results;
  Comparison comparison;
};

/// The trial on a coarse mesh, solved once.
const Solved& trial() {
  static const Solved solved = [] {
    Solved s{lesson_plan(Lesson::trial, catalogue_words()), {}, {}};
    const CaseReading reading = lesson_runs(s.plan, nullptr, 0.3, catalogue_words());
    s.results = solve_runs(reading.runs, materials::load_catalogue());
    s.comparison = compare(s.results);
    return s;
  }();
  return solved;
}

TEST(Lesson, every_lesson_is_a_good_case_with_names_of_their_own) {
  for (const Lesson lesson : kAll) {
    const LessonPlan plan = lesson_plan(lesson, catalogue_words());
    const CaseReading reading = lesson_runs(plan, nullptr, {}, catalogue_words());
    EXPECT_TRUE(reading.errors.empty()) << all_errors(reading.errors);
    ASSERT_EQ(reading.runs.size(), plan.runs.size());
    std::set<std::string> names;
    for (const Case& run : reading.runs) names.insert(run.name);
    EXPECT_EQ(names.size(), plan.runs.size());
    EXPECT_TRUE(names.contains(plan.left) && names.contains(plan.right)) << plan.title;
    for (const std::string& shown : plan.shown) EXPECT_TRUE(names.contains(shown)) << shown;
  }
}

TEST(Lesson, no_two_runs_are_the_same_case) {
  for (const Lesson lesson : kAll) {
    std::set<std::vector<Setting>> settings;
    const LessonPlan plan = lesson_plan(lesson, catalogue_words());
    for (const LessonRun& run : plan.runs) EXPECT_TRUE(settings.insert(run.settings).second) << run.name;
  }
}

TEST(Lesson, a_case_gives_its_foot_and_not_its_options) {
  const Case own = good_case("schema = 1\n[foot]\nsole_depth_tip = \"11 mm\"\n[shoe]\nsetback = \"1/4 in\"\n");
  const LessonPlan plan = lesson_plan(Lesson::elevation, catalogue_words());
  const CaseReading reading = lesson_runs(plan, &own, {}, catalogue_words());
  ASSERT_EQ(reading.runs.size(), plan.runs.size()) << all_errors(reading.errors);
  EXPECT_EQ(reading.runs[3].foot.sole_depth_tip, 11);
  EXPECT_EQ(reading.runs[3].shoeing.shoe.setback, 0);
  EXPECT_EQ(reading.runs[3].load.gait, Gait::trot);
}

TEST(Lesson, hard_set_is_the_packing_with_the_largest_modulus) {
  const std::string id = hardest_packing(catalogue_words());
  const auto modulus = [](const MaterialWord& m) {
    for (const ParameterWord& p : m.parameters)
      if (p.name == "E") return p.value;
    return 0.0;
  };
  const double most = modulus(*find_material(catalogue_words(), id));
  for (const MaterialWord& m : catalogue_words()) {
    if (serves_as(m, "packing")) {
      EXPECT_LE(modulus(m), most) << m.id;
    }
  }
  EXPECT_THROW((void)hardest_packing({}), std::runtime_error);
}

TEST(Lesson, the_sentence_holds_the_solved_values) {
  const Solved& s = trial();
  ASSERT_TRUE(all_solved(s.results));
  const std::string sentence = closing_sentence(s.plan, s.results, s.comparison);
  for (const std::string& run : {s.plan.left, s.plan.right})
    for (const ModelKind model : {ModelKind::axisymmetric, ModelKind::sagittal}) {
      const Reading* r = find_reading(s.results, run, {"swing_sole_pressure", Phase::swing, model});
      ASSERT_NE(r, nullptr);
      EXPECT_NE(sentence.find(reading_text(r) + " kPa"), std::string::npos) << sentence;
    }
}

// A band gives way where clinched nails do not, so it presses a proud filling less (common practice, no source).
TEST(Lesson, a_band_presses_a_proud_filling_less_than_nails_do) {
  for (const ModelKind model : {ModelKind::axisymmetric, ModelKind::sagittal}) {
    const Column air{"swing_sole_pressure", Phase::swing, model};
    const double taped = find_reading(trial().results, trial().plan.left, air)->value;
    EXPECT_GT(taped, 0);
    EXPECT_LT(taped, find_reading(trial().results, trial().plan.right, air)->value);
  }
}

TEST(Lesson, what_is_not_solved_is_said) {
  Solved s = trial();
  for (RunResult& run : s.results)
    if (run.run.name == s.plan.left)
      for (ModelResult& model : run.models)
        for (PhaseResult& phase : model.phases) {
          phase.solved = false;
          phase.values.clear();
          phase.why = "made so by the test";
        }
  EXPECT_NE(closing_sentence(s.plan, s.results, s.comparison).find("not solved"), std::string::npos);
  EXPECT_NE(lesson_text(s.plan, s.results, s.comparison).find("made so by the test"), std::string::npos);
}

TEST(Lesson, the_text_ends_with_the_cautions) {
  const std::string text = lesson_text(trial().plan, trial().results, trial().comparison);
  const std::string last(viz::caution_text.substr(viz::caution_text.rfind('(')));
  EXPECT_EQ(text.substr(text.size() - last.size() - 1), last + "\n");
  EXPECT_NE(text.find("Side by side"), std::string::npos);
}

TEST(Lesson, the_json_is_that_of_compare) {
  std::ifstream stream("docs/result.schema.json");
  const tests::SchemaCheck schema(nlohmann::json::parse(stream));
  EXPECT_EQ(schema.problem(result_json(trial().results, trial().comparison, {"lesson trial", {}})), "");
}

TEST(Lesson, overviews_draw_every_run_of_the_trial) {
  const auto pictures = lesson_overviews(trial().plan, trial().results);
  ASSERT_FALSE(pictures.empty());
  for (const RunResult& r : trial().results) EXPECT_NE(pictures[0].svg.find(r.run.name), std::string::npos);
}

}  // namespace
}  // namespace hoofload::scenarios
