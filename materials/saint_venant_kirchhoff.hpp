// Saint-Venant-Kirchhoff law: isotropic Hooke on the Green-Lagrange strain E = (F^T F - I)/2, P = F S.
//
// Objective, so for stiff bodies that turn. Limit: it softens and buckles in strong compression (stress falls below a
// stretch of 1/sqrt(3)); for small strain only. Energy is +infinity when J <= 0.
#pragma once

#include "materials/hooke.hpp"
#include "materials/parameter.hpp"

namespace hoofload::materials {

struct SaintVenantKirchhoff {
  double E;
  double nu;

  static constexpr std::string_view name = "Saint-Venant-Kirchhoff";
  static constexpr std::array<Parameter<SaintVenantKirchhoff>, 2> parameters{{
      {"E", &SaintVenantKirchhoff::E, "MPa", 0, unbounded, "Young's modulus"},
      {"nu", &SaintVenantKirchhoff::nu, "1", -1, 0.5, "Poisson's ratio"},
  }};

  /// A metal-like ratio with unit-size modulus, for tests and documentation.
  [[nodiscard]] static constexpr SaintVenantKirchhoff example() { return {10, 0.3}; }
};

[[nodiscard]] constexpr double mu0(const SaintVenantKirchhoff& law) { return lame(law.E, law.nu).mu; }
[[nodiscard]] constexpr double kappa0(const SaintVenantKirchhoff& law) { return law.E / (3 * (1 - 2 * law.nu)); }

[[nodiscard]] inline double energy(const SaintVenantKirchhoff& law, const Mat3& F) {
  if (!(determinant(F) > 0)) return std::numeric_limits<double>::infinity();
  return strain_energy(lame(law.E, law.nu), green_lagrange(F));
}

template <class C>
[[nodiscard]] inline Response<C::size> respond(const SaintVenantKirchhoff& law, const Mat3& F) {
  if (!(determinant(F) > 0)) return rejected<C>();
  const Lame m = lame(law.E, law.nu);
  const Mat3 E = green_lagrange(F), S = stress(m, E);
  Response<C::size> r{strain_energy(m, E), components<C>(F * S), Eigen::Matrix<double, C::size, C::size>::Zero()};
  add_tangent<C>(m, F, r.A);
  add_geometric<C>(S, r.A);
  return r;
}

}  // namespace hoofload::materials
