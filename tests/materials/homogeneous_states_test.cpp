// Homogeneous states against closed forms.
//
// Sources: the closed forms of incompressible neo-Hookean rubber are Treloar 1943 (uniaxial mu(l - l^-2), pure shear
// mu(l - l^-3), equibiaxial mu(l - l^-5), simple shear mu g with a normal stress difference mu g^2). The compressible
// values solve the same states for the energies written in neo_hooke.hpp (A) and compressible_neo_hooke.hpp (B), with
// mu = 1, lambda = 2 mu nu/(1 - 2 nu), kappa = lambda + 2 mu/3; they were computed with another program, ten digits.
#include <gtest/gtest.h>

#include "materials/hardness.hpp"
#include "tests/materials/samples.hpp"

namespace hoofload::materials::test {
namespace {

constexpr double lambda_of(double nu) { return 2 * nu / (1 - 2 * nu); }
constexpr NeoHooke model_a(double nu) { return {1, lambda_of(nu) + 2.0 / 3.0}; }
constexpr CompressibleNeoHooke model_b(double nu) { return {1, lambda_of(nu)}; }

struct Row {
  double stretch, a_3, b_3, a_499, b_499;
};

// Ten digits are printed: 1e-9 of the value.
template <class State>
void expect_row(State state, const Row& row) {
  EXPECT_NEAR(state(model_a(0.3), row.stretch), row.a_3, 1e-9 * std::abs(row.a_3));
  EXPECT_NEAR(state(model_b(0.3), row.stretch), row.b_3, 1e-9 * std::abs(row.b_3));
  EXPECT_NEAR(state(model_a(0.499), row.stretch), row.a_499, 1e-9 * std::abs(row.a_499));
  EXPECT_NEAR(state(model_b(0.499), row.stretch), row.b_499, 1e-9 * std::abs(row.b_499));
}

TEST(HomogeneousState, uniaxial_stress_matches_the_closed_form) {
  const auto state = [](const auto& law, double l) { return uniaxial(law, l); };
  expect_row(state, {0.7, -1.158428353, -1.053599103, -1.340097885, -1.339069300});
  expect_row(state, {1.5, 0.8798326322, 0.9835284586, 1.054346457, 1.055258963});
  expect_row(state, {2.0, 1.385639677, 1.681536116, 1.746712257, 1.749749625});
}

TEST(HomogeneousState, plane_strain_stress_matches_the_closed_form) {
  const auto state = [](const auto& law, double l) { return plane_strain(law, l); };
  expect_row(state, {0.7, -1.243149036, -1.191902200, -2.207944397, -2.203413168});
  expect_row(state, {1.5, 0.9328553349, 1.046333990, 1.201516521, 1.203044390});
}

TEST(HomogeneousState, equibiaxial_stress_matches_the_closed_form) {
  const auto state = [](const auto& law, double l) { return equibiaxial(law, l); };
  expect_row(state, {0.8, -0.8606259586, -0.9639186644, -2.240725267, -2.234347477});
  expect_row(state, {1.5, 1.030142119, 1.216581234, 1.365115684, 1.367888865});
}

TEST(HomogeneousState, confined_stress_matches_the_closed_form) {
  const auto state = [](const auto& law, double l) { return confined(law, l); };
  expect_row(state, {0.9, -0.3676485457, -0.3867119705, -50.11764855, -58.62766368});
  expect_row(state, {0.7, -1.266096654, -1.492874880, -150.5160967, -254.9868529});
}

TEST(HomogeneousState, simple_shear_shows_each_models_own_normal_stresses) {
  Mat3 F = Mat3::Identity();
  F(0, 1) = 1;
  const Mat3 a = cauchy(model_a(0.3), F), b = cauchy(model_b(0.3), F);
  Mat3 expected_a, expected_b;  // b = F F^T: dev b for A, b - I for B (mu = 1, J = 1)
  expected_a << 2.0 / 3, 1, 0, 1, -1.0 / 3, 0, 0, 0, -1.0 / 3;
  expected_b << 1, 1, 0, 1, 0, 0, 0, 0, 0;
  EXPECT_LT((a - expected_a).norm(), 1e-14);
  EXPECT_LT((b - expected_b).norm(), 1e-14);
}

// Treloar 1943; kappa/mu = 1e8 leaves a volume change of order 1e-8, hence 1e-6.
TEST(NeoHooke, tends_to_the_incompressible_closed_forms) {
  const NeoHooke law{1, 1e8};
  EXPECT_NEAR(uniaxial(law, 0.7), -1.340816, 1e-6);
  EXPECT_NEAR(uniaxial(law, 1.3), 0.708284, 1e-6);
  EXPECT_NEAR(plane_strain(law, 0.7), -2.215452, 1e-6);
  EXPECT_NEAR(plane_strain(law, 1.3), 0.844834, 1e-6);
  EXPECT_NEAR(equibiaxial(law, 1.3), 1.030671, 1e-6);
}

/// Shore A 50 by Gent 1958 with kappa = 100 E, as the closed forms below use it.
const double E_a50 = 2.455812, kappa_a50 = 245.5812, mu_a50 = 0.819515, lambda_a50 = 245.0349;

TEST(NeoHooke, shore_a_50_in_simple_shear_gives_mu_gamma_and_mu_gamma_squared) {
  Mat3 F = Mat3::Identity();
  F(0, 1) = 0.5;
  const Mat3 s = cauchy(NeoHooke{mu_a50, kappa_a50}, F);
  EXPECT_NEAR(s(0, 1), 0.409757, 1e-6);            // mu gamma (Rivlin 1948), six digits
  EXPECT_NEAR(s(0, 0) - s(1, 1), 0.204879, 1e-6);  // mu gamma^2
  EXPECT_NEAR(shear_modulus(E_a50, kappa_a50), mu_a50, 1e-6);
}

TEST(NeoHooke, shore_a_50_with_free_sides_swells_as_the_closed_form) {
  const NeoHooke law{mu_a50, kappa_a50};
  double lateral = 0;
  EXPECT_NEAR(uniaxial(law, 0.7, &lateral), -1.097837, 2e-6);  // dW/dlambda with dW/dlambda_t = 0, seven digits
  EXPECT_NEAR(lateral, 1.194604, 1e-6);
  EXPECT_NEAR(0.7 * lateral * lateral, 0.998956, 1e-6);
  EXPECT_NEAR(plane_strain(law, 0.7, &lateral), -1.805355, 2e-6);
  EXPECT_NEAR(lateral, 1.424471, 1e-6);
  EXPECT_NEAR(0.7 * lateral, 0.997130, 1e-6);
}

TEST(NeoHooke, shore_a_50_in_an_oedometer_matches_both_volumetric_forms) {
  // (2 mu/3)(l^1/3 - l^-5/3) + kappa (l - 1), and mu (l - 1/l) + lambda ln l / l: seven digits of input and output.
  const NeoHooke a{mu_a50, kappa_a50};
  const CompressibleNeoHooke b{mu_a50, lambda_a50};
  EXPECT_NEAR(confined(a, 0.95), -12.33708, 1e-5);
  EXPECT_NEAR(confined(a, 0.90), -24.68185, 1e-5);
  EXPECT_NEAR(confined(b, 0.95), -13.31426, 1e-5);
  EXPECT_NEAR(confined(b, 0.90), -28.85857, 1e-5);
}

}  // namespace
}  // namespace hoofload::materials::test
