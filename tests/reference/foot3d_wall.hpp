// Wall and solid lamellae of the 3D reference foot: second-order bricks on the program's own outline, fine, with a mesh line
// where the lamellae end behind (the program cuts its layer there; a whole brick too many changes the sink by a tenth).
#pragma once

#include "mesh/capsule_shell.hpp"

namespace hoofload::tests {

struct WallDivisions {
  int ellipse = 8, fore_branch = 2, rear_branch = 2;  ///< columns: toe to widest, to the lamellae's end, to the heel
  int below = 2, lamellar = 3, above = 1, thickness = 1, lamella = 1;
};

struct WallMesh {
  mesh::SpaceMesh mesh;  ///< regions "wall", "lamella"; faces "inner", "bone"; nodes "bearing", "bone", "symmetry"
  std::vector<double> bone_t;       ///< outline parameter of each node of "bone"
  std::array<double, 3> bone_area;  ///< of the lamellae's inner face: toe, quarter, heel [mm^2]
};

/// Strain of the outer surface along the wall as weights of nodal displacements: sum_a w_a . u_a.
struct GaugeWeight {
  int node;
  mesh::Vec3 weight;
};

struct Wall {
  WallDivisions divisions;
  WallMesh shell;
  mesh::PlanOutline outline;
  int heel_coronet = 0, toe_coronet = 0;  ///< outer nodes

  /// Gauge at the dorsal mid-line (t = 0) or the quarter (t = 1) at a height.
  [[nodiscard]] std::vector<GaugeWeight> gauge(int t, double height) const;
};

[[nodiscard]] Wall wall_and_lamellae(const mesh::Foot& foot, const WallDivisions& divisions);

}  // namespace hoofload::tests
