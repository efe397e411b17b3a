// The three published tests of a soft fibrous layer that the Yeoh constants were fitted to, at C10 = 0.025 MPa.
//
// Kochova et al. 2013: P(1.5) = 1.67 MPa, large-strain modulus 6.1-8.7. Douglas et al. 1998: shear tangent 5.38 +- 1.49 at
// gamma 0.48, radial tangent 18.25 +- 5.38 at strain 0.25. Reference values carry three digits: half of the last one.
#include <gtest/gtest.h>

#include "tests/materials/samples.hpp"

namespace hoofload::materials::test {
namespace {

constexpr double stiff_bulk = 1e5;  // the fits are incompressible

Yeoh fit(double C20) { return {0.025, C20, stiff_bulk}; }

double tension_tangent(const Yeoh& law, double l) { return (uniaxial(law, l + 1e-4) - uniaxial(law, l - 1e-4)) / 2e-4; }

double shear_tangent(const Yeoh& law, double gamma) {
  Mat3 F = Mat3::Identity();
  F(0, 1) = gamma;
  return respond<SpaceComponents>(law, F).A(1, 1);
}

TEST(Yeoh, soft_fit_meets_kochova_2013_in_tension) {
  const Yeoh soft = fit(0.657);
  EXPECT_NEAR(uniaxial(soft, 1.5), 1.67, 0.005);
  EXPECT_NEAR(tension_tangent(soft, 1.5), 8.4, 0.05);
  EXPECT_NEAR(shear_tangent(soft, 0.48), 1.87, 0.005);
}

TEST(Yeoh, middle_fit_meets_douglas_1998_in_shear) {
  const Yeoh middle = fit(1.93);
  EXPECT_NEAR(shear_tangent(middle, 0.48), 5.38, 0.01);
  EXPECT_NEAR(tension_tangent(middle, 1.25), 8.4, 0.05);
}

TEST(Yeoh, stiff_fit_meets_douglas_1998_in_tension_but_overshoots_its_shear) {
  const Yeoh stiff = fit(4.23);
  EXPECT_NEAR(tension_tangent(stiff, 1.25), 18.25, 0.05);
  EXPECT_NEAR(shear_tangent(stiff, 0.48), 11.7, 0.05);
  EXPECT_GT(shear_tangent(stiff, 0.48), 5.38 + 1.49);
}

TEST(Yeoh, simple_shear_follows_its_closed_form) {
  Mat3 F = Mat3::Identity();
  F(0, 1) = 0.6;
  // tau = 2 gamma (C10 + 2 C20 gamma^2), Yeoh 1990 with Ibar1 - 3 = gamma^2; the volume does not change.
  EXPECT_NEAR(cauchy(fit(1.93), F)(0, 1), 2 * 0.6 * (0.025 + 2 * 1.93 * 0.36), 1e-12);
}

}  // namespace
}  // namespace hoofload::materials::test
