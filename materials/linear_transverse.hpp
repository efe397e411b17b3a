// Linear transversely isotropic elasticity of small strain; fibre (L) in the x-y plane. Energy: hooke.hpp, e = sym(F - I).
//
// Limits: not objective, energy finite for every F (as linear_isotropic.hpp).
#pragma once

#include "materials/hooke.hpp"
#include "materials/parameter.hpp"

namespace hoofload::materials {

struct LinearTransverse {
  double E_L;
  double E_T;
  double nu_LT;
  double nu_TT;
  double G_LT;
  double angle;

  static constexpr std::string_view name = "linear transverse";
  static constexpr std::array<Parameter<LinearTransverse>, 6> parameters{{
      {"E_L", &LinearTransverse::E_L, "MPa", 0, unbounded, "Young's modulus along the fibre"},
      {"E_T", &LinearTransverse::E_T, "MPa", 0, unbounded, "Young's modulus across the fibre"},
      {"nu_LT", &LinearTransverse::nu_LT, "1", -1, 10, "contraction across per stretch along the fibre"},
      {"nu_TT", &LinearTransverse::nu_TT, "1", -1, 1, "Poisson's ratio in the plane across the fibre"},
      {"G_LT", &LinearTransverse::G_LT, "MPa", 0, unbounded, "shear modulus along the fibre"},
      {"angle", &LinearTransverse::angle, "rad", -6.2832, 6.2832, "fibre from the x axis, towards y"},
  }};

  /// Moderate anisotropy with a slanting fibre, for tests and documentation.
  [[nodiscard]] static constexpr LinearTransverse example() { return {500, 300, 0.35, 0.35, 150, 0.8}; }
};

[[nodiscard]] constexpr FibreModuli fibre_moduli(const LinearTransverse& law) {
  return fibre_moduli(law.E_L, law.E_T, law.nu_LT, law.nu_TT, law.G_LT);
}

[[nodiscard]] inline double energy(const LinearTransverse& law, const Mat3& F) {
  return strain_energy(fibre_moduli(law), fibre_direction(law.angle), small_strain(F));
}

template <class C>
[[nodiscard]] inline Response<C::size> respond(const LinearTransverse& law, const Mat3& F) {
  const FibreModuli m = fibre_moduli(law);
  const Vec3 a = fibre_direction(law.angle);
  const Mat3 e = small_strain(F);
  Response<C::size> r{strain_energy(m, a, e), components<C>(stress(m, a, e)),
                      Eigen::Matrix<double, C::size, C::size>::Zero()};
  add_tangent<C>(m, a, Mat3::Identity(), r.A);
  return r;
}

}  // namespace hoofload::materials
