// Triangulations by Gmsh: the only door to it. Two uses:
//
// 1. A grid of rectangular patches in a logical plane (patch (i, j) is the unit square [i, i+1] x [j, j+1]), each meshed as a
//    transfinite surface of six-node triangles. Division counts and grading are fixed by the caller, so the
//    connectivity depends on them alone; the caller maps logical places (q) to real ones. Results are remembered per grid.
// 2. Free (unstructured) triangulation of plane regions bounded by lines and splines, with sizes at points.
//
// Gmsh has one global state and is not thread-safe: calls are serialised by a mutex; one thread inside keeps the
// mesh the same bit for bit. Both throw std::runtime_error with Gmsh's own words when it reports an error.
#pragma once

#include <array>
#include <string>
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

[[nodiscard]] PatchMesh mesh_patches(const PatchGrid& grid);

/// Regions bounded by curves. A curve with two points is a line, with more a spline through them.
struct OutlinePoint {
  Vec2 at;
  double size;  ///< edge length wanted near it
};
struct OutlineRegion {
  std::string name;
  std::vector<int> curves;  ///< index + 1 of each curve around the region, negative when walked backwards
};
struct Outline {
  std::vector<OutlinePoint> points;
  std::vector<std::vector<int>> curves;  ///< indices of points
  std::vector<OutlineRegion> regions;
};

struct OutlineMesh {
  std::vector<Vec2> X;
  std::vector<std::vector<std::array<int, 6>>> tri;  ///< per region
  std::vector<std::vector<Edge>> edges;              ///< per curve, in the curve's own direction
};

[[nodiscard]] OutlineMesh mesh_outline(const Outline& outline);

/// Version of the Gmsh that this was compiled against, for a result's provenance.
[[nodiscard]] std::string gmsh_version();

}  // namespace hoofload::mesh
