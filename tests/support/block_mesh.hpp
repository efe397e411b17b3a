// Small structured meshes for tests: rectangles of six-node triangles, optionally distorted, stacked with duplicated lines.
#pragma once

#include <cmath>
#include <functional>
#include <map>
#include <vector>

#include "mesh/plane_mesh.hpp"

namespace hoofload::tests {

using mesh::Vec2;

struct Grid {
  int nx = 4, ny = 4;
  std::function<Vec2(double, double)> place;  ///< (u, v) in [0,1]^2 -> X
  double breadth = 1;
};

/// Appends a mapped grid as one block; node (i, j) of the doubled grid has id first + j (2 nx + 1) + i.
/// Mid-side nodes lie at the mean of their ends unless `curved`.
inline int add_grid(mesh::PlaneMesh& mesh, const std::string& region, const Grid& g, bool curved = false) {
  const int first = static_cast<int>(mesh.X.size());
  const int w = 2 * g.nx + 1, h = 2 * g.ny + 1;
  for (int j = 0; j < h; ++j)
    for (int i = 0; i < w; ++i) mesh.X.push_back(g.place(0.5 * i / g.nx, 0.5 * j / g.ny));
  const auto id = [&](int i, int j) { return first + j * w + i; };
  mesh::Block block{region, {}, {}};
  const auto add = [&](int a, int b, int c, int ab, int bc, int ca) {
    block.tri.push_back({a, b, c, ab, bc, ca});
    block.breadth.push_back({g.breadth, g.breadth, g.breadth, g.breadth, g.breadth, g.breadth});
    if (curved) return;
    auto& X = mesh.X;
    const auto mid = [&](int m, int p, int q) {
      X[static_cast<std::size_t>(m)] = 0.5 * (X[static_cast<std::size_t>(p)] + X[static_cast<std::size_t>(q)]);
    };
    mid(ab, a, b);
    mid(bc, b, c);
    mid(ca, c, a);
  };
  for (int j = 0; j < g.ny; ++j) {
    for (int i = 0; i < g.nx; ++i) {
      const int x = 2 * i, y = 2 * j;
      if ((i + j) % 2 == 0) {
        add(id(x, y), id(x + 2, y), id(x + 2, y + 2), id(x + 1, y), id(x + 2, y + 1), id(x + 1, y + 1));
        add(id(x, y), id(x + 2, y + 2), id(x, y + 2), id(x + 1, y + 1), id(x + 1, y + 2), id(x, y + 1));
      } else {
        add(id(x, y), id(x + 2, y), id(x, y + 2), id(x + 1, y), id(x + 1, y + 1), id(x, y + 1));
        add(id(x + 2, y), id(x + 2, y + 2), id(x, y + 2), id(x + 2, y + 1), id(x + 1, y + 2), id(x + 1, y + 1));
      }
    }
  }
  mesh.blocks.push_back(std::move(block));
  return first;
}

/// Node ids along the bottom (j = 0) or top (j = 2 ny) row of a grid added by add_grid.
inline std::vector<int> row_nodes(const Grid& g, int first, bool top) {
  std::vector<int> nodes;
  const int w = 2 * g.nx + 1;
  for (int i = 0; i < w; ++i) nodes.push_back(first + (top ? 2 * g.ny * w : 0) + i);
  return nodes;
}

/// Node ids along the left (i = 0) or right (i = 2 nx) column.
inline std::vector<int> column_nodes(const Grid& g, int first, bool right) {
  std::vector<int> nodes;
  const int w = 2 * g.nx + 1;
  for (int j = 0; j < 2 * g.ny + 1; ++j) nodes.push_back(first + j * w + (right ? 2 * g.nx : 0));
  return nodes;
}

/// The edges (end, end, mid) of a chain of row or column nodes.
inline mesh::EdgeSet chain(const std::vector<int>& nodes, double breadth = 1) {
  mesh::EdgeSet set;
  for (std::size_t i = 0; i + 2 < nodes.size(); i += 2) {
    set.edges.push_back({nodes[i], nodes[i + 2], nodes[i + 1]});
    set.breadth.push_back({breadth, breadth, breadth});
  }
  return set;
}

/// A rectangle [x0,x1] x [y0,y1] whose interior is distorted smoothly by `amplitude` of its size.
inline std::function<Vec2(double, double)> rectangle(double x0, double x1, double y0, double y1, double amplitude = 0) {
  return [=](double u, double v) {
    const double bump = amplitude * std::sin(3.1 * u + 0.7) * u * (1 - u) * v * (1 - v) * 8;
    return Vec2{x0 + (x1 - x0) * (u + bump), y0 + (y1 - y0) * (v - 0.7 * bump)};
  };
}

}  // namespace hoofload::tests
