// Quadratic energies of a symmetric strain E: isotropic and transversely isotropic (unit fibre a), in Spencer's form.
//
//   psi = lambda/2 (tr E)^2 + mu E:E + alpha (a.Ea) tr E + 2 (mu_a - mu) |Ea|^2 + beta/2 (a.Ea)^2
//   S   = lambda tr E I + 2 mu E + alpha (a.Ea I + tr E aa) + 2 (mu_a - mu)(a Ea + Ea a) + beta (a.Ea) aa
//
// (Spencer 1984, Continuum Theory of the Mechanics of Fibre-Reinforced Composites, CISM 282.) Read with E = sym(F - I)
// this is linear elasticity; with E = (F^T F - I)/2 it is the Kirchhoff law, where S is the second Piola stress.
#pragma once

#include <cmath>

#include "materials/response.hpp"

namespace hoofload::materials {

/// Isotropic part: Lame constants [MPa].
struct Lame {
  double lambda, mu;
};

/// Spencer's five constants [MPa]: mu_a is the shear modulus along the fibre, mu across it.
struct FibreModuli {
  Lame matrix;
  double alpha, beta, mu_a;
};

[[nodiscard]] constexpr Lame lame(double E, double nu) {
  return {E * nu / ((1 + nu) * (1 - 2 * nu)), E / (2 * (1 + nu))};
}

/// nu_LT is the contraction across per stretch along the fibre; nu_TL = nu_LT E_T / E_L. Jones 1975, Eq. 2.23 ff.
[[nodiscard]] constexpr FibreModuli fibre_moduli(double E_L, double E_T, double nu_LT, double nu_TT, double G_LT) {
  const double nu_TL = nu_LT * E_T / E_L;
  const double D = 1 - nu_TT - 2 * nu_LT * nu_TL;
  const double C_LL = E_L * (1 - nu_TT) / D, C_LT = E_T * nu_LT / D;
  const double mu = E_T / (2 * (1 + nu_TT));
  const double lambda = E_T * (nu_TT + nu_LT * nu_TL) / ((1 + nu_TT) * D);
  const double alpha = C_LT - lambda;
  return {{lambda, mu}, alpha, C_LL - lambda - 2 * alpha - 4 * G_LT + 2 * mu, G_LT};
}

/// Positive energy for every strain: |nu_LT| < sqrt(E_L/E_T), |nu_TT| < 1, 1 - nu_TT - 2 nu_LT nu_TL > 0 (Lempriere 1968).
[[nodiscard]] constexpr bool is_stable(double E_L, double E_T, double nu_LT, double nu_TT) {
  return nu_LT * nu_LT * E_T < E_L && nu_TT * nu_TT < 1 && 1 - nu_TT - 2 * nu_LT * nu_LT * E_T / E_L > 0;
}

/// T + c I. The identity stands in memory: Eigen's own divides for each entry's row, and adding to three entries of T makes the
/// processor wait before it can read T as a whole.
inline const Mat3 identity = Mat3::Identity();
[[nodiscard]] inline Mat3 plus_identity(const Mat3& T, double c) { return T + c * identity; }

[[nodiscard]] inline Mat3 small_strain(const Mat3& F) { return plus_identity(0.5 * (F + F.transpose()), -1); }
[[nodiscard]] inline Mat3 green_lagrange(const Mat3& F) { return 0.5 * plus_identity(Mat3(F.transpose() * F), -1); }

[[nodiscard]] inline double strain_energy(const Lame& m, const Mat3& E) {
  const double tr = E.trace();
  return m.lambda / 2 * tr * tr + m.mu * E.squaredNorm();
}

[[nodiscard]] inline Mat3 stress(const Lame& m, const Mat3& E) {
  return plus_identity(2 * m.mu * E, m.lambda * E.trace());
}

[[nodiscard]] inline double strain_energy(const FibreModuli& m, const Vec3& a, const Mat3& E) {
  const Vec3 Ea = E * a;
  const double e = a.dot(Ea);
  return strain_energy(m.matrix, E) + m.alpha * e * E.trace() + 2 * (m.mu_a - m.matrix.mu) * Ea.squaredNorm() +
         m.beta / 2 * e * e;
}

[[nodiscard]] inline Mat3 stress(const FibreModuli& m, const Vec3& a, const Mat3& E) {
  const Vec3 Ea = E * a;
  const double e = a.dot(Ea);
  const Vec3 t = 2 * (m.mu_a - m.matrix.mu) * Ea;
  return plus_identity(stress(m.matrix, E), m.alpha * e) + (m.alpha * E.trace() + m.beta * e) * a * a.transpose() +
         a * t.transpose() + t * a.transpose();
}

/// Adds F_iM F_kN C_MJNL, C = lambda II + mu (isotropic part); F = I gives the small-strain tangent.
template <class C>
inline void add_tangent(const Lame& m, const Mat3& F, Eigen::Matrix<double, C::size, C::size>& A) {
  const Mat3 b = F * F.transpose();
  for_each_pair<C>([&]<int p, int q>(Index<p>, Index<q>) {
    constexpr int i = C::row[p], J = C::col[p], k = C::row[q], L = C::col[q];
    A(p, q) += m.lambda * F(i, J) * F(k, L) + m.mu * (F(i, L) * F(k, J) + (J == L ? b(i, k) : 0.0));
  });
}

/// Adds F_iM F_kN C_MJNL of the whole transversely isotropic C.
template <class C>
inline void add_tangent(const FibreModuli& m, const Vec3& a, const Mat3& F,
                        Eigen::Matrix<double, C::size, C::size>& A) {
  add_tangent<C>(m.matrix, F, A);
  const Mat3 b = F * F.transpose();
  const Vec3 g = F * a;
  const double s = m.mu_a - m.matrix.mu;
  for_each_pair<C>([&]<int p, int q>(Index<p>, Index<q>) {
    constexpr int i = C::row[p], J = C::col[p], k = C::row[q], L = C::col[q];
    A(p, q) +=
        m.alpha * (g[i] * a[J] * F(k, L) + F(i, J) * g[k] * a[L]) + m.beta * g[i] * a[J] * g[k] * a[L] +
        s * ((J == L ? g[i] * g[k] : 0.0) + g[i] * a[L] * F(k, J) + a[J] * g[k] * F(i, L) + a[J] * a[L] * b(i, k));
  });
}

/// Adds the geometric part d_ik S_JL.
template <class C>
inline void add_geometric(const Mat3& S, Eigen::Matrix<double, C::size, C::size>& A) {
  for_each_pair<C>([&]<int p, int q>(Index<p>, Index<q>) {
    if constexpr (C::row[p] == C::row[q]) A(p, q) += S(C::col[p], C::col[q]);
  });
}

/// Unit fibre in the x-y plane at `angle` [rad] from x.
[[nodiscard]] inline Vec3 fibre_direction(double angle) { return {std::cos(angle), std::sin(angle), 0}; }

}  // namespace hoofload::materials
