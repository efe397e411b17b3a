// Shore A and IRHD hardness against Young's modulus of a soft elastomer, and the shear modulus that goes with it.
//
//   E [MPa] = 0.0981 (56 + 7.62336 A) / (0.137505 (254 - 2.54 A))        Gent 1958, Rubber Chem. Technol. 31:896
//
// Gent's relation is a flat punch pressed into an incompressible half-space; its choice of punch radius alone makes up
// to 33 % in E, a bench reading of +-3 Shore A another 8-13 %. It is good for 20 <= A <= 80 and diverges as A -> 100.
#pragma once

#include <cmath>

namespace hoofload::materials {

/// in_range is false outside the hardness range in which the relation is supported (the value is then a guess).
struct HardnessModulus {
  double E;
  bool in_range;
};

/// Gent 1958; supported for 20 <= A <= 80. Not defined (infinite) at A = 100.
[[nodiscard]] constexpr HardnessModulus gent_modulus(double shore_a) {
  const double E = 0.0981 * (56 + 7.62336 * shore_a) / (0.137505 * (254 - 2.54 * shore_a));
  return {E, shore_a >= 20 && shore_a <= 80};
}

/// Shore A of a modulus E [MPa]: gent_modulus solved for A.
[[nodiscard]] constexpr double gent_shore_a(double E) {
  return (0.137505 * 254 * E - 0.0981 * 56) / (0.0981 * 7.62336 + 0.137505 * 2.54 * E);
}

/// log10 E = 0.0235 A - 0.6403 (Qi, Joyce & Boyce 2003, Rubber Chem. Technol. 76:419); supported for 20 <= A <= 80.
/// It reads higher than Gent: the pair brackets the model error.
[[nodiscard]] inline HardnessModulus qi_modulus(double shore_a) {
  return {std::pow(10.0, 0.0235 * shore_a - 0.6403), shore_a >= 20 && shore_a <= 80};
}

/// IRHD = 100 Phi((log10 E - 0.364) / 0.7), the probit curve of ISO 48 (constants from memory); E in MPa.
[[nodiscard]] inline double irhd(double E) { return 50 * std::erfc(-(std::log10(E) - 0.364) / 0.7 / std::sqrt(2.0)); }

/// mu = 3 kappa E / (9 kappa - E): isotropic elasticity, exact (Landau & Lifshitz, Theory of Elasticity, Eq. 5.9).
[[nodiscard]] constexpr double shear_modulus(double E, double kappa) { return 3 * kappa * E / (9 * kappa - E); }

}  // namespace hoofload::materials
