// Points for sampling hold what is proven of them: nets, slices, uniformity, and errors that fall faster than at random.
#include "scenarios/unit_points.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

namespace hoofload::scenarios {
namespace {

using Sampler = std::function<UnitPoints(std::size_t, std::size_t, std::uint64_t)>;

/// Least and largest number of points in the boxes of 2^-bits[d] along dimension d.
std::pair<int, int> box_counts(const UnitPoints& points, const std::vector<int>& bits) {
  int all = 0;
  for (const int b : bits) all += b;
  std::vector<int> count(std::size_t{1} << all, 0);
  for (std::size_t i = 0; i < points.count; ++i) {
    std::size_t box = 0;
    for (std::size_t d = 0; d < bits.size(); ++d)
      box = (box << bits[d]) + static_cast<std::size_t>(std::ldexp(points.at(i, d), bits[d]));
    ++count[box];
  }
  return {*std::min_element(count.begin(), count.end()), *std::max_element(count.begin(), count.end())};
}

// Niederreiter 1992, section 4.5: the Sobol' sequence is a (t, s)-sequence with t = sum (degree - 1) = 0, 0, 1, 3 for
// s = 1, 2, 3, 4, so every elementary box of volume 2^(t - k) holds exactly 2^t of the first 2^k points; Owen 1995: nested
// scrambling keeps that.
TEST(UnitPoints, scrambled_sobol_points_fill_every_elementary_box_of_two_dimensions_once) {
  for (const std::uint64_t seed : {1U, 2U, 99U})
    for (int k = 1; k <= 10; ++k) {
      const UnitPoints points = sobol_points(std::size_t{1} << k, 2, seed);
      for (int a = 0; a <= k; ++a) EXPECT_EQ(box_counts(points, {a, k - a}), std::pair(1, 1)) << k << " " << a;
    }
}

TEST(UnitPoints, scrambled_sobol_points_have_the_known_quality_in_three_and_four_dimensions) {
  const int k = 9;
  const UnitPoints three = sobol_points(1U << k, 3, 5), four = sobol_points(1U << k, 4, 5);
  for (int a = 0; a <= k - 1; ++a)
    for (int b = 0; a + b <= k - 1; ++b) EXPECT_EQ(box_counts(three, {a, b, k - 1 - a - b}), std::pair(2, 2));
  for (int a = 0; a <= k - 3; ++a)
    for (int b = 0; a + b <= k - 3; ++b)
      for (int c = 0; a + b + c <= k - 3; ++c)
        EXPECT_EQ(box_counts(four, {a, b, c, k - 3 - a - b - c}), std::pair(8, 8));
}

TEST(UnitPoints, every_dimension_of_many_is_stratified_alone) {
  const UnitPoints points = sobol_points(256, 200, 3);
  for (std::size_t d = 0; d < 200; ++d) {
    std::set<int> slices;
    for (std::size_t i = 0; i < 256; ++i) slices.insert(static_cast<int>(256 * points.at(i, d)));
    EXPECT_EQ(slices.size(), 256U) << d;
  }
}

TEST(UnitPoints, plain_random_points_are_no_net) {  // the tests above can fail
  EXPECT_NE(box_counts(random_points(256, 2, 1), {4, 4}), std::pair(1, 1));
}

// Owen 1995: a scrambled point is uniform by itself. Over seeds its mean is 1/2 +- 5 / sqrt(12 n), its variance 1/12.
TEST(UnitPoints, one_scrambled_point_is_uniform_over_the_seeds) {
  const int n = 4000;
  for (const std::size_t dimension : {0U, 1U, 6U}) {
    double sum = 0, square = 0;
    for (int seed = 0; seed < n; ++seed) {
      const double x = sobol_points(4, 7, static_cast<std::uint64_t>(seed)).at(3, dimension);
      sum += x, square += x * x;
    }
    const double mean = sum / n, variance = square / n - mean * mean;
    EXPECT_NEAR(mean, 0.5, 5 / std::sqrt(12.0 * n));
    EXPECT_NEAR(variance, 1.0 / 12, 5 * std::sqrt(1.0 / 180 / n));
  }
}

TEST(UnitPoints, the_same_seed_gives_the_same_points_and_another_seed_others) {
  for (const Sampler& draw : {Sampler(sobol_points), Sampler(latin_hypercube_points), Sampler(random_points)}) {
    EXPECT_EQ(draw(64, 5, 8).values, draw(64, 5, 8).values);
    EXPECT_NE(draw(64, 5, 8).values, draw(64, 5, 9).values);
    for (const double x : draw(64, 5, 8).values) EXPECT_TRUE(x > 0 && x < 1);
  }
}

TEST(UnitPoints, more_sobol_points_begin_with_the_fewer) {
  const UnitPoints few = sobol_points(100, 3, 4), many = sobol_points(1000, 3, 4);
  EXPECT_TRUE(std::equal(few.values.begin(), few.values.end(), many.values.begin()));
}

// McKay, Beckman & Conover 1979: exactly one point in each slice of each dimension.
TEST(UnitPoints, a_latin_hypercube_has_one_point_in_every_slice) {
  const UnitPoints points = latin_hypercube_points(37, 6, 2);
  for (std::size_t d = 0; d < 6; ++d) {
    std::set<int> slices;
    for (std::size_t i = 0; i < 37; ++i) slices.insert(static_cast<int>(37 * points.at(i, d)));
    EXPECT_EQ(slices.size(), 37U);
  }
}

/// Root mean square error over 16 seeds of the mean of f over n points in 6 dimensions.
double rms_error(const Sampler& draw, std::size_t n, double exact, const std::function<double(const double*)>& f) {
  double square = 0;
  for (std::uint64_t seed = 1; seed <= 16; ++seed) {
    const UnitPoints points = draw(n, 6, seed);
    double sum = 0;
    for (std::size_t i = 0; i < n; ++i) sum += f(&points.values[6 * i]);
    square += std::pow(sum / static_cast<double>(n) - exact, 2);
  }
  return std::sqrt(square / 16);
}

// Sobol' 1998, g-function with a = 0, 1, 4.5, 9, 99, 99: mean 1. At random the error falls as n^-1/2; on scrambled nets
// faster than n^-1 for such a function (Owen 1997). From 256 to 4096 points: by about 4 against more than 16.
TEST(UnitPoints, scrambled_sobol_points_converge_faster_than_random_ones) {
  const auto g = [](const double* x) {
    constexpr double a[] = {0, 1, 4.5, 9, 99, 99};
    double product = 1;
    for (int d = 0; d < 6; ++d) product *= (std::abs(4 * x[d] - 2) + a[d]) / (1 + a[d]);
    return product;
  };
  const double net_few = rms_error(sobol_points, 256, 1, g), net_many = rms_error(sobol_points, 4096, 1, g);
  const double random_many = rms_error(random_points, 4096, 1, g);
  EXPECT_LT(net_many, net_few / 12);
  EXPECT_LT(net_many, random_many / 20);
}

// Stein 1987: for a sum of functions of one variable the slices take nearly all of the variance.
TEST(UnitPoints, a_latin_hypercube_integrates_a_sum_better_than_random_points) {
  const auto sum = [](const double* x) {
    double s = 0;
    for (int d = 0; d < 6; ++d) s += x[d] * x[d];
    return s;
  };
  EXPECT_LT(rms_error(latin_hypercube_points, 128, 2, sum), rms_error(random_points, 128, 2, sum) / 10);
}

}  // namespace
}  // namespace hoofload::scenarios
