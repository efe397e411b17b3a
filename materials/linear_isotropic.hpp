// Linear isotropic elasticity of small strain: psi = lambda/2 (tr e)^2 + mu e:e, e = sym(F - I), P = sigma(e).
//
// Limits: not objective (a rotation strains it), so for bodies that hardly turn; the energy is quadratic and finite for
// every F, also for det F <= 0. The volumetric strain of its split is theta = tr F - 3.
#pragma once

#include "materials/hooke.hpp"
#include "materials/parameter.hpp"

namespace hoofload::materials {

struct LinearIsotropic {
  double E;
  double nu;

  static constexpr std::string_view name = "linear isotropic";
  static constexpr std::array<Parameter<LinearIsotropic>, 2> parameters{{
      {"E", &LinearIsotropic::E, "MPa", 0, unbounded, "Young's modulus"},
      {"nu", &LinearIsotropic::nu, "1", -1, 0.5, "Poisson's ratio"},
  }};

  /// A metal-like ratio with unit-size modulus, for tests and documentation.
  [[nodiscard]] static constexpr LinearIsotropic example() { return {10, 0.3}; }
};

[[nodiscard]] constexpr double mu0(const LinearIsotropic& law) { return lame(law.E, law.nu).mu; }
[[nodiscard]] constexpr double kappa0(const LinearIsotropic& law) { return law.E / (3 * (1 - 2 * law.nu)); }

[[nodiscard]] inline double energy(const LinearIsotropic& law, const Mat3& F) {
  return strain_energy(lame(law.E, law.nu), small_strain(F));
}

/// Energy, stress and tangent of given Lame constants on the small strain of F.
template <class C>
[[nodiscard]] inline Response<C::size> respond_small(const Lame& m, const Mat3& F) {
  const Mat3 e = small_strain(F);
  Response<C::size> r{strain_energy(m, e), components<C>(stress(m, e)),
                      Eigen::Matrix<double, C::size, C::size>::Zero()};
  for_each_pair<C>([&]<int p, int q>(Index<p>, Index<q>) {
    constexpr int i = C::row[p], J = C::col[p], k = C::row[q], L = C::col[q];
    r.A(p, q) = (i == J && k == L ? m.lambda : 0) + (i == k && J == L ? m.mu : 0) + (i == L && J == k ? m.mu : 0);
  });
  return r;
}

template <class C>
[[nodiscard]] inline Response<C::size> respond(const LinearIsotropic& law, const Mat3& F) {
  return respond_small<C>(lame(law.E, law.nu), F);
}

/// mu dev e : dev e, which is Hooke's law with lambda = -2 mu / 3 (zero bulk modulus).
template <class C>
[[nodiscard]] inline Response<C::size> respond_isochoric(const LinearIsotropic& law, const Mat3& F) {
  return respond_small<C>({-2.0 / 3.0 * mu0(law), mu0(law)}, F);
}

[[nodiscard]] inline double energy_isochoric(const LinearIsotropic& law, const Mat3& F) {
  return strain_energy(Lame{-2.0 / 3.0 * mu0(law), mu0(law)}, small_strain(F));
}

template <class C>
[[nodiscard]] inline Response<C::size> volumetric_strain(const LinearIsotropic&, const Mat3& F) {
  return {F.trace() - 3, components<C>(Mat3::Identity()), Eigen::Matrix<double, C::size, C::size>::Zero()};
}

[[nodiscard]] inline double theta(const LinearIsotropic&, const Mat3& F) { return F.trace() - 3; }

}  // namespace hoofload::materials
