// Six-node triangle, three-node line and their quadrature: identities that define them (Zienkiewicz, Taylor and Zhu 2013, ch. 3).
#include <gtest/gtest.h>

#include <cmath>

#include "mesh/tri_shapes.hpp"

namespace hoofload::mesh {
namespace {

double factorial(int n) { return n < 2 ? 1 : n * factorial(n - 1); }

template <int n>
double triangle_moment(int a, int b) {
  double sum = 0;
  for (const TriPoint& p : triangle_rule<n>) sum += p.weight * std::pow(p.xi, a) * std::pow(p.eta, b);
  return sum;
}

// integral of xi^a eta^b over the reference triangle = a! b! / (a + b + 2)!
template <int n>
double largest_moment_error(int degree) {
  double worst = 0;
  for (int a = 0; a <= degree; ++a)
    for (int b = 0; a + b <= degree; ++b)
      worst = std::max(worst, std::abs(triangle_moment<n>(a, b) - factorial(a) * factorial(b) / factorial(a + b + 2)));
  return worst;
}

TEST(SectionShapes, triangle_functions_are_one_at_their_node_and_zero_at_the_others) {
  for (std::size_t k = 0; k < 6; ++k) {
    const Tri6::Values n = Tri6::N(Tri6::places[k][0], Tri6::places[k][1]);
    for (int i = 0; i < 6; ++i) EXPECT_NEAR(n[i], i == static_cast<int>(k) ? 1 : 0, 1e-15);
  }
}

TEST(SectionShapes, triangle_functions_sum_to_one_and_gradients_to_zero) {
  const Tri6::Values n = Tri6::N(0.21, 0.47);
  EXPECT_NEAR(n.sum(), 1, 1e-15);
  EXPECT_NEAR(Tri6::dN(0.21, 0.47).colwise().sum().norm(), 0, 1e-14);
}

TEST(SectionShapes, triangle_gradients_are_the_derivatives_of_the_functions) {
  const double h = 1e-5;  // quadratic functions: central differences are exact up to rounding, 1e-16 / h
  const Tri6::Gradients g = Tri6::dN(0.3, 0.2);
  const Tri6::Values by_xi = (Tri6::N(0.3 + h, 0.2) - Tri6::N(0.3 - h, 0.2)) / (2 * h);
  const Tri6::Values by_eta = (Tri6::N(0.3, 0.2 + h) - Tri6::N(0.3, 0.2 - h)) / (2 * h);
  EXPECT_LT((g.col(0) - by_xi).norm() + (g.col(1) - by_eta).norm(), 1e-10);
}

TEST(SectionShapes, line_functions_interpolate_quadratics_and_their_slopes) {
  const auto f = [](double s) { return 2 - 3 * s + 5 * s * s; };
  const Line3::Values v{f(-1), f(1), f(0)};
  EXPECT_NEAR(Line3::N(0.37).dot(v), f(0.37), 1e-14);
  EXPECT_NEAR(Line3::dN(0.37).dot(v), -3 + 10 * 0.37, 1e-14);
}

TEST(SectionShapes, triangle_rules_are_exact_to_their_degree_and_no_further) {
  EXPECT_LT(largest_moment_error<3>(2), 1e-15);
  EXPECT_LT(largest_moment_error<6>(4), 1e-15);
  EXPECT_LT(largest_moment_error<12>(6), 1e-15);
  EXPECT_GT(largest_moment_error<3>(3), 1e-6);
  EXPECT_GT(largest_moment_error<6>(5), 1e-8);
  EXPECT_GT(largest_moment_error<12>(7), 1e-10);
}

TEST(SectionShapes, line_rules_integrate_polynomials_of_degree_2n_minus_1) {
  const auto integral = [](const auto& rule, int k) {
    double sum = 0;
    for (const LinePoint& p : rule) sum += p.weight * std::pow(p.s, k);
    return sum;
  };
  for (int k = 0; k <= 5; ++k) {
    const double exact = k % 2 == 0 ? 2.0 / (k + 1) : 0;
    EXPECT_NEAR(integral(line_rule<3>, k), exact, 1e-15);
    if (k <= 3) {
      EXPECT_NEAR(integral(line_rule<2>, k), exact, 1e-15);
    }
  }
}

}  // namespace
}  // namespace hoofload::mesh
