// The plan of the 3D reference foot: which part lies where seen from above (half foot, z >= 0), and its triangulation.
//
// Every outline is a function of the program's own foot description (mesh/breadths.hpp, mesh/plan_outline.hpp): the sagittal
// core integrates over breadths that are the widths of the same figures. Simplified against it: the frog's pointed
// apex and the opening of the bone's footprint start with a blunt end 2 mm off the mid-line. Lengths in mm.
#pragma once

#include <array>
#include <vector>

#include "mesh/breadths.hpp"
#include "mesh/sagittal_sheets.hpp"

namespace hoofload::tests {

struct FootPlan {
  mesh::SagittalPlan of;  ///< foot, shoeing, breadths, side view and stations
  double open_x;          ///< behind here the bone's footprint is open round the frog
  double packing_end;     ///< rear end of packing and of the frog's lower part
  double frog_apex;

  [[nodiscard]] double rim(double x) const;         ///< half-breadth of the sole at the bearing plane
  [[nodiscard]] double shoe_inner(double x) const;  ///< half of the shoe's opening
  [[nodiscard]] double frog(double x) const;        ///< half-breadth, 0 ahead of the (blunt) apex
  [[nodiscard]] double bone(double x) const;        ///< outer edge of the bone's footprint
  [[nodiscard]] bool in_sole(double x, double z) const;
  [[nodiscard]] bool in_opening(double x, double z) const;
  [[nodiscard]] bool in_frog(double x, double z) const;
  [[nodiscard]] bool in_corium(double x, double z) const;
  [[nodiscard]] bool in_packing(double x, double z) const;
};

[[nodiscard]] FootPlan foot_plan(const mesh::Foot& foot, const mesh::Shoeing& shoeing);

/// Six-node triangles of the plan within the shoe's outer edge; every outline above is a line of the mesh.
struct PlanTriangles {
  std::vector<Eigen::Vector2d> X;       ///< (x, z)
  std::vector<std::array<int, 6>> tri;  ///< corners, then mids 01, 12, 20; turning from z to x (normal +y)
};

/// `size` is the wanted edge length. Throws std::runtime_error with Gmsh's own words.
[[nodiscard]] PlanTriangles plan_triangles(const FootPlan& plan, double size);

}  // namespace hoofload::tests
