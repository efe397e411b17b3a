// Jansen's estimators against the analytic indices of the two functions that the literature tests with.
#include "scenarios/sobol_indices.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <numbers>

#include "scenarios/unit_points.hpp"

namespace hoofload::scenarios {
namespace {

using Function = std::function<double(const std::vector<double>&)>;

/// The designs of a sweep's "sobol indices", scrambled Sobol' points in twice as many dimensions.
DesignValues designed(const Function& f, std::size_t inputs, std::size_t n, std::uint64_t seed) {
  const UnitPoints points = sobol_points(n, 2 * inputs, seed);
  DesignValues v;
  v.ab.resize(inputs);
  for (std::size_t r = 0; r < n; ++r) {
    std::vector<double> a, b;
    for (std::size_t d = 0; d < inputs; ++d) a.push_back(points.at(r, d)), b.push_back(points.at(r, inputs + d));
    v.a.push_back(f(a));
    v.b.push_back(f(b));
    for (std::size_t d = 0; d < inputs; ++d) {
      std::vector<double> ab = a;
      ab[d] = b[d];
      v.ab[d].push_back(f(ab));
    }
  }
  return v;
}

void expect_within(const IndexEstimate& e, double exact, const std::string& what) {
  EXPECT_LE(e.low, exact) << what;
  EXPECT_GE(e.high, exact) << what;
  EXPECT_LE(e.low, e.value) << what;
  EXPECT_GE(e.high, e.value) << what;
  EXPECT_LT(e.high - e.low, 0.15) << what;  // an interval that says something
}

// Ishigami & Homma 1990, a = 7, b = 0.1; V = a^2/8 + b pi^4/5 + b^2 pi^8/18 + 1/2, V1 = (1 + b pi^4/5)^2/2, V2 = a^2/8,
// V13 = 8 b^2 pi^8/225 (Saltelli et al. 2008, section 4).
TEST(SobolIndices, ishigamis_analytic_indices_lie_within_the_bootstrap_intervals) {
  const Function f = [](const std::vector<double>& u) {
    const double pi = std::numbers::pi;
    const double x = pi * (2 * u[0] - 1), y = pi * (2 * u[1] - 1), z = pi * (2 * u[2] - 1);
    return std::sin(x) + 7 * std::sin(y) * std::sin(y) + 0.1 * z * z * z * z * std::sin(x);
  };
  const double p4 = std::pow(std::numbers::pi, 4), p8 = p4 * p4, b = 0.1;
  const double V = 49.0 / 8 + b * p4 / 5 + b * b * p8 / 18 + 0.5;
  const double V1 = 0.5 * std::pow(1 + b * p4 / 5, 2), V2 = 49.0 / 8, V13 = 8 * b * b * p8 / 225;
  const SobolIndices s = sobol_indices(designed(f, 3, 2048, 11));
  EXPECT_NEAR(s.variance, V, 0.05 * V);
  const std::vector<double> first{V1 / V, V2 / V, 0}, total{(V1 + V13) / V, V2 / V, V13 / V};
  for (std::size_t i = 0; i < 3; ++i) {
    expect_within(s.first[i], first[i], "first order of input " + std::to_string(i));
    expect_within(s.total[i], total[i], "total of input " + std::to_string(i));
  }
}

// Sobol' 1993, g-function: V_i = 1 / (3 (1 + a_i)^2), V = prod (1 + V_i) - 1, total V_i prod over the others (1 + V_j).
TEST(SobolIndices, the_g_functions_analytic_indices_lie_within_the_bootstrap_intervals) {
  const std::vector<double> a{0, 1, 4.5, 9, 99, 99};
  const Function g = [&](const std::vector<double>& u) {
    double product = 1;
    for (std::size_t d = 0; d < a.size(); ++d) product *= (std::abs(4 * u[d] - 2) + a[d]) / (1 + a[d]);
    return product;
  };
  double all = 1;
  for (const double x : a) all *= 1 + 1 / (3 * (1 + x) * (1 + x));
  const SobolIndices s = sobol_indices(designed(g, 6, 2048, 5));
  EXPECT_NEAR(s.variance, all - 1, 0.05 * (all - 1));
  for (std::size_t i = 0; i < a.size(); ++i) {
    const double V = 1 / (3 * (1 + a[i]) * (1 + a[i]));
    expect_within(s.first[i], V / (all - 1), "first order of input " + std::to_string(i));
    expect_within(s.total[i], V * all / (1 + V) / (all - 1), "total of input " + std::to_string(i));
  }
}

TEST(SobolIndices, a_sum_has_equal_first_and_total_indices_that_add_up_to_one) {  // no interactions: Sobol' 1993
  const Function f = [](const std::vector<double>& u) { return 3 * u[0] + 2 * u[1] + u[2]; };
  const SobolIndices s = sobol_indices(designed(f, 3, 1024, 2));
  double sum = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(s.first[i].value, s.total[i].value, 0.02);
    EXPECT_NEAR(s.total[i].value, std::pow(3.0 - static_cast<double>(i), 2) / 14, 0.01);
    sum += s.first[i].value;
  }
  EXPECT_NEAR(sum, 1, 0.03);
}

TEST(SobolIndices, what_does_not_vary_has_no_indices) {
  const SobolIndices s = sobol_indices(designed([](const auto&) { return 4.0; }, 2, 64, 1));
  EXPECT_EQ(s.variance, 0);
  EXPECT_EQ(s.first[0].value, 0);
  EXPECT_EQ(s.total[1].high, 0);
}

}  // namespace
}  // namespace hoofload::scenarios
