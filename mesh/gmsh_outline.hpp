// Free (unstructured) triangulation of plane regions bounded by lines and splines, with sizes at points, by Gmsh: the only
// door to it. The feet are grids of patches (patch_grid.hpp) and do not come this way.
//
// Gmsh has one global state and is not thread-safe: calls are serialised by a mutex; one thread inside keeps the
// mesh the same bit for bit. Throws std::runtime_error with Gmsh's own words when it reports an error.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "mesh/plane_mesh.hpp"

namespace hoofload::mesh {

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

}  // namespace hoofload::mesh
