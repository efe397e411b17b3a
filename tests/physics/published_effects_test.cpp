// docs/effects.md says what the program gives: every line's text is compared, and the cheap rows are solved afresh. The whole page
// is solved in the study.
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "scenarios/effects.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload::scenarios;

std::string stored_page() {
  std::ifstream stream("docs/effects.md");
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

/// A line of the table without our number and the verdict: what stands in it whatever is solved.
std::string fixed_part(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream stream(line);
  for (std::string cell; std::getline(stream, cell, '|');) cells.push_back(cell);
  std::string kept;
  for (std::size_t k = 0; k < cells.size(); ++k)
    if (k != 4 && k != 7) kept += cells[k] + "|";
  return kept;
}

EffectLine between_one_and_two() {
  EffectLine line;
  line.low = 1, line.high = 2;
  return line;
}

// Every row of the program stands on the page and no other (common practice, no source).
TEST(PublishedEffects, the_page_has_the_rows_of_the_program) {
  std::vector<std::string> wanted, found;
  for (const EffectRow& row : effect_rows())
    for (std::size_t k = 0; k < row.lines.size(); ++k) wanted.push_back(fixed_part(effect_table_line(row, k, {})));
  std::istringstream page(stored_page());
  for (std::string line; std::getline(page, line);)
    if (line.starts_with("| ") && !line.starts_with("| row")) found.push_back(fixed_part(line));
  EXPECT_EQ(found, wanted) << "run: hoofload check-effects --markdown > docs/effects.md";
}

// Row 3 solved afresh on the page's meshes gives the page's numbers and verdicts, to the digits that it shows.
TEST(PublishedEffects, a_row_solved_afresh_is_the_page_s) {
  const std::string page = stored_page();
  for (const RowAnswer& answer : answer_effects({"3"}, kEffectsDensity))
    for (std::size_t k = 0; k < answer.lines.size(); ++k) {
      const std::string line = effect_table_line(*answer.row, k, answer.lines[k]);
      EXPECT_NE(page.find(line), std::string::npos) << "not on docs/effects.md: " << line;
    }
}

// Eqs. (77), (78) of docs/theory.md by hand: a value's bar is k (|2 - 1.9| + 1 %), a change's k (|2 - 1.9| + 5 % + 1/500 of its
// size); k is 3/2 on the default mesh, 0.8/0.5^2 at half its density for what is read at a place, half of that for the whole foot.
TEST(PublishedEffects, the_bar_is_that_of_the_theory) {
  EXPECT_NEAR(judged({}, {2, {}}, {1.9, {}}, 1).bar, 1.5 * (0.1 + 0.02), 1e-12);
  EXPECT_NEAR(judged({}, {-2, 50.0}, {-1.9, 50.0}, 1).bar, 1.5 * (0.1 + 0.1 + 0.1), 1e-12);
  EXPECT_NEAR(judged({}, {2, {}}, {1.9, {}}, 0.5).bar, 3.2 * (0.1 + 0.02), 1e-12);
  EXPECT_NEAR(judged({}, {2, {}, true}, {1.9, {}, true}, 0.5).bar, 1.6 * (0.1 + 0.02), 1e-12);
}

// A verdict follows from the number; a bar across the edge is said; a sign within its bar of 0 is no sign (no source: definitions).
TEST(PublishedEffects, verdicts_follow_from_numbers) {
  const EffectLine range = between_one_and_two();
  EXPECT_EQ(judged(range, {1.5, {}}, {1.5, {}}, 1).verdict, EffectVerdict::pass);
  EXPECT_EQ(judged(range, {2.5, {}}, {2.5, {}}, 1).verdict, EffectVerdict::miss);
  EXPECT_FALSE(judged(range, {1.5, {}}, {1.5, {}}, 1).at_the_edge);
  EXPECT_TRUE(judged(range, {1.9, {}}, {1.5, {}}, 1).at_the_edge);
  EXPECT_EQ(judged({}, {1.5, {}}, {1.5, {}}, 1).verdict, EffectVerdict::none);
  EffectLine sign;
  sign.low = 0, sign.high = 1e30, sign.is_sign = true;
  EXPECT_EQ(judged(sign, {1, {}}, {0.9, {}}, 1).verdict, EffectVerdict::pass);
  EXPECT_EQ(judged(sign, {1, {}}, {-1, {}}, 1).verdict, EffectVerdict::miss);
  EXPECT_EQ(judged(sign, {0, {}}, {0, {}}, 1).verdict, EffectVerdict::miss);
}

// A row is met when all its numbers are (definition).
TEST(PublishedEffects, one_miss_or_one_unsolved_number_unmakes_a_row) {
  LineAnswer met, missed, unsolved;
  met.verdict = EffectVerdict::pass, missed.verdict = EffectVerdict::miss, unsolved.verdict = EffectVerdict::unsolved;
  EXPECT_EQ(verdict_of({nullptr, {met, {}}}), EffectVerdict::pass);
  EXPECT_EQ(verdict_of({nullptr, {met, missed}}), EffectVerdict::miss);
  EXPECT_EQ(verdict_of({nullptr, {met, unsolved}}), EffectVerdict::unsolved);
}

// The program's rule for itself: fewer parameters set with a calibration row in view than such rows.
TEST(PublishedEffects, fewer_parameters_than_calibration_rows) {
  int set = 0, rows = 0;
  for (const SetParameter& p : set_parameters()) set += p.rows.empty() ? 0 : 1;
  for (const EffectRow& row : effect_rows()) rows += row.set == EffectSet::calibration ? 1 : 0;
  EXPECT_LT(set, rows);
}

TEST(PublishedEffectsStudy, the_page_is_current) {
  const std::vector<RowAnswer> answers = answer_effects({}, kEffectsDensity);
  EXPECT_EQ(stored_page(), effects_markdown(answers, kEffectsDensity));
  for (const RowAnswer& answer : answers) {
    const EffectVerdict verdict = verdict_of(answer);
    if (verdict == EffectVerdict::none) continue;
    hoofload::tests::record_finding(
        {"published effects of shoeing lie within their check", "docs/effects.md, row by row", "density of the page"},
        "row " + std::string(answer.row->number), "met", verdict == EffectVerdict::pass ? "met" : "missed",
        verdict != EffectVerdict::pass);
  }
}

}  // namespace
