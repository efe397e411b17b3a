// Transversely isotropic Kirchhoff law: the energy of hooke.hpp on the Green-Lagrange strain; fibre (L) in the x-y plane.
//
// Objective. Limit: small strain, as saint_venant_kirchhoff.hpp. Energy is +infinity when J <= 0.
#pragma once

#include "materials/hooke.hpp"
#include "materials/parameter.hpp"

namespace hoofload::materials {

struct TransverseKirchhoff {
  double E_L;
  double E_T;
  double nu_LT;
  double nu_TT;
  double G_LT;
  double angle;

  static constexpr std::string_view name = "transverse Kirchhoff";
  static constexpr std::array<Parameter<TransverseKirchhoff>, 6> parameters{{
      {"E_L", &TransverseKirchhoff::E_L, "MPa", 0, unbounded, "Young's modulus along the fibre"},
      {"E_T", &TransverseKirchhoff::E_T, "MPa", 0, unbounded, "Young's modulus across the fibre"},
      {"nu_LT", &TransverseKirchhoff::nu_LT, "1", -1, 10, "contraction across per stretch along the fibre"},
      {"nu_TT", &TransverseKirchhoff::nu_TT, "1", -1, 1, "Poisson's ratio in the plane across the fibre"},
      {"G_LT", &TransverseKirchhoff::G_LT, "MPa", 0, unbounded, "shear modulus along the fibre"},
      {"angle", &TransverseKirchhoff::angle, "rad", -6.2832, 6.2832, "fibre from the x axis, towards y"},
  }};

  /// Moderate anisotropy with a slanting fibre, for tests and documentation.
  [[nodiscard]] static constexpr TransverseKirchhoff example() { return {500, 300, 0.35, 0.35, 150, 0.8}; }
};

[[nodiscard]] constexpr FibreModuli fibre_moduli(const TransverseKirchhoff& law) {
  return fibre_moduli(law.E_L, law.E_T, law.nu_LT, law.nu_TT, law.G_LT);
}

[[nodiscard]] inline double energy(const TransverseKirchhoff& law, const Mat3& F) {
  if (!(determinant(F) > 0)) return std::numeric_limits<double>::infinity();
  return strain_energy(fibre_moduli(law), fibre_direction(law.angle), green_lagrange(F));
}

template <class C>
[[nodiscard]] inline Response<C::size> respond(const TransverseKirchhoff& law, const Mat3& F) {
  if (!(determinant(F) > 0)) return rejected<C>();
  const FibreModuli m = fibre_moduli(law);
  const Vec3 a = fibre_direction(law.angle);
  const Mat3 E = green_lagrange(F), S = stress(m, a, E);
  Response<C::size> r{strain_energy(m, a, E), components<C>(F * S), Eigen::Matrix<double, C::size, C::size>::Zero()};
  add_tangent<C>(m, a, F, r.A);
  add_geometric<C>(S, r.A);
  return r;
}

}  // namespace hoofload::materials
