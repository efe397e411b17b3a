#include "scenarios/comparison.hpp"

#include <gtest/gtest.h>

#include "scenarios/result_table.hpp"
#include "tests/scenarios/solved_fixture.hpp"

namespace hoofload::scenarios {
namespace {

/// A result as the solver would hand it over, with values and twins given by hand.
RunResult made(const std::string& name, ModelKind model, Phase phase,
               const std::vector<std::tuple<std::string, double, double>>& values) {
  RunResult run;
  run.run.name = name;
  run.run.load.phases = {phase};
  run.run.study.models = {model};
  PhaseResult p;
  p.phase = phase;
  p.model = model;
  p.solved = true;
  for (const auto& [key, value, twin] : values)
    p.values[key] = {value, model, std::abs(value - twin), twin, std::abs(value), true};
  run.models.push_back({model, nullptr, {p}, ""});
  return run;
}

const Difference& only(const Comparison& c, std::string_view key) {
  for (const Difference& d : c.differences)
    if (d.quantity->key == key) return d;
  throw std::runtime_error("no difference of " + std::string(key));
}

constexpr auto S = ModelKind::sagittal;
constexpr auto A = ModelKind::axisymmetric;

// Theory, Eq. (78): an error that both meshes make alike leaves it. Numbers made up.
TEST(Comparison, the_bar_of_a_change_leaves_out_what_both_runs_share) {
  const auto c = compare({made("b", S, Phase::standing, {{"ddft_moment", 100, 90}}),
                          made("o", S, Phase::standing, {{"ddft_moment", 97, 87.5}})});
  const Difference& d = only(c, "ddft_moment");
  EXPECT_DOUBLE_EQ(d.change, -3);
  EXPECT_DOUBLE_EQ(*d.percent, -3);
  // 3/2 (|(97 - 87.5) - (100 - 90)| + 3/20 + 100/500); either value's own: 15
  EXPECT_NEAR(d.bar, 1.5 * (0.5 + 0.15 + 0.2), 1e-12);
  EXPECT_TRUE(d.is_distinguishable);
  EXPECT_EQ(d.verdict, Verdict::better);
}

TEST(Comparison, a_change_within_its_bar_is_neither_better_nor_worse) {
  const auto c = compare({made("b", S, Phase::standing, {{"ddft_moment", 100, 99}}),
                          made("o", S, Phase::standing, {{"ddft_moment", 101, 102}})});
  EXPECT_FALSE(only(c, "ddft_moment").is_distinguishable);
  EXPECT_EQ(only(c, "ddft_moment").verdict, Verdict::neither);
}

// Design: percent is null where the baseline is zero, or nothing but its own bar.
TEST(Comparison, percent_is_left_out_where_the_baseline_is_zero) {
  const auto c =
      compare({made("b", A, Phase::swing, {{"swing_sole_pressure", 0, 0}, {"sole_pressure_tip", 0.2, 0.5}}),
               made("o", A, Phase::swing, {{"swing_sole_pressure", 20, 19}, {"sole_pressure_tip", 30, 31}})});
  EXPECT_FALSE(only(c, "swing_sole_pressure").percent.has_value());
  EXPECT_FALSE(only(c, "sole_pressure_tip").percent.has_value());
  EXPECT_EQ(only(c, "swing_sole_pressure").verdict, Verdict::worse);
}

TEST(Comparison, percent_of_a_negative_baseline_has_the_sign_of_the_change) {
  const auto c = compare({made("b", S, Phase::standing, {{"wall_strain_dorsal", -1000, -1000}}),
                          made("o", S, Phase::standing, {{"wall_strain_dorsal", -1100, -1100}})});
  EXPECT_DOUBLE_EQ(*only(c, "wall_strain_dorsal").percent, -10);
}

TEST(Comparison, a_quantity_with_no_worse_side_is_never_judged) {
  const auto c =
      compare({made("b", S, Phase::standing, {{"cop", 10, 10}}), made("o", S, Phase::standing, {{"cop", 20, 20}})});
  EXPECT_TRUE(only(c, "cop").is_distinguishable);
  EXPECT_EQ(only(c, "cop").verdict, Verdict::neither);
}

TEST(Comparison, an_unsolved_phase_has_no_difference) {
  auto option = made("o", S, Phase::standing, {{"ddft_moment", 90, 90}});
  option.models[0].phases[0].solved = false;
  const auto c = compare({made("b", S, Phase::standing, {{"ddft_moment", 100, 100}}), option});
  EXPECT_TRUE(c.differences.empty());
}

TEST(Comparison, both_models_values_are_set_against_each_other) {
  auto run = made("b", A, Phase::standing, {{"sole_pressure_peak", 30, 30}, {"bone_sink", 1, 1}});
  run.models.push_back(made("b", S, Phase::standing, {{"sole_pressure_peak", 42, 42}, {"bone_sink", 2, 2}}).models[0]);
  const auto c = compare({run});
  ASSERT_EQ(c.form_errors.size(), 1U);  // of the sole's quantities only
  EXPECT_DOUBLE_EQ(c.form_errors[0].bound(), 12);
  EXPECT_EQ(c.form_errors[0].quantity->key, "sole_pressure_peak");
}

// The same case twice: the program must not find differences between a thing and itself.
TEST(Comparison, two_equal_options_differ_from_the_baseline_alike) {
  const auto c = compare(small_results());
  std::size_t half = c.differences.size() / 2;
  ASSERT_GT(half, 10U);
  for (std::size_t k = 0; k < half; ++k) {
    EXPECT_EQ(c.differences[k].quantity, c.differences[half + k].quantity);
    EXPECT_DOUBLE_EQ(c.differences[k].change, c.differences[half + k].change) << c.differences[k].quantity->key;
  }
}

TEST(ResultTable, lists_what_got_worse_beside_what_got_better) {
  const auto c = compare({made("b", S, Phase::standing, {{"ddft_moment", 100, 100}, {"ground_pressure_heel", 50, 50}}),
                          made("o", S, Phase::standing, {{"ddft_moment", 80, 80}, {"ground_pressure_heel", 70, 70}})});
  const auto table = result_table({made("b", S, Phase::standing, {{"ddft_moment", 100, 100}}),
                                   made("o", S, Phase::standing, {{"ddft_moment", 80, 80}})},
                                  c, RunMode::compare, TableDetail::headline, {});
  ASSERT_EQ(table.worse.size(), 1U);
  ASSERT_EQ(table.better.size(), 1U);
  EXPECT_EQ(table.worse[0].quantity, "ground_pressure_heel");
  EXPECT_EQ(table.better[0].quantity, "ddft_moment");
  ASSERT_EQ(table.rows.size(), 1U);
  EXPECT_DOUBLE_EQ(*table.rows[0].cells[0].percent, -20);
}

}  // namespace
}  // namespace hoofload::scenarios
