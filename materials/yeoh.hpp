// Two-term Yeoh law (Yeoh 1990), isochoric-volumetric split: soft at first, stiffening with stretch.
//
//   psi = C10 (Ibar1 - 3) + C20 (Ibar1 - 3)^2 + kappa/2 (J - 1)^2,   Ibar1 = J^(-2/3) tr F^T F
//
// Limit: isotropic; one function of Ibar1 cannot fit shear and tension of a fibrous layer at once.
#pragma once

#include "materials/invariants.hpp"
#include "materials/parameter.hpp"

namespace hoofload::materials {

struct Yeoh {
  double C10;
  double C20;
  double kappa;

  static constexpr std::string_view name = "Yeoh";
  static constexpr std::array<Parameter<Yeoh>, 3> parameters{{
      {"C10", &Yeoh::C10, "MPa", 0, unbounded, "half the initial shear modulus"},
      {"C20", &Yeoh::C20, "MPa", -1e-300, unbounded, "stiffening with Ibar1 - 3"},
      {"kappa", &Yeoh::kappa, "MPa", 0, unbounded, "bulk modulus"},
  }};

  /// A soft, strongly stiffening layer, for tests and documentation.
  [[nodiscard]] static constexpr Yeoh example() { return {0.025, 1.93, 10}; }
};

[[nodiscard]] constexpr double mu0(const Yeoh& law) { return 2 * law.C10; }
[[nodiscard]] constexpr double kappa0(const Yeoh& law) { return law.kappa; }

[[nodiscard]] inline double energy_isochoric(const Yeoh& law, double I1, double J) {
  const double e = isochoric_scale(J) * I1 - 3;
  return (law.C10 + law.C20 * e) * e;
}

[[nodiscard]] inline double energy(const Yeoh& law, double I1, double J) {
  return energy_isochoric(law, I1, J) + law.kappa / 2 * (J - 1) * (J - 1);
}

[[nodiscard]] inline Slopes slopes_isochoric(const Yeoh& law, double I1, double J) {
  const double m = isochoric_scale(J), e = m * I1 - 3;
  return isochoric_slopes((law.C10 + law.C20 * e) * e, law.C10 + 2 * law.C20 * e, 2 * law.C20, m * I1, m, J);
}

[[nodiscard]] inline Slopes slopes(const Yeoh& law, double I1, double J) {
  Slopes s = slopes_isochoric(law, I1, J);
  s.psi += law.kappa / 2 * (J - 1) * (J - 1);
  s.psi_J += law.kappa * (J - 1);
  s.psi_JJ += law.kappa;
  return s;
}

}  // namespace hoofload::materials
