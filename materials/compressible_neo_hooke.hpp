// Compressible neo-Hookean law (Bonet & Wood 1997, Eq. 5.28).
//
//   psi = mu/2 (I1 - 3 - 2 ln J) + lambda/2 (ln J)^2,   I1 = tr F^T F
//
// The energy grows without bound as J -> 0. Limit: (ln J)^2 is not convex beyond J = e, so not for large swelling.
#pragma once

#include "materials/invariants.hpp"
#include "materials/parameter.hpp"

namespace hoofload::materials {

struct CompressibleNeoHooke {
  double mu;
  double lambda;

  static constexpr std::string_view name = "compressible neo-Hooke";
  static constexpr std::array<Parameter<CompressibleNeoHooke>, 2> parameters{{
      {"mu", &CompressibleNeoHooke::mu, "MPa", 0, unbounded, "shear modulus"},
      {"lambda", &CompressibleNeoHooke::lambda, "MPa", -1e-300, unbounded, "first Lame constant"},
  }};

  /// nu = 0.3, for tests and documentation.
  [[nodiscard]] static constexpr CompressibleNeoHooke example() { return {1, 1.5}; }
};

[[nodiscard]] constexpr double mu0(const CompressibleNeoHooke& law) { return law.mu; }
[[nodiscard]] constexpr double kappa0(const CompressibleNeoHooke& law) { return law.lambda + 2 * law.mu / 3; }

[[nodiscard]] inline double energy(const CompressibleNeoHooke& law, double I1, double J) {
  const double l = std::log(J);
  return law.mu / 2 * (I1 - 3 - 2 * l) + law.lambda / 2 * l * l;
}

[[nodiscard]] inline Slopes slopes(const CompressibleNeoHooke& law, double I1, double J) {
  const double l = std::log(J), p = law.lambda * l - law.mu;
  return {law.mu / 2 * (I1 - 3 - 2 * l) + law.lambda / 2 * l * l, law.mu / 2, 0, p / J, (law.lambda - p) / (J * J), 0};
}

}  // namespace hoofload::materials
