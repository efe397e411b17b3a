// Indices and swings of a solved sweep, and the input that widens a change most.
#include "scenarios/sensitivity.hpp"

#include <cmath>

#include "scenarios/plot_command.hpp"
#include "scenarios/widening.hpp"
#include "tests/scenarios/solved_fixture.hpp"
#include "tests/scenarios/sweep_fixture.hpp"

namespace hoofload::scenarios {
namespace {

/// Columns as a sweep of that method would give them for a function of its inputs, without solving anything.
struct MadeUp {
  SweepIdentity identity;
  SweepColumns columns;
};

MadeUp made_up(const std::string& method_and_samples, const std::function<double(const std::vector<double>&)>& f) {
  const auto folder = sweep_folder("made-up", "base = \"base.toml\"\n" + method_and_samples +
                                                  "[vary]\n\"packing.hardness\" = [\"20 ShoreA\", \"60 ShoreA\"]\n"
                                                  "foot.sole_depth_tip = [\"10 mm\", \"20 mm\"]\n"
                                                  "shoe.plate_thickness = [\"4 mm\", \"8 mm\"]\n");
  const auto sweep = good_sweep(folder);
  SweepFile file(folder / "r.sqlite", identity_of(*sweep));
  for (std::size_t run = 0; run < run_count(sweep->plan); ++run) {
    SweepRun one{run, settings_of(sweep->plan, run), "x", "solved", 0, {}};
    std::vector<double> x;
    for (const InputValue& s : one.settings) x.push_back(std::stod(s.value));
    for (const char* option : {"baseline", "other"})
      one.rows.push_back({option, "axisymmetric", "standing", "sole_pressure_peak", "kPa",
                          option[0] == 'b' ? x[2] : x[2] + f(x), 0.5, "solved", ""});
    file.add(one);
  }
  return {file.identity(), read_columns(file)};
}

// Of a sum of independent inputs the shares are known: (c_i w_i)^2 / sum for uniform inputs of width w_i. c w = 40, 20, 0.
double sum_of(const std::vector<double>& x) { return x[0] + 2 * x[1]; }

TEST(Sensitivity, indices_of_a_stored_sweep_are_those_of_the_function_behind_it) {
  const MadeUp m = made_up("method = \"sobol indices\"\nsamples = 256\n", sum_of);
  const auto list = indices_of(m.identity, m.columns, {});
  ASSERT_EQ(list.size(), 3U);  // baseline, other, change of other
  EXPECT_NEAR(list[0].indices.total[2].value, 1, 0.02);
  const SobolIndices& change = list[2].indices;
  EXPECT_TRUE(list[2].is_change);
  EXPECT_NEAR(change.first[0].value, 0.8, 0.05);
  EXPECT_NEAR(change.total[1].value, 0.2, 0.02);
  EXPECT_NEAR(change.total[2].value, 0, 1e-9);  // the plate is in both and cancels
  const std::string text = indices_text(m.columns, {list[2]});
  EXPECT_NE(text.find("measure this again first: hardness of the set packing (packing.hardness)\n"), std::string::npos) << text;
}

TEST(Sensitivity, swings_are_labelled_one_at_a_time_and_the_widest_stands_first) {
  const MadeUp m = made_up("method = \"one at a time\"\n", sum_of);
  const auto list = swings_of(m.identity, m.columns, {"", "other", "", ""});
  ASSERT_EQ(list.size(), 2U);
  const ColumnSwings& change = list[1];
  EXPECT_NEAR(change.middle.value(), 40 + 2 * 15, 1e-9);
  EXPECT_EQ(change.swings[0].input, 0U);
  EXPECT_NEAR(change.swings[0].size(), 0.9 * 40, 1e-6);
  EXPECT_NEAR(change.swings[1].size(), 0.9 * 20, 1e-6);
  EXPECT_NEAR(change.swings[2].size(), 0, 1e-9);
  EXPECT_NE(swings_text(m.columns, list).find("ONE AT A TIME"), std::string::npos);
}

TEST(Sensitivity, another_method_or_an_unknown_word_is_one_clear_sentence) {
  const MadeUp m = made_up("method = \"sobol\"\nsamples = 32\n", sum_of);
  const auto said = [](const auto& work) -> std::string {
    try {
      work();
    } catch (const std::invalid_argument& e) {
      return e.what();
    }
    return "nothing";
  };
  EXPECT_EQ(said([&] { (void)indices_of(m.identity, m.columns, {}); }),
            "this is a sweep of method \"sobol\"; it takes one of \"sobol indices\"");
  EXPECT_EQ(said([&] {
              (void)chosen_columns(m.columns, {"sole_presure_peak", "", "", ""});
            }),
            "--quantity: there is no 'sole_presure_peak' in this sweep; allowed: sole_pressure_peak; nearest: "
            "sole_pressure_peak");
  const auto plot = [&](const char* kind, const char* x, const char* y) {
    return said([&] {
      (void)make_plot(m.identity, m.columns, {kind, "", {"sole_pressure_peak", "other", "", ""}, x, y, "a.svg", true});
    });
  };
  EXPECT_NE(plot("torndo", "", "").find("nearest: tornado"), std::string::npos);
  EXPECT_NE(plot("map", "packing.hardness", "foot.sole_depth_tip").find("only its two inputs vary"), std::string::npos);
  EXPECT_NE(plot("curve", "packing.hardnes", "").find("nearest: packing.hardness"), std::string::npos);
  EXPECT_EQ(plot("scatter", "packing.hardness", "sole_pressure_peak"), "nothing");
  EXPECT_EQ(plot("differences", "", ""), "nothing");
}

TEST(Sensitivity, a_plots_table_holds_the_quantiles_of_the_paired_change) {
  const MadeUp m = made_up("method = \"sobol\"\nsamples = 64\n", sum_of);
  const Plot plot =
      make_plot(m.identity, m.columns, {"differences", "", {"sole_pressure_peak", "", "", ""}, "", "", "a.svg", true});
  std::vector<double> sums;
  for (const auto& s : m.columns.settings) sums.push_back(std::stod(s[0]) + 2 * std::stod(s[1]));
  std::sort(sums.begin(), sums.end());
  double low = 0, median = 0, high = 0;
  const std::string row = plot.csv.substr(plot.csv.find('\n') + 1);
  ASSERT_EQ(std::sscanf(row.c_str(), "other,,,%lf,%lf,%lf", &low, &median, &high), 3) << row;
  EXPECT_NEAR(low, quantile_of(sums, 0.05), 1e-9);
  EXPECT_NEAR(median, quantile_of(sums, 0.5), 1e-9);
  EXPECT_NEAR(high, quantile_of(sums, 0.95), 1e-9);
}

// A sum again: shares 0.64, 0.32, 0.04 of y = 4 u1 + sqrt(8) u2 + u3 (variances as 16 : 8 : 1), and none of u4.
TEST(Widening, shares_from_plain_draws_are_those_of_a_sum) {
  const UnitPoints points = sobol_points(512, 4, 3);
  std::vector<std::vector<double>> u(4);
  std::vector<double> y;
  for (std::size_t s = 0; s < points.count; ++s) {
    for (std::size_t d = 0; d < 4; ++d) u[d].push_back(points.at(s, d));
    y.push_back(4 * u[0][s] + std::sqrt(8.0) * u[1][s] + u[2][s]);
  }
  // Within a slice a straight line keeps 1/64 of its own variance: 8 slices see 63/64 of it.
  EXPECT_NEAR(share_of_variance(u[0], y), 0.64, 0.03);
  EXPECT_NEAR(share_of_variance(u[1], y), 0.32, 0.03);
  EXPECT_NEAR(share_of_variance(u[2], y), 0.04, 0.03);
  EXPECT_LT(share_of_variance(u[3], y), share_by_chance(512));
  EXPECT_EQ(share_of_variance(u[3], std::vector<double>(512, 2.0)), 0);
}

TEST(Widening, chance_alone_is_not_named) {  // 4 sd of F: none of 500 inputs without effect may stand out
  const UnitPoints points = random_points(512, 501, 9);
  std::vector<double> y;
  for (std::size_t s = 0; s < points.count; ++s) y.push_back(points.at(s, 500));
  int named = 0;
  for (std::size_t d = 0; d < 500; ++d) {
    std::vector<double> u;
    for (std::size_t s = 0; s < points.count; ++s) u.push_back(points.at(s, d));
    named += share_of_variance(u, y) > share_by_chance(512) ? 1 : 0;
  }
  EXPECT_LE(named, 1);
}

}  // namespace
}  // namespace hoofload::scenarios
