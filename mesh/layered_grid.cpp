#include "mesh/layered_grid.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "mesh/section_edges.hpp"

namespace hoofload::mesh {
namespace {

Vec2 place(const Sheet& sheet, const Vec2& q) {
  const int row = std::min(static_cast<int>(std::floor(q.y())), static_cast<int>(sheet.rows.size()) - 1);
  const double t = q.y() - row;
  if (t == 0) return sheet.line(row, q.x());
  if (t == 1) return sheet.line(row + 1, q.x());
  return (1 - t) * sheet.line(row, q.x()) + t * sheet.line(row + 1, q.x());
}

std::size_t block_of(PlaneMesh& mesh, const std::string& region) {
  const std::vector<std::size_t> found = blocks_named(mesh, region);
  if (!found.empty()) return found.front();
  mesh.blocks.push_back({region, {}, {}});
  return mesh.blocks.size() - 1;
}

/// Breadth of one region at the nodes of its triangles; every station is evaluated once.
class StationBreadth {
 public:
  StationBreadth(const Sheet& sheet, std::string region) : sheet_(sheet), region_(std::move(region)) {}

  std::array<double, 6> operator()(const std::array<int, 6>& tri, const std::vector<Vec2>& X) {
    std::array<double, 6> b{1, 1, 1, 1, 1, 1};
    if (!sheet_.breadth) return b;
    for (std::size_t k = 0; k < 6; ++k) {
      const double x = X[static_cast<std::size_t>(tri[k])].x();
      const auto [it, fresh] = known_.try_emplace(x, 0);
      if (fresh) it->second = sheet_.breadth(region_, x);
      b[k] = it->second;
    }
    return positive_inside(b);
  }

 private:
  const Sheet& sheet_;
  std::string region_;
  std::map<double, double> known_;
};

/// Triangles and breadths of the patches that `chosen` accepts, as one block of a mesh with the sheet's nodes.
template <class Chosen>
EdgeSet edges_of_patches(const PlacedSheet& sheet, Chosen chosen, const std::function<bool(int)>& on) {
  std::vector<TrianglesView> views;
  for (std::size_t p = 0; p < sheet.patches.size(); ++p) {
    if (!chosen(sheet.patches[p])) continue;
    const auto [block, first, last] = sheet.span[p];
    views.push_back({&sheet.mesh.blocks[block], first, last});
  }
  return edges_where(sheet.mesh, views, on);
}

}  // namespace

PlacedSheet place_sheet(const Sheet& sheet) {
  PatchGrid grid{sheet.columns, sheet.rows, {}};
  for (const SheetPatch& p : sheet.patches) grid.patches.push_back({p.column, p.row});
  PatchMesh patches = mesh_patches(grid);
  PlacedSheet out;
  out.patches = sheet.patches;
  out.q = std::move(patches.q);
  for (const Vec2& q : out.q) out.mesh.X.push_back(place(sheet, q));
  std::map<std::string, StationBreadth> breadth;
  for (std::size_t p = 0; p < sheet.patches.size(); ++p) {
    const std::string& region = sheet.patches[p].region;
    StationBreadth& at_station = breadth.try_emplace(region, sheet, region).first->second;
    const std::size_t k = block_of(out.mesh, region);
    Block& block = out.mesh.blocks[k];
    const std::size_t first = block.tri.size();
    for (const auto& tri : patches.tri[p]) {
      block.tri.push_back(tri);
      block.breadth.push_back(at_station(tri, out.mesh.X));
    }
    out.span.push_back({k, first, block.tri.size()});
  }
  return out;
}

EdgeSet row_edges(const PlacedSheet& sheet, int line, int from, int to, Body body) {
  const int row = body == Body::above ? line : line - 1;
  return edges_of_patches(
      sheet, [&](const SheetPatch& p) { return p.row == row && p.column >= from && p.column < to; },
      [&](int id) { return sheet.q[static_cast<std::size_t>(id)].y() == line; });
}

EdgeSet column_edges(const PlacedSheet& sheet, int line, int from, int to, Body body) {
  const int column = body == Body::right ? line : line - 1;
  return edges_of_patches(
      sheet, [&](const SheetPatch& p) { return p.column == column && p.row >= from && p.row < to; },
      [&](int id) { return sheet.q[static_cast<std::size_t>(id)].x() == line; });
}

int divided(int divisions, double density) { return std::max(1, static_cast<int>(std::lround(divisions * density))); }

}  // namespace hoofload::mesh
