// A model as one value: bodies, interactions, supports. Nothing here is solved.
//
// Full dofs: plane node i has 2i, 2i+1; space node j has 2 n_plane + 3j + c; the ground plane has d, s, theta at the end.
// Unknowns q have the same numbering. A free node's unknowns are its displacements; a slave node's are its normal and
// tangential jump; a ground node's are its gap and its place along the ground (theory.md, contact).
#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "materials/material.hpp"
#include "solver/interactions/bed.hpp"
#include "solver/interactions/cable.hpp"
#include "solver/interactions/spring.hpp"
#include "solver/solid.hpp"

namespace hoofload::solver {

/// Elements of constant stiffness (small strain): energy 1/2 x^T K x.
struct ConstantBlock {
  std::string region;
  int dofs_per_element = 0;
  std::vector<std::vector<int>> dofs;
  std::vector<Eigen::MatrixXd> K;
};

/// Thin-layer foundation points of one eight-node face: F = I + u (x) N / h, energy h psi(F) per area.
struct LayerPoint {
  Eigen::Matrix<double, 8, 1> shape;
  Eigen::Vector3d normal;
  double weight;  ///< area, times 2 for a mirrored half [mm^2]
  Eigen::Vector3d place;
};
struct LayerBlock {
  std::string region;
  materials::Material material;
  double thickness = 1;
  std::vector<std::array<int, 8>> nodes;        ///< space nodes of each face
  std::vector<std::vector<LayerPoint>> points;  ///< per face
};

enum class Bond { tied, contact };

/// A duplicated conforming line. Slave k: u_slave = u_master + j_n n + j_t t, t = (n_y, -n_x).
/// Contact: j_n >= -(gap - ramp x interference), |traction_t| <= friction x pressure. Tied: j_n = ramp x interference, j_t = 0.
struct PairContact {
  std::string name;
  Bond bond = Bond::contact;
  std::vector<int> slave, master;
  std::vector<Vec2> normal;          ///< unit, from master to slave
  std::vector<double> gap;           ///< >= 0 [mm]
  std::vector<double> interference;  ///< overlap at full fit-up [mm]
  double friction = 0;
};

/// The ground plane: gap g = d + (x - C).n(theta) of its nodes. Rigid: g >= 0; on a bed a node sinks in against its own column.
struct Ground {
  Vec2 joint = Vec2::Zero();  ///< C
  std::vector<int> nodes;
  std::vector<double> friction;  ///< per node, of the stick-slip law
  /// Instead of stick-slip: the tangential force is spread over the contacts as the normal force is, Eq. (80). Its
  /// resultant and line of action, which alone enter the moment about C, are then exact whatever the distribution.
  bool mobilised = false;
  std::optional<ColumnBed> bed;  ///< none: rigid
  std::vector<double> area;      ///< of each node's column of the bed, positive [mm^2]
};

struct Support {
  int dof;
  double value = 0;  ///< prescribed displacement [mm]
};

struct DeadLoad {
  int dof;
  double force;  ///< [N]
};

struct Model {
  Symmetry symmetry = Symmetry::plane_strain;
  std::vector<Vec2> X;                   ///< plane nodes
  std::vector<Eigen::Vector3d> X_space;  ///< space nodes
  std::vector<SolidBlock> solids;
  std::vector<ConstantBlock> constants;
  std::vector<LayerBlock> layers;
  std::vector<SpringGroup> springs;
  std::vector<PairContact> pairs;
  Ground ground;
  std::optional<Cable> cable;
  std::vector<Support> supports;
  std::vector<DeadLoad> dead_loads;
};

[[nodiscard]] inline int plane_dof(int node, int component) { return 2 * node + component; }
[[nodiscard]] inline int space_dof(const Model& m, int node, int component) {
  return 2 * static_cast<int>(m.X.size()) + 3 * node + component;
}
/// Dofs of the ground: 0 distance d, 1 tangential offset s, 2 pitch theta.
[[nodiscard]] inline int ground_dof(const Model& m, int k) {
  return 2 * static_cast<int>(m.X.size()) + 3 * static_cast<int>(m.X_space.size()) + k;
}
[[nodiscard]] inline int dof_count(const Model& m) { return ground_dof(m, 3); }

}  // namespace hoofload::solver
