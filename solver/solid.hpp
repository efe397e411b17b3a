// A block of six-node triangles of one material: energy, internal force and tangent of each element.
//
// Two formulations (theory.md, element):
//  - displacement: plain T6, three-point rule; for stiff and compressible parts;
//  - mixed: T6 + cubic bubble + discontinuous linear pressure. Pi = int psi_iso + 1/2 kappa c^T M^-1 c,
//    c_k = int L_k theta, M_kl = int L_k L_l. Bubble b and pressure p are the element's own unknowns, condensed here;
//    p is iterated independently in the tangent (Newton then needs far fewer steps near incompressibility).
// Forces are for the full breadth or the full circle [N].
#pragma once

#include <array>
#include <functional>
#include <string>
#include <vector>

#include "materials/material.hpp"
#include "mesh/plane_mesh.hpp"
#include "solver/kinematics.hpp"

namespace hoofload::solver {

enum class Formulation { displacement, mixed };

/// Reference data of one quadrature point. `B` acts on the 12 nodal dofs, `B_bubble` on the 2 bubble dofs.
struct SolidPoint {
  Eigen::Matrix<double, 6, 2> dN_dX;
  Eigen::Matrix<double, 6, 1> hoop;
  double weight;  ///< quadrature weight x det J x measure [mm^3]
};

struct MixedPoint {
  Eigen::Vector2d dNb_dX;
  double hoop_bubble;
  Eigen::Vector3d L;  ///< pressure shapes
};

/// Internal unknowns of a mixed element.
struct MixedState {
  Eigen::Vector2d bubble = Eigen::Vector2d::Zero();
  Eigen::Vector3d pressure = Eigen::Vector3d::Zero();
};

/// What the last tangent of a mixed element left behind to recover its internal increments.
struct MixedRecovery {
  Eigen::Matrix2d Kbb_inverse;
  Eigen::Matrix<double, 2, 12> Kbu;
  Eigen::Vector2d fb;
  Eigen::Vector3d p_at_state;       ///< kappa M^-1 c
  Eigen::Matrix<double, 3, 14> dp;  ///< kappa M^-1 G
};

struct SolidBlock {
  std::string region;
  materials::Material material;
  Formulation formulation = Formulation::displacement;
  int points_per_element = 3;
  bool has_hoop = false;  ///< some shape function changes the circumference (axisymmetry)
  std::vector<std::array<int, 6>> nodes;
  std::vector<SolidPoint> points;          ///< points_per_element per element
  std::vector<MixedPoint> mixed_points;    ///< the same, mixed only
  std::vector<Eigen::Matrix3d> M_inverse;  ///< per element, mixed only
  int first_state = 0;                     ///< offset of its MixedStates in the model's list
};

/// Element result: energy [N mm], force [N], tangent [N/mm], of which the lower triangle counts.
struct SolidResult {
  double energy = 0;
  Eigen::Matrix<double, 12, 1> f;
  Eigen::Matrix<double, 12, 12> K;
};

/// Builds the reference data of one mesh block. Throws std::invalid_argument if an element has det J <= 0 or if a
/// mixed block's material has no volumetric split.
[[nodiscard]] SolidBlock make_solid_block(const mesh::PlaneMesh& mesh, const mesh::Block& block, Symmetry symmetry,
                                          const materials::Material& material, Formulation formulation);

/// Energy of element e at nodal displacements u (12) and, if mixed, its internal state. +inf if it is inverted.
[[nodiscard]] double solid_energy(const SolidBlock& block, int e, const Eigen::Matrix<double, 12, 1>& u,
                                  const MixedState* state);

/// Energy, force and (condensed) tangent of all elements in turn, handed to `sink(e, SolidResult&)`.
/// Mixed: `states` and `recovery` are the block's own ranges.
struct SolidSweep {
  const MixedState* states = nullptr;
  MixedRecovery* recovery = nullptr;
};

/// Deformation gradient and first Piola stress at every quadrature point of element e; mixed stress uses the element's pressure field.
struct PointStress {
  Vec2 X;
  Mat3 F, P;
  double weight;
};

/// `x` holds plane displacements, node i at 2i.
using SolidSink = std::function<void(int element, SolidResult& result)>;
void sweep_solid(const SolidBlock& block, const SolidSweep& sweep, const Eigen::VectorXd& x, const SolidSink& sink);

/// The 12 nodal displacements of element e.
[[nodiscard]] inline Eigen::Matrix<double, 12, 1> element_displacements(const SolidBlock& block, int e,
                                                                        const Eigen::VectorXd& x) {
  Eigen::Matrix<double, 12, 1> u;
  const auto& nodes = block.nodes[static_cast<std::size_t>(e)];
  for (int a = 0; a < 6; ++a) u.segment<2>(2 * a) = x.segment<2>(2 * nodes[static_cast<std::size_t>(a)]);
  return u;
}

}  // namespace hoofload::solver
