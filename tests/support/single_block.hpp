// A model of one mapped grid, for tests.
#pragma once

#include <set>

#include "solver/model.hpp"
#include "tests/support/block_mesh.hpp"

namespace hoofload::tests {

struct BlockModel {
  mesh::PlaneMesh mesh;
  Grid grid;
  int first = 0;
  solver::Model model;

  [[nodiscard]] std::vector<int> bottom() const { return row_nodes(grid, first, false); }
  [[nodiscard]] std::vector<int> top() const { return row_nodes(grid, first, true); }
  [[nodiscard]] std::vector<int> left() const { return column_nodes(grid, first, false); }
  [[nodiscard]] std::vector<int> right() const { return column_nodes(grid, first, true); }
  [[nodiscard]] std::vector<int> outline() const {
    std::set<int> all;
    for (const auto& side : {bottom(), top(), left(), right()}) all.insert(side.begin(), side.end());
    return {all.begin(), all.end()};
  }
};

[[nodiscard]] inline BlockModel one_block(const Grid& grid, solver::Symmetry symmetry,
                                          const materials::Material& material, solver::Formulation formulation,
                                          bool curved = false) {
  BlockModel b;
  b.grid = grid;
  b.first = add_grid(b.mesh, "block", grid, curved);
  b.model.symmetry = symmetry;
  b.model.X = b.mesh.X;
  b.model.solids.push_back(solver::make_solid_block(b.mesh, b.mesh.blocks[0], symmetry, material, formulation));
  return b;
}

}  // namespace hoofload::tests
