// Hardness against modulus.
#include <gtest/gtest.h>

#include "materials/hardness.hpp"
#include "tests/materials/samples.hpp"
#include "tests/support/record.hpp"

namespace hoofload::materials::test {
namespace {

struct Row {
  double shore_a, E, mu, uniaxial, plane;
};

// Gent 1958, Rubber Chem. Technol. 31:896, evaluated by hand; mu = 3 kappa E/(9 kappa - E) with kappa 1500; nominal stress
// at 30 % compression from the incompressible closed forms mu(l - l^-2), mu(l - l^-3). Four digits.
const Row rows[] = {
    {10, 0.413, 0.1376, -0.184, -0.305}, {20, 0.732, 0.2440, -0.327, -0.541}, {30, 1.142, 0.3808, -0.511, -0.844},
    {40, 1.690, 0.5633, -0.755, -1.248}, {50, 2.456, 0.8188, -1.098, -1.814}, {60, 3.605, 1.2020, -1.612, -2.663},
    {70, 5.521, 1.8409, -2.468, -4.078}, {80, 9.351, 3.1193, -4.182, -6.911}, {90, 20.84, 6.9587, -9.33, -15.4},
};

TEST(Gent1958, modulus_and_shear_modulus_match_the_worked_table) {
  for (const Row& row : rows) {
    const double E = gent_modulus(row.shore_a).E;
    tests::record({"Young's modulus of Shore A hardness [MPa]", "Gent 1958, worked table, four digits", "a point"},
                  tests::text("A %g", row.shore_a), row.E, E);
    EXPECT_NEAR(E, row.E, 3e-4 * row.E + 5e-4) << row.shore_a;
    EXPECT_NEAR(shear_modulus(E, 1500), row.mu, 5e-4 * row.mu) << row.shore_a;
  }
}

TEST(Gent1958, block_at_thirty_percent_compression_carries_the_tabulated_stress) {
  for (const Row& row : rows) {
    const NeoHooke law{shear_modulus(gent_modulus(row.shore_a).E, 1500), 1500};
    // Printed to three digits from the incompressible form; at Shore A 90 compressibility itself makes up to 0.5 %.
    EXPECT_NEAR(uniaxial(law, 0.7), row.uniaxial, 0.007 * std::abs(row.uniaxial)) << row.shore_a;
    EXPECT_NEAR(plane_strain(law, 0.7), row.plane, 0.009 * std::abs(row.plane)) << row.shore_a;
  }
}

TEST(Gent1958, range_of_support_is_20_to_80) {
  EXPECT_FALSE(gent_modulus(19.9).in_range);
  EXPECT_TRUE(gent_modulus(20).in_range);
  EXPECT_TRUE(gent_modulus(80).in_range);
  EXPECT_FALSE(gent_modulus(80.1).in_range);
  EXPECT_TRUE(std::isinf(gent_modulus(100).E));
}

TEST(Gent1958, hardness_is_recovered_from_the_modulus) {
  for (double A : {5.0, 20.0, 47.5, 80.0, 95.0}) EXPECT_NEAR(gent_shore_a(gent_modulus(A).E), A, 1e-10);
}

// Qi, Joyce & Boyce 2003: log10 E = 0.0235 A - 0.6403 (base ten: 5.88 MPa at A 60, not 2.2); three digits.
TEST(QiJoyceBoyce2003, modulus_uses_base_ten_and_lies_above_gent) {
  EXPECT_NEAR(qi_modulus(60).E, 5.88, 0.01);
  EXPECT_NEAR(qi_modulus(80).E, 17.4, 0.05);
  for (double A = 30; A <= 80; A += 10) EXPECT_GT(qi_modulus(A).E, gent_modulus(A).E);
}

// ISO 48 probit curve (constants from memory), four digits.
TEST(Irhd, probit_curve_matches_worked_values) {
  EXPECT_NEAR(irhd(1), 30.15, 0.005);
  EXPECT_NEAR(irhd(2.312), 50.00, 0.005);
  EXPECT_NEAR(irhd(3.605), 60.86, 0.005);
  EXPECT_NEAR(irhd(9.351), 80.70, 0.005);
}

}  // namespace
}  // namespace hoofload::materials::test
