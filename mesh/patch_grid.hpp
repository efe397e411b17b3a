// A grid of rectangular patches in a logical plane, triangulated by rows and columns: patch (i, j) is the unit square
// [i, i+1] x [j, j+1], cut into cells whose diagonals alternate, so that neither direction of shear is stiffer.
//
// Division counts and grading are the caller's, so connectivity and numbering depend on them alone; the caller maps logical
// places (q) to real ones. The arrangement is Gmsh's transfinite "AlternateLeft", to the bit and to the node's number;
// written out here because loading Gmsh takes a process longer than solving a small model (docs/performance.md).
#pragma once

#include <array>
#include <vector>

#include "mesh/plane_mesh.hpp"

namespace hoofload::mesh {

/// Divisions of one interval of a logical axis; `ratio` = last step : first step (geometric progression).
struct Interval {
  int divisions = 1;
  double ratio = 1;
};

struct PatchGrid {
  std::vector<Interval> columns, rows;
  std::vector<std::array<int, 2>> patches;  ///< (column, row) of the patches that exist
};

struct PatchMesh {
  std::vector<Vec2> q;                               ///< logical places of the nodes; patches that touch share nodes
  std::vector<std::vector<std::array<int, 6>>> tri;  ///< per patch, node order as mesh::Block
};

/// Nodes are numbered in the order in which the triangles, patch by patch, first use them. Throws std::out_of_range for a
/// patch outside the columns and rows.
[[nodiscard]] PatchMesh mesh_patches(const PatchGrid& grid);

}  // namespace hoofload::mesh
