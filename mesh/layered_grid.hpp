// A sheet of layers over common columns: logical patches (column i, row j) placed in the plane by their row lines.
//
// Row line j (0..rows) is a curve over the logical abscissa s in [0, columns]; a node at logical height j + t lies on the
// straight segment between lines j and j + 1 at its own s. So corner and mid-side nodes on a row line lie on the
// exact curve, lengths only move nodes, and two sheets that use the same columns have the same stations.
// Nodes are never shared between sheets: that is what makes interface lines double.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "mesh/patch_grid.hpp"
#include "mesh/plane_mesh.hpp"

namespace hoofload::mesh {

struct SheetPatch {
  int column, row;
  std::string region;
};

struct Sheet {
  std::vector<Interval> columns, rows;
  std::vector<SheetPatch> patches;
  std::function<Vec2(int line, double s)> line;               ///< place on row line `line` at abscissa s
  std::function<double(const std::string&, double)> breadth;  ///< of a region at a station x; empty: 1 everywhere
};

/// A meshed sheet: `mesh` has one block a region; `q` are the nodes' logical places.
struct PlacedSheet {
  PlaneMesh mesh;
  std::vector<Vec2> q;
  std::vector<SheetPatch> patches;
  std::vector<std::array<std::size_t, 3>> span;  ///< per patch: block, first and past-the-last triangle in it
};

[[nodiscard]] PlacedSheet place_sheet(const Sheet& sheet);

/// Which side of a lattice line the body lies on.
enum class Body { above, below, left, right };

/// Edges of the sheet on row line `line` between column lines `from` and `to`, body above or below it.
[[nodiscard]] EdgeSet row_edges(const PlacedSheet& sheet, int line, int from, int to, Body body);

/// Edges of the sheet on column line `line` between row lines `from` and `to`, body left or right of it.
[[nodiscard]] EdgeSet column_edges(const PlacedSheet& sheet, int line, int from, int to, Body body);

/// Number of divisions at a mesh density (1: as given): at least 1, rounded.
[[nodiscard]] int divided(int divisions, double density);

}  // namespace hoofload::mesh
