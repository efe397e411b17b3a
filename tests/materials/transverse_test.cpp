// Transversely isotropic constants: what the tangent at rest means in tests of a bar and a plate.
#include <gtest/gtest.h>

#include <Eigen/LU>
#include <numbers>

#include "tests/materials/samples.hpp"

namespace hoofload::materials::test {
namespace {

using Mat6 = Eigen::Matrix<double, 6, 6>;

constexpr double degree = std::numbers::pi / 180;

LinearTransverse horn(double angle) { return {500, 300, 0.35, 0.35, 150, angle}; }

/// Stiffness in the order 11, 22, 33, 23, 13, 12 with engineering shear.
Mat6 voigt(const LinearTransverse& law) {
  constexpr int slot[6] = {0, 4, 8, 5, 2, 1};
  const auto A = respond<SpaceComponents>(law, Mat3::Identity()).A;
  Mat6 C;
  for (int a = 0; a < 6; ++a) {
    for (int b = 0; b < 6; ++b) C(a, b) = A(slot[a], slot[b]);
  }
  return C;
}

// 1/E(t) = c^4/E_L + s^4/E_T + (1/G - 2 nu_LT/E_L) s^2 c^2 (Lekhnitskii 1963, Eq. 9.10 for a plane of symmetry).
TEST(LinearTransverse, modulus_of_a_bar_cut_off_axis_follows_lekhnitskii) {
  const double angle[] = {0, 15, 30, 45, 60, 90};
  const double E[] = {500, 479.5819, 430.8797, 377.3585, 334.7280, 300};
  for (int k = 0; k < 6; ++k) {
    const Mat6 S = voigt(horn(angle[k] * degree)).inverse();
    EXPECT_NEAR(1 / S(0, 0), E[k], 5e-5) << angle[k];  // seven digits
  }
}

// Inverse of the compliance 1/E_L, 1/E_T, -nu_LT/E_L, -nu_TT/E_T, 1/G_LT (Jones 1975, Eq. 2.23); seven digits.
TEST(LinearTransverse, plane_strain_stiffness_is_the_inverse_of_the_compliance) {
  const Mat6 C = voigt(horn(0));
  EXPECT_NEAR(C(0, 0), 646.1233, 5e-5);
  EXPECT_NEAR(C(1, 1), 409.3218, 5e-5);
  EXPECT_NEAR(C(0, 1), 208.7475, 5e-5);
  EXPECT_NEAR(C(5, 5), 150, 1e-10);
}

TEST(LinearTransverse, all_five_constants_are_read_back_from_the_compliance) {
  const Mat6 S = voigt(horn(0)).inverse();
  EXPECT_NEAR(1 / S(0, 0), 500, 1e-9);
  EXPECT_NEAR(1 / S(1, 1), 300, 1e-9);
  EXPECT_NEAR(1 / S(2, 2), 300, 1e-9);
  EXPECT_NEAR(-S(1, 0) / S(0, 0), 0.35, 1e-12);
  EXPECT_NEAR(-S(2, 1) / S(1, 1), 0.35, 1e-12);
  EXPECT_NEAR(1 / S(5, 5), 150, 1e-9);
  EXPECT_NEAR(1 / S(4, 4), 150, 1e-9);
  EXPECT_NEAR(1 / S(3, 3), 300 / (2 * 1.35), 1e-9);  // isotropic across the fibre: E_T / 2(1 + nu_TT)
}

TEST(LinearTransverse, equal_constants_give_the_isotropic_law) {
  const LinearTransverse fibre{10, 10, 0.3, 0.3, 10 / 2.6, 0.4};
  const LinearIsotropic plain{10, 0.3};
  const auto A = respond<SpaceComponents>(fibre, Mat3::Identity()).A;
  EXPECT_LT((A - respond<SpaceComponents>(plain, Mat3::Identity()).A).norm(), 1e-13 * A.norm());
}

TEST(LinearTransverse, stability_bound_of_lempriere_1968_is_where_the_energy_turns_negative) {
  // |nu_LT| < sqrt(E_L/E_T) and 1 - nu_TT - 2 nu_LT^2 E_T/E_L > 0; the second binds at nu_LT = 0.7360 for these constants.
  const double bound = std::sqrt((1 - 0.35) / 2 * 500 / 300);
  EXPECT_TRUE(is_stable(500, 300, bound - 1e-6, 0.35));
  EXPECT_FALSE(is_stable(500, 300, bound + 1e-6, 0.35));
  const auto block = [](double nu) -> double {
    return voigt({500, 300, nu, 0.35, 150, 0}).topLeftCorner<3, 3>().determinant();
  };
  EXPECT_GT(block(bound - 1e-3), 0);
  EXPECT_LT(block(bound + 1e-3), 0);
}

}  // namespace
}  // namespace hoofload::materials::test
