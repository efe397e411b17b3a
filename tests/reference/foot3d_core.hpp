// Everything of the 3D reference foot but its wall: shoe, plate, packing, frog, domed sole and solar corium as second-order
// wedges on one triangulated plan.
//
// Heights. At the mid-line the sole's outer face, the horn's thickness and the corium's depth are those of the program's side
// view; across the foot the outer face falls as a parabola from there to its height at the toe's white line (a dome),
// horn and corium keep their thickness, so the bone's underside is vaulted too. The sagittal core has the mid-line's
// height over the whole breadth: that difference is one of those that the comparison measures.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "mesh/plane_mesh.hpp"
#include "mesh/space_mesh.hpp"
#include "tests/reference/foot3d_plan.hpp"

namespace hoofload::tests {

struct CoreDivisions {
  double size = 9;  ///< edge length in plan [mm]
  int packing = 1, horn = 1, corium = 1, stand = 1;
};

struct Wedge {
  std::array<int, 15> nodes;
  std::string part;  ///< shoe plate packing frog sole corium
  Eigen::Vector2d centre;
  double area;  ///< in plan
  bool lowest_of_packing = false, highest_of_packing = false;
};

struct Core {
  std::vector<mesh::Vec3> X;
  std::vector<Wedge> wedges;
  std::vector<int> bone;                          ///< nodes of the corium's upper face
  std::vector<int> ground_ring, ground_plate;     ///< of the shoe's and the plate's lower face
  std::vector<int> ground_packing;                ///< of a packing that lies on the ground itself
  std::vector<int> rim;                           ///< of the sole's horn, on the wall
  std::vector<std::pair<int, int>> top;           ///< wedge, face (ccx number) of the shoe's upper face
  std::vector<std::pair<int, mesh::Vec3>> sides;  ///< packing against the shoe's inner edge: node, unit normal
};

[[nodiscard]] Core foot_core(const FootPlan& plan, const CoreDivisions& divisions);

}  // namespace hoofload::tests
