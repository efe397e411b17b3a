// Motion of ground nodes: x_i = C + (g_i - d) n(theta) + (tau_i - s) t(theta), n = (-sin, cos), t = (cos, sin)
// (theory.md, ground). Gap, place along the ground and their derivatives.
#pragma once

#include <Eigen/Core>
#include <cmath>

namespace hoofload::solver {

using Vec2 = Eigen::Vector2d;

[[nodiscard]] inline Vec2 ground_normal(double theta) { return {-std::sin(theta), std::cos(theta)}; }
[[nodiscard]] inline Vec2 ground_tangent(double theta) { return {std::cos(theta), std::sin(theta)}; }

/// Place of a ground node from its unknowns (g, tau) and the ground's (d, s, theta).
[[nodiscard]] inline Vec2 ground_place(const Vec2& C, double g, double tau, double d, double s, double theta) {
  return C + (g - d) * ground_normal(theta) + (tau - s) * ground_tangent(theta);
}

/// dx/d(g, tau, d, s, theta), columns in that order.
[[nodiscard]] inline Eigen::Matrix<double, 2, 5> ground_gradient(double g, double tau, double d, double s,
                                                                 double theta) {
  const Vec2 n = ground_normal(theta), t = ground_tangent(theta);
  Eigen::Matrix<double, 2, 5> D;
  D << n, t, -n, -t, -(g - d) * t + (tau - s) * n;
  return D;
}

/// r . d2x/dq2 over (g, tau, d, s, theta): the geometric stiffness of a nodal force r.
[[nodiscard]] inline Eigen::Matrix<double, 5, 5> ground_curvature(const Vec2& r, double g, double tau, double d,
                                                                  double s, double theta) {
  const Vec2 n = ground_normal(theta), t = ground_tangent(theta);
  Eigen::Matrix<double, 5, 5> H = Eigen::Matrix<double, 5, 5>::Zero();
  H(0, 4) = H(4, 0) = -r.dot(t);
  H(1, 4) = H(4, 1) = r.dot(n);
  H(2, 4) = H(4, 2) = r.dot(t);
  H(3, 4) = H(4, 3) = -r.dot(n);
  H(4, 4) = -(g - d) * r.dot(n) - (tau - s) * r.dot(t);
  return H;
}

}  // namespace hoofload::solver
