// Constant stiffness of a twenty-node brick, small strain, 3 x 3 x 3 Gauss points:
//
//   K = int B^T C B dV,   strain e = B u = (xx, yy, zz, 2 yz, 2 xz, 2 xy),   stress = C e
//
// Limits: linear; no initial stress; K has the six rigid-body modes of its own as null space. Moduli in MPa, lengths in mm.
#pragma once

#include "materials/hooke.hpp"

#include <Eigen/Core>
#include <array>

namespace hoofload::solver {

using BrickNodes = Eigen::Matrix<double, 3, 20>;       ///< columns: node places or displacements
using BrickStiffness = Eigen::Matrix<double, 60, 60>;  ///< dof 3 a + c
using Matrix6 = Eigen::Matrix<double, 6, 6>;
using Strain = Eigen::Matrix<double, 6, 1>;  ///< xx, yy, zz, 2 yz, 2 xz, 2 xy

/// Elasticity of an isotropic solid.
[[nodiscard]] Matrix6 isotropic_elasticity(double E, double nu);

/// Elasticity of a transversely isotropic solid with unit fibre a (materials/hooke.hpp, fibre_moduli).
[[nodiscard]] Matrix6 transverse_elasticity(const materials::FibreModuli& m, const Eigen::Vector3d& a);

/// K. `share`: part of each Gauss point (mesh::gauss_cube<3> order) that is filled; all 1 for a whole brick.
/// Throws std::runtime_error when the brick is folded (det dX/dxi <= 0 at a Gauss point).
[[nodiscard]] BrickStiffness brick_stiffness(const BrickNodes& X, const Matrix6& C);
[[nodiscard]] BrickStiffness brick_stiffness(const BrickNodes& X, const Matrix6& C,
                                             const std::array<double, 27>& share);

/// Strain at a reference point of a brick from its nodes' displacements.
[[nodiscard]] Strain brick_strain(const BrickNodes& X, const BrickNodes& u, const Eigen::Vector3d& xi);

/// Stretch along the unit direction d: d . e d.
[[nodiscard]] double strain_along(const Strain& e, const Eigen::Vector3d& d);

}  // namespace hoofload::solver
