// Sheets put together into one mesh: naming edges by lattice lines, joining sheets by pairs.
#pragma once

#include <string>
#include <vector>

#include "mesh/layered_grid.hpp"
#include "mesh/section_edges.hpp"

namespace hoofload::mesh {

/// A meshed sheet and the offset of its nodes in the whole mesh.
struct Part {
  PlacedSheet sheet;
  int shift;
};

/// Meshes the sheet and appends it.
[[nodiscard]] Part add_sheet(PlaneMesh& mesh, const Sheet& sheet);

/// row_edges and column_edges in the whole mesh's numbering.
[[nodiscard]] EdgeSet rows_of(const Part& part, int line, int from, int to, Body body);
[[nodiscard]] EdgeSet columns_of(const Part& part, int line, int from, int to, Body body);

/// Adds the pairs of two lines under `name`, and both edge sets as `name` (slave) and `name_master`. Nodes of the slave
/// line at an x in `except` belong to another interface and are left out.
void join(PlaneMesh& mesh, const std::string& name, const EdgeSet& slave, const EdgeSet& master, Along along,
          const std::vector<double>& except = {});

/// Makes the nodes of `gone` one with the nodes of `kept` at the same x, and drops them; ids above them move down.
void weld(PlaneMesh& mesh, const EdgeSet& gone, const EdgeSet& kept);

}  // namespace hoofload::mesh
