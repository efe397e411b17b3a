// The bars of Eqs. (77) and (78) against stored readings of random feet, shoes and packings that had no part in their
// constants: variants of the judging half of BarCalibrationStudy (docs/error-bars.md), to six digits. Common practice, no
// source: a bar is to be right 95 times in 100.
#include <gtest/gtest.h>

#include "tests/support/bar_judgement.hpp"
#include "tests/support/bar_readings_file.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

constexpr JudgedMesh kHalf{0.5, true}, kQuarter{0.25, false};

const std::vector<VariantReading>& stored() {
  static const auto readings =
      kept_readings((materials::data_directory().parent_path() / "tests" / "support" / "bar_readings.txt").string());
  return readings.all;
}

double expect_19_in_20(const std::vector<JudgedBar>& judged, const Claim& claim, const std::string& of) {
  const BarStatistics s = statistics_of(judged);
  EXPECT_GT(s.values, 500U);
  record_finding(claim, of, "at least 95 % inside",
                 text("%.1f %% of %zu; median effectivity %.1f", s.coverage(), s.values, s.effectivity),
                 s.coverage() < 95);
  return s.coverage();
}

TEST(StoredBars, random_feet_lie_within_19_bars_of_20_on_coarse_meshes) {
  const Claim values{"bars of values hold for random feet, shoes and packings", "theory, Eq. (77)",
                     "density .5 against 1; .25 against 1"};
  const Claim changes{"bars of changes hold for 6 mm of setback on them", "theory, Eq. (78)", values.mesh};
  EXPECT_GE(expect_19_in_20(judged_values(stored(), kHalf), values, "half"), 95);
  EXPECT_GE(expect_19_in_20(judged_changes(stored(), kHalf), changes, "half"), 95);
  // The coarsest mesh that a case may ask for.
  EXPECT_GE(expect_19_in_20(judged_values(stored(), kQuarter), values, "quarter"), 95);
  EXPECT_GE(expect_19_in_20(judged_changes(stored(), kQuarter), changes, "quarter"), 95);
}

// Without k of Eq. (77), as bars were before random feet were solved, they are too small.
TEST(StoredBars, without_the_factor_of_coarse_meshes_they_would_not) {
  std::vector<JudgedBar> plain = judged_values(stored(), kHalf);
  for (JudgedBar& j : plain) j.pair.bar = j.plain;
  EXPECT_LT(statistics_of(plain).coverage(), 95);
}

// What two options share leaves the bar of their difference, as it leaves its error (theory, section 17).
TEST(StoredBars, the_bar_of_a_change_is_smaller_than_those_of_both_values) {
  std::vector<double> bars, errors;
  for (const JudgedBar& j : judged_changes(stored(), kHalf)) {
    bars.push_back(j.pair.bar / j.single_bars);
    errors.push_back(j.pair.error / j.single_errors);
  }
  record_finding({"the error of a change is smaller than those of both values, and so is its bar", "theory, Eq. (78)",
                  "density .5 against 1"},
                 "paired over root of squares of both, median", "below 1",
                 text("bars %.2f; true errors %.2f", quantile(bars, 0.5), quantile(errors, 0.5)));
  EXPECT_LT(quantile(bars, 0.5), 0.5);
  EXPECT_LT(quantile(errors, 0.5), 0.75);
}

// A key that the catalogue does not have would take its factor from nowhere.
TEST(StoredBars, every_stored_quantity_is_in_the_catalogue) {
  for (const auto& r : stored()) EXPECT_NE(scenarios::find_quantity(r.key), nullptr) << r.key;
}

}  // namespace
