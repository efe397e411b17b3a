// Quantiles give the moments that handbooks state. JCGM 101:2008, section 6.4.
#include "scenarios/distribution.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace hoofload::scenarios {
namespace {

struct Moments {
  double mean, variance;
};

/// By the midpoint rule over the shares.
Moments moments(const Distribution& d) {
  constexpr int n = 20000;
  double sum = 0, square = 0;
  for (int i = 0; i < n; ++i) {
    const double x = quantile(d, (i + 0.5) / n);
    sum += x, square += x * x;
  }
  return {sum / n, square / n - sum / n * (sum / n)};
}

TEST(Distribution, uniform_has_its_moments) {  // JCGM 101:2008, 6.4.2
  const Moments m = moments({Shape::uniform, 3, 9, 0, 0});
  EXPECT_NEAR(m.mean, 6, 1e-6);
  EXPECT_NEAR(m.variance, 36.0 / 12, 1e-6);
}

TEST(Distribution, log_uniform_has_its_moments) {  // from memory: mean (b - a) / ln(b / a)
  const Moments m = moments({Shape::log_uniform, 2, 50, 0, 0});
  EXPECT_NEAR(m.mean, 48 / std::log(25), 1e-4);
  EXPECT_NEAR(m.variance + m.mean * m.mean, (2500 - 4) / (2 * std::log(25)), 1e-2);
}

TEST(Distribution, triangular_has_its_moments) {  // from memory: (a + b + c) / 3, (a^2 + b^2 + c^2 - ab - ac - bc) / 18
  const Moments m = moments({Shape::triangular, 1, 7, 2, 0});
  EXPECT_NEAR(m.mean, 10.0 / 3, 1e-5);
  EXPECT_NEAR(m.variance, (1 + 49 + 4 - 7 - 2 - 14) / 18.0, 1e-5);
}

TEST(Distribution, a_normal_one_cut_at_three_sd_has_its_moments) {  // truncated normal: 1 - 2 c phi(c) / (2 Phi(c) - 1)
  const double phi = std::exp(-4.5) / std::sqrt(2 * std::numbers::pi), inside = std::erf(3 / std::numbers::sqrt2);
  const Moments m = moments(normal_around(10, 2));
  EXPECT_NEAR(m.mean, 10, 1e-6);
  EXPECT_NEAR(m.variance, 4 * (1 - 6 * phi / inside), 1e-4);
}

TEST(Distribution,
     the_quantile_of_a_normal_one_is_that_of_the_tables) {  // Abramowitz & Stegun 1964, table 26.1: 1.64485
  const Distribution wide{Shape::normal, -100, 100, 0, 1};
  EXPECT_NEAR(quantile(wide, 0.95), 1.644854, 1e-6);
  EXPECT_NEAR(quantile(wide, 0.05), -1.644854, 1e-6);
}

TEST(Distribution, a_log_normal_one_is_symmetric_in_the_logarithm) {
  const Distribution d{Shape::log_normal, 1, 9, 3, std::log(9.0) / 4};
  EXPECT_NEAR(quantile(d, 0.5), 3, 1e-9);
  EXPECT_NEAR(quantile(d, 0.1) * quantile(d, 0.9), 9, 1e-9);
  EXPECT_NEAR(quantile(d, 1 - 1e-12), 9, 1e-6);
}

TEST(Distribution, no_value_leaves_its_ends) {
  for (const Distribution& d : {Distribution{Shape::normal, -1, 0.5, 0, 2}, Distribution{Shape::triangular, 0, 1, 1, 0},
                                Distribution{Shape::log_uniform, 1, 3, 0, 0}})
    for (const double u : {1e-16, 0.5, 1 - 1e-16}) {
      EXPECT_GE(quantile(d, u), d.low);
      EXPECT_LE(quantile(d, u), d.high);
    }
}

TEST(Distribution, what_makes_no_sense_is_told) {
  EXPECT_EQ(unsound({Shape::uniform, 1, 2, 0, 0}), "");
  EXPECT_NE(unsound({Shape::uniform, 2, 1, 0, 0}), "");
  EXPECT_NE(unsound({Shape::log_uniform, 0, 1, 0, 0}), "");
  EXPECT_NE(unsound({Shape::normal, 0, 1, 0.5, 0}), "");
  EXPECT_NE(unsound({Shape::triangular, 0, 1, 2, 0}), "");
  EXPECT_NE(unsound({Shape::uniform, 0, HUGE_VAL, 0, 0}), "");
}

}  // namespace
}  // namespace hoofload::scenarios
