// A bent plate of six-node triangles with a hole, whose area and node places are known.
#pragma once

#include <cmath>
#include <functional>

#include "viz/section.hpp"

namespace hoofload::tests {

using mesh::Vec2;

/// nx by ny cells, two triangles each, mapped from the unit square; cells for which `is_hole(i, j)` are left out.
/// Mid-side nodes lie on the map, so edges are curved. The block's nodes follow those that the mesh has.
inline void add_patch(
    mesh::PlaneMesh& mesh, const std::string& region, int nx, int ny, const std::function<Vec2(double, double)>& map,
    const std::function<bool(int, int)>& is_hole = [](int, int) { return false; }) {
  const int base = static_cast<int>(mesh.X.size()), row = 2 * nx + 1;
  for (int j = 0; j <= 2 * ny; ++j)
    for (int i = 0; i < row; ++i) mesh.X.push_back(map(i / (2.0 * nx), j / (2.0 * ny)));
  mesh::Block block{region, {}, {}};
  for (int j = 0; j < ny; ++j)
    for (int i = 0; i < nx; ++i) {
      if (is_hole(i, j)) continue;
      const auto id = [&](int di, int dj) { return base + (2 * j + dj) * row + 2 * i + di; };
      block.tri.push_back({id(0, 0), id(2, 0), id(2, 2), id(1, 0), id(2, 1), id(1, 1)});
      block.tri.push_back({id(0, 0), id(2, 2), id(0, 2), id(1, 1), id(1, 2), id(0, 1)});
    }
  block.breadth.resize(block.tri.size());
  mesh.blocks.push_back(block);
}

/// 10 by 4 mm, 20 x 8 cells, with a hole of 2 x 1 mm: area 38 mm^2.
inline mesh::PlaneMesh plate_with_hole() {
  mesh::PlaneMesh mesh;
  add_patch(
      mesh, "plate", 20, 8, [](double s, double t) { return Vec2(10 * s, 4 * t); },
      [](int i, int j) { return i >= 8 && i < 12 && j >= 3 && j < 5; });
  return mesh;
}

inline mesh::PlaneMesh ring_section() {
  mesh::PlaneMesh mesh;
  add_patch(mesh, "sole", 12, 3, [](double s, double t) { return Vec2(50 * s, 8 * (1 - s * s) + 10 * t); });
  add_patch(mesh, "shoe", 5, 3, [](double s, double t) { return Vec2(40 + 22 * s, -10 + 10 * t); });
  return mesh;
}

}  // namespace hoofload::tests
