// Isotropic finite-strain laws as functions of I1 = tr F^T F and J = det F.
//
//   P = 2 psi_1 F + psi_J J G,   G = F^-T
//   A_iJkL = 2 psi_1 d_ik d_JL + 4 psi_11 F_iJ F_kL + 2 psi_1J J (F_iJ G_kL + G_iJ F_kL)
//          + (psi_JJ J^2 + psi_J J) G_iJ G_kL - psi_J J G_iL G_kJ
//
// A law gives only its slopes (subscripts are partial derivatives); stress and tangent are written here once.
// The split laws add the isochoric part psi(Ibar1), Ibar1 = J^(-2/3) I1 (Flory 1961), and 1/2 kappa theta^2, theta = J - 1.
#pragma once

#include <cmath>
#include <concepts>

#include "materials/response.hpp"

namespace hoofload::materials {

/// psi and its partial derivatives with respect to I1 and J.
struct Slopes {
  double psi, psi_1, psi_11, psi_J, psi_JJ, psi_1J;
};

/// Slopes of f(Ibar1), given f, f', f'' at Ibar1 = J^(-2/3) I1. J > 0.
[[nodiscard]] inline Slopes isochoric_slopes(double f, double df, double ddf, double Ibar1, double m, double J) {
  const double r = -2.0 / 3.0 * Ibar1 / J;  // d Ibar1 / dJ
  return {f,
          df * m,
          ddf * m * m,
          df * r,
          ddf * r * r + df * (10.0 / 9.0) * Ibar1 / (J * J),
          m * (ddf * r - df * (2.0 / 3.0) / J)};
}

/// J^(-2/3), J > 0.
[[nodiscard]] inline double isochoric_scale(double J) {
  const double c = std::cbrt(J);
  return 1 / (c * c);
}

/// A law whose energy depends on I1 and J alone.
template <class Law>
concept InvariantLaw = requires(const Law& law, double I1, double J) {
  { slopes(law, I1, J) } -> std::same_as<Slopes>;
  { energy(law, I1, J) } -> std::same_as<double>;
};

/// An invariant law that is the sum of an isochoric part and 1/2 kappa (J - 1)^2.
template <class Law>
concept SplitInvariantLaw = InvariantLaw<Law> && requires(const Law& law, double I1, double J) {
  { slopes_isochoric(law, I1, J) } -> std::same_as<Slopes>;
  { energy_isochoric(law, I1, J) } -> std::same_as<double>;
};

/// Energy, stress and tangent from slopes s at F, its cofactor K and determinant J > 0.
template <class C>
[[nodiscard]] inline Response<C::size> from_slopes(const Slopes& s, const Mat3& F, const Mat3& K, double J) {
  const Mat3 G = K * (1 / J);
  const double a = 2 * s.psi_1, b = 4 * s.psi_11, c = 2 * s.psi_1J * J;
  const double d = s.psi_JJ * J * J + s.psi_J * J, e = -s.psi_J * J;
  Response<C::size> r;
  r.psi = s.psi;
  r.P = components<C>(a * F - e * G);
  for_each_pair<C>([&]<int p, int q>(Index<p>, Index<q>) {
    if constexpr (p <= q) {
      constexpr int i = C::row[p], Jp = C::col[p], k = C::row[q], L = C::col[q];
      const double f = F(i, Jp), g = G(i, Jp);
      double A = (b * f + c * g) * F(k, L) + (c * f + d * g) * G(k, L) + e * G(i, L) * G(k, Jp);
      if constexpr (p == q) A += a;
      r.A(p, q) = A;
      r.A(q, p) = A;
    }
  });
  return r;
}

template <class C, InvariantLaw Law>
[[nodiscard]] inline Response<C::size> respond(const Law& law, const Mat3& F) {
  const Mat3 K = cofactor<C>(F);
  const double J = determinant(F, K);
  if (!(J > 0)) return rejected<C>();
  return from_slopes<C>(slopes(law, F.squaredNorm(), J), F, K, J);
}

template <class C, SplitInvariantLaw Law>
[[nodiscard]] inline Response<C::size> respond_isochoric(const Law& law, const Mat3& F) {
  const Mat3 K = cofactor<C>(F);
  const double J = determinant(F, K);
  if (!(J > 0)) return rejected<C>();
  return from_slopes<C>(slopes_isochoric(law, F.squaredNorm(), J), F, K, J);
}

/// theta = J - 1 in psi, dJ/dF = cof F in P, d2J/dF2 = eps_ikm eps_JLn F_mn in A: finite for every F, inverted or not.
template <class C, SplitInvariantLaw Law>
[[nodiscard]] inline Response<C::size> volumetric_strain(const Law&, const Mat3& F) {
  const Mat3 K = cofactor<C>(F);
  Response<C::size> r{determinant(F, K) - 1, components<C>(K), Eigen::Matrix<double, C::size, C::size>::Zero()};
  for_each_pair<C>([&]<int p, int q>(Index<p>, Index<q>) {
    constexpr int i = C::row[p], J = C::col[p], k = C::row[q], L = C::col[q];
    if constexpr (i != k && J != L) {
      constexpr bool same_sense = ((k - i + 3) % 3 == 1) == ((L - J + 3) % 3 == 1);
      r.A(p, q) = (same_sense ? 1 : -1) * F(3 - i - k, 3 - J - L);
    }
  });
  return r;
}

/// Energy alone, for line searches; +infinity when J <= 0.
template <InvariantLaw Law>
[[nodiscard]] inline double energy(const Law& law, const Mat3& F) {
  const double J = determinant(F);
  return J > 0 ? energy(law, F.squaredNorm(), J) : std::numeric_limits<double>::infinity();
}

template <SplitInvariantLaw Law>
[[nodiscard]] inline double energy_isochoric(const Law& law, const Mat3& F) {
  const double J = determinant(F);
  return J > 0 ? energy_isochoric(law, F.squaredNorm(), J) : std::numeric_limits<double>::infinity();
}

/// theta(F) alone.
template <SplitInvariantLaw Law>
[[nodiscard]] inline double theta(const Law&, const Mat3& F) {
  return determinant(F) - 1;
}

}  // namespace hoofload::materials
