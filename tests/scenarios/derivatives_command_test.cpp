// What `hoofload derivatives` says, from made-up slopes, and how it refuses.
#include <gtest/gtest.h>

#include <cmath>

#include "scenarios/derivatives_command.hpp"
#include "scenarios/input_words.hpp"

namespace hoofload::scenarios {
namespace {

std::vector<SlopeInput> made_up_inputs() {
  return {{"shoe.setback", "mm", 3, 0, 1e-3, Effect::replace, {{"shoe.setback", 1}}},
          {"materials.sole horn.E", "MPa", 230, 80, 0.8, Effect::replace, {{"materials.sole horn.E", 1}}},
          {"horse.mass", "of the value", 0, 0.03, 3e-4, Effect::scale, {{"horse.mass", 1}}}};
}

std::vector<RunSlopes> made_up_slopes() {
  SlopeTable table{Phase::standing, {{"sole_pressure_peak", 400}}, {}};
  table.slopes["sole_pressure_peak"] = {{0, 90, 1e-4, "upwards only"}, {1, 0.5, 0.8, ""}, {2, 1000, 3e-4, ""}};
  return {{"baseline", ModelKind::axisymmetric, {table}, {{0, "breakover", "the mesh has other points"}}, {}, 2}};
}

TEST(DerivativesCommand, rows_stand_by_the_change_of_one_standard_deviation_with_plain_words_and_units) {
  const std::string text = slopes_text(made_up_slopes(), made_up_inputs(), {});
  EXPECT_EQ(text.rfind("AT THIS POINT ONLY", 0), 0U);
  const auto modulus = text.find("Young's modulus of sole horn (materials.sole horn.E)");
  const auto mass = text.find("(horse.mass)"), setback = text.find("(shoe.setback)");
  ASSERT_NE(modulus, std::string::npos) << text;
  EXPECT_LT(modulus, mass);  // 0.5 x 80 = 40 kPa before 1000 x 0.03 = 30 kPa
  EXPECT_LT(mass, setback);  // which has no known spread
  EXPECT_NE(text.find("+0.500 kPa per MPa"), std::string::npos) << text;
  EXPECT_NE(text.find("+10.0 kPa per 1 %"), std::string::npos) << text;
  EXPECT_NE(text.find("[upwards only]"), std::string::npos) << text;
  EXPECT_NE(text.find("the mesh has other points"), std::string::npos) << text;
}

TEST(DerivativesCommand, what_cannot_move_by_a_little_is_refused_with_the_nearest_key) {
  const materials::Catalogue catalogue = materials::load_catalogue();
  const std::vector<Case> runs(1);
  EXPECT_THROW((void)slope_inputs(runs, catalogue, {"nails.count"}), std::invalid_argument);
  EXPECT_THROW((void)slope_inputs(runs, catalogue, {"shoe.type"}), std::invalid_argument);
  try {
    (void)slope_inputs(runs, catalogue, {"shoe.setbak"});
    FAIL();
  } catch (const std::invalid_argument& e) {
    EXPECT_NE(std::string(e.what()).find("shoe.setback"), std::string::npos) << e.what();
  }
}

TEST(DerivativesCommand, every_uncertainty_of_a_case_is_an_input_with_a_spread_and_a_step) {
  Case c;
  for (const Key& key : case_keys()) c.defaulted.emplace_back(key.name);
  const auto list = uncertainties({c}, materials::load_catalogue());
  const auto inputs = slope_inputs({c}, materials::load_catalogue(), {});
  ASSERT_EQ(inputs.size(), list.size());
  for (const SlopeInput& input : inputs) {
    EXPECT_GT(input.sd, 0) << input.name;
    EXPECT_GT(input.step, 0) << input.name;
  }
}

TEST(DerivativesCommand, an_input_has_words_and_its_key) {
  EXPECT_EQ(input_words("shoe.web"), "width of the branch (shoe.web)");
  EXPECT_EQ(input_words("materials.wall.E"), "Young's modulus of wall (materials.wall.E)");
  EXPECT_EQ(input_words("beam centring"), "beam centring");
}

// Standard deviations of a uniform, a triangular and a log-uniform distribution: elementary integrals.
TEST(DerivativesCommand, spread_of_a_distribution_is_its_standard_deviation) {
  EXPECT_NEAR(standard_deviation({Shape::uniform, 2, 8, 0, 0}), 6 / std::sqrt(12.0), 1e-12);
  EXPECT_NEAR(standard_deviation({Shape::triangular, 0, 2, 1, 0}), std::sqrt(1.0 / 6), 1e-12);
  double sum = 0, square = 0;
  const Distribution d{Shape::log_uniform, 1, 10, 0, 0};
  constexpr int n = 20000;
  for (int k = 0; k < n; ++k) {
    const double x = quantile(d, (k + 0.5) / n);
    sum += x, square += x * x;
  }
  EXPECT_NEAR(standard_deviation(d), std::sqrt(square / n - sum / n * sum / n), 1e-3);
}

}  // namespace
}  // namespace hoofload::scenarios
