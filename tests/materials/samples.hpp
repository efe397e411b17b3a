// Shared by the tests of the laws: deformations to try, and homogeneous states with free sides.
#pragma once

#include <cmath>
#include <random>
#include <vector>

#include "materials/material.hpp"

namespace hoofload::materials::test {

/// Deformation gradients with entries within 0.3 of the identity (J from about 0.4 to 2), the same in every run.
/// Plane ones leave (0,2), (1,2), (2,0), (2,1) at zero.
template <class C>
[[nodiscard]] std::vector<Mat3> deformations(int count = 12) {
  std::mt19937 bits(20240607);
  std::vector<Mat3> all;
  while (static_cast<int>(all.size()) < count) {
    Mat3 F = Mat3::Identity();
    for (int a = 0; a < C::size; ++a) F(C::row[a], C::col[a]) += 0.6 * (double(bits()) / 4294967295.0 - 0.5);
    if (determinant(F) > 0.3) all.push_back(F);
  }
  return all;
}

/// Nominal stress of a homogeneous state F(t) whose component (k, k) of P vanishes; t is found by Newton's method on the
/// law itself, dP_kk/dt by the tangent. `shape(t)` returns F and `moving` lists the stretches that t drives.
template <class Law, class Shape>
[[nodiscard]] Eigen::Matrix<double, 9, 1> free_side_stress(const Law& law, Shape shape, int k, std::vector<int> moving,
                                                           double& t) {
  for (int iteration = 0; iteration < 60; ++iteration) {
    const auto r = respond<SpaceComponents>(law, shape(t));
    double slope = 0;
    for (int m : moving) slope += r.A(4 * k, 4 * m);
    const double step = -r.P[4 * k] / slope;
    t += std::max(-0.2 * t, std::min(0.2 * t, step));
    if (std::abs(step) < 1e-15) break;
  }
  return respond<SpaceComponents>(law, shape(t)).P;
}

[[nodiscard]] inline Mat3 stretches(double a, double b, double c) { return Vec3(a, b, c).asDiagonal(); }

/// P_11 at stretch l, sides free.
template <class Law>
[[nodiscard]] double uniaxial(const Law& law, double l, double* lateral = nullptr) {
  double t = std::pow(l, -0.4);
  const double P = free_side_stress(
      law, [&](double s) { return stretches(l, s, s); }, 1, {1, 2}, t)[0];
  if (lateral) *lateral = t;
  return P;
}

/// P_11 at stretch l, side 2 free, side 3 held.
template <class Law>
[[nodiscard]] double plane_strain(const Law& law, double l, double* lateral = nullptr) {
  double t = std::pow(l, -0.8);
  const double P = free_side_stress(
      law, [&](double s) { return stretches(l, s, 1); }, 1, {1}, t)[0];
  if (lateral) *lateral = t;
  return P;
}

/// P_11 at equal stretches l in two directions, the third free.
template <class Law>
[[nodiscard]] double equibiaxial(const Law& law, double l) {
  double t = std::pow(l, -1.6);
  return free_side_stress(
      law, [&](double s) { return stretches(l, l, s); }, 2, {2}, t)[0];
}

/// P_11 at stretch l, both sides held.
template <class Law>
[[nodiscard]] double confined(const Law& law, double l) {
  return respond<SpaceComponents>(law, stretches(l, 1, 1)).P[0];
}

/// Cauchy stress P F^T / J.
template <class Law>
[[nodiscard]] Mat3 cauchy(const Law& law, const Mat3& F) {
  const auto P = respond<SpaceComponents>(law, F).P;
  Mat3 T;
  for (int a = 0; a < 9; ++a) T(SpaceComponents::row[a], SpaceComponents::col[a]) = P[a];
  return T * F.transpose() / determinant(F);
}

}  // namespace hoofload::materials::test
