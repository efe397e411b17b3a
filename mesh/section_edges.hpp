// Finding edges of a plane mesh, pairing the nodes of two lines, joining meshes: what every section builder needs.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "mesh/plane_mesh.hpp"

namespace hoofload::mesh {

/// Triangles [first, last) of a block.
struct TrianglesView {
  const Block* block;
  std::size_t first, last;
};

/// Element edges of those triangles whose three nodes satisfy `on`, each walked with its triangle on the left and with the
/// block's breadths, joined into chains (in order of their start's x, then y).
[[nodiscard]] EdgeSet edges_where(const PlaneMesh& mesh, const std::vector<TrianglesView>& views,
                                  const std::function<bool(int node)>& on);

/// Index of every block with that region name.
[[nodiscard]] std::vector<std::size_t> blocks_named(const PlaneMesh& mesh, const std::string& region);

enum class Along { x, y };

/// Pairs each node of the slave line with the master line's node at the same x (or y), within 1e-7 mm. Slave nodes without
/// a partner are left out, so the caller decides by count whether that is an error.
[[nodiscard]] std::vector<NodePair> pair_lines(const PlaneMesh& mesh, const EdgeSet& slave, const EdgeSet& master,
                                               Along along);

/// Adds `from` to `to`, renumbered. Edge sets of the same name are joined end to end, pair lists too.
void append(PlaneMesh& to, PlaneMesh from);

/// Appends the edges of `from` to `to`.
void extend(EdgeSet& to, const EdgeSet& from);

}  // namespace hoofload::mesh
