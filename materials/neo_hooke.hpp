// Nearly incompressible neo-Hookean law, isochoric-volumetric split.
//
//   psi = mu/2 (Ibar1 - 3) + kappa/2 (J - 1)^2,   Ibar1 = J^(-2/3) tr F^T F
//
// (Treloar 1943 for the isochoric part; the form of the NEO HOOKE card of public finite-element programs, C10 = mu/2,
// D1 = 2/kappa.) Limit: the volumetric energy stays finite as J -> 0, so it does not resist inversion by itself.
#pragma once

#include "materials/invariants.hpp"
#include "materials/parameter.hpp"

namespace hoofload::materials {

struct NeoHooke {
  double mu;
  double kappa;

  static constexpr std::string_view name = "neo-Hooke";
  static constexpr std::array<Parameter<NeoHooke>, 2> parameters{{
      {"mu", &NeoHooke::mu, "MPa", 0, unbounded, "shear modulus"},
      {"kappa", &NeoHooke::kappa, "MPa", 0, unbounded, "bulk modulus"},
  }};

  /// A soft elastomer, for tests and documentation.
  [[nodiscard]] static constexpr NeoHooke example() { return {0.8, 40}; }
};

[[nodiscard]] constexpr double mu0(const NeoHooke& law) { return law.mu; }
[[nodiscard]] constexpr double kappa0(const NeoHooke& law) { return law.kappa; }

[[nodiscard]] inline double energy_isochoric(const NeoHooke& law, double I1, double J) {
  return law.mu / 2 * (isochoric_scale(J) * I1 - 3);
}

[[nodiscard]] inline double energy(const NeoHooke& law, double I1, double J) {
  return energy_isochoric(law, I1, J) + law.kappa / 2 * (J - 1) * (J - 1);
}

[[nodiscard]] inline Slopes slopes_isochoric(const NeoHooke& law, double I1, double J) {
  const double m = isochoric_scale(J);
  return isochoric_slopes(law.mu / 2 * (m * I1 - 3), law.mu / 2, 0, m * I1, m, J);
}

[[nodiscard]] inline Slopes slopes(const NeoHooke& law, double I1, double J) {
  Slopes s = slopes_isochoric(law, I1, J);
  s.psi += law.kappa / 2 * (J - 1) * (J - 1);
  s.psi_J += law.kappa * (J - 1);
  s.psi_JJ += law.kappa;
  return s;
}

}  // namespace hoofload::materials
