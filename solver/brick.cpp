#include "solver/brick.hpp"

#include "mesh/brick_shapes.hpp"

#include <Eigen/LU>
#include <stdexcept>

namespace hoofload::solver {
namespace {

using mesh::Hex20;
using StrainMatrix = Eigen::Matrix<double, 6, 60>;

StrainMatrix strain_matrix(const Hex20::Gradients& dN_dX) {
  StrainMatrix B = StrainMatrix::Zero();
  for (int a = 0; a < Hex20::nodes; ++a) {
    const double x = dN_dX(a, 0), y = dN_dX(a, 1), z = dN_dX(a, 2);
    B.block<6, 3>(0, 3 * a) << x, 0, 0, 0, y, 0, 0, 0, z, 0, z, y, z, 0, x, y, x, 0;
  }
  return B;
}

/// Voigt columns: unit strain with the engineering shear split evenly.
Eigen::Matrix3d unit_strain(int column) {
  Strain e = Strain::Zero();
  e[column] = 1;
  Eigen::Matrix3d E;
  E << e[0], e[5] / 2, e[4] / 2, e[5] / 2, e[1], e[3] / 2, e[4] / 2, e[3] / 2, e[2];
  return E;
}

Strain voigt_stress(const Eigen::Matrix3d& s) { return Strain{s(0, 0), s(1, 1), s(2, 2), s(1, 2), s(0, 2), s(0, 1)}; }

}  // namespace

Matrix6 isotropic_elasticity(double E, double nu) {
  Matrix6 C;
  for (int k = 0; k < 6; ++k) C.col(k) = voigt_stress(materials::stress(materials::lame(E, nu), unit_strain(k)));
  return C;
}

Matrix6 transverse_elasticity(const materials::FibreModuli& m, const Eigen::Vector3d& a) {
  Matrix6 C;
  for (int k = 0; k < 6; ++k) C.col(k) = voigt_stress(materials::stress(m, a, unit_strain(k)));
  return C;
}

BrickStiffness brick_stiffness(const BrickNodes& X, const Matrix6& C) {
  std::array<double, 27> whole;
  whole.fill(1);
  return brick_stiffness(X, C, whole);
}

BrickStiffness brick_stiffness(const BrickNodes& X, const Matrix6& C, const std::array<double, 27>& share) {
  static const auto points = mesh::gauss_cube<3>();
  BrickStiffness K = BrickStiffness::Zero();
  for (std::size_t q = 0; q < points.size(); ++q) {
    const auto& p = points[q];
    const Hex20::Gradients dN = Hex20::dN(p.xi, p.eta, p.zeta);
    const Eigen::Matrix3d J = X * dN;  // dX/dxi
    const double det = J.determinant();
    if (!(det > 0)) throw std::runtime_error("a brick is folded: its Jacobian is not positive at a Gauss point");
    const StrainMatrix B = strain_matrix(dN * J.inverse());
    const StrainMatrix CB = (p.weight * det * share[q]) * C * B;
    K.noalias() += B.transpose() * CB;
  }
  return 0.5 * (K + K.transpose());
}

Strain brick_strain(const BrickNodes& X, const BrickNodes& u, const Eigen::Vector3d& xi) {
  const Hex20::Gradients dN = Hex20::dN(xi[0], xi[1], xi[2]);
  const Eigen::Matrix3d H = (u * dN) * (X * dN).inverse();  // du/dX
  return Strain{H(0, 0), H(1, 1), H(2, 2), H(1, 2) + H(2, 1), H(0, 2) + H(2, 0), H(0, 1) + H(1, 0)};
}

double strain_along(const Strain& e, const Eigen::Vector3d& d) {
  return e[0] * d[0] * d[0] + e[1] * d[1] * d[1] + e[2] * d[2] * d[2] + e[3] * d[1] * d[2] + e[4] * d[0] * d[2] +
         e[5] * d[0] * d[1];
}

}  // namespace hoofload::solver
