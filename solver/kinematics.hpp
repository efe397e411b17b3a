// Symmetry and deformation gradient of the plane models. The only file of solver that says "axisymmetric".
//
// With h_a = hoop(N_a, R):  F = I + sum_a u_a (x) grad N_a,  F_33 = 1 + sum_a h_a u_a,x   (theory.md, kinematics).
// Plane strain with out-of-plane breadth b(X) is the case h = 0 with measure b; axisymmetry has h = N/R, measure 2 pi R.
// Limits: nodes at R = 0 need u_x = 0; quadrature points never lie on the axis. A breadth that varies with X leaves the
// plane-strain assumption (F_33 = 1) an approximation.
#pragma once

#include <Eigen/Core>
#include <numbers>

namespace hoofload::solver {

using Vec2 = Eigen::Vector2d;
using Mat3 = Eigen::Matrix3d;

enum class Symmetry { plane_strain, axisymmetric };

/// Out-of-plane measure of a reference point [mm]: the full circle, or the sheet's own breadth.
[[nodiscard]] inline double measure(Symmetry symmetry, const Vec2& X, double breadth) {
  return symmetry == Symmetry::axisymmetric ? 2.0 * std::numbers::pi * X.x() : breadth;
}

/// Hoop coefficient of a shape value N at radius R [1/mm].
[[nodiscard]] inline double hoop(Symmetry symmetry, double N, double R) {
  return symmetry == Symmetry::axisymmetric ? N / R : 0.0;
}

/// Displacement-gradient components (11, 12, 21, 22, 33) per nodal dof, at one point of an element with n nodes:
/// delta F = B delta u, B is 5 x 2n.
template <int n>
using GradientOperator = Eigen::Matrix<double, 5, 2 * n>;

template <int n>
[[nodiscard]] GradientOperator<n> gradient_operator(const Eigen::Matrix<double, n, 2>& dN_dX,
                                                    const Eigen::Matrix<double, n, 1>& h) {
  GradientOperator<n> B = GradientOperator<n>::Zero();
  for (int a = 0; a < n; ++a) {
    B(0, 2 * a) = dN_dX(a, 0);
    B(1, 2 * a) = dN_dX(a, 1);
    B(2, 2 * a + 1) = dN_dX(a, 0);
    B(3, 2 * a + 1) = dN_dX(a, 1);
    B(4, 2 * a) = h(a);
  }
  return B;
}

/// F from its five in-plane and hoop components of displacement gradient.
[[nodiscard]] inline Mat3 deformation_gradient(const Eigen::Matrix<double, 5, 1>& H) {
  Mat3 F = Mat3::Identity();
  F(0, 0) += H(0);
  F(0, 1) += H(1);
  F(1, 0) += H(2);
  F(1, 1) += H(3);
  F(2, 2) += H(4);
  return F;
}

}  // namespace hoofload::solver
