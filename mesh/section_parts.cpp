#include "mesh/section_parts.hpp"

#include <algorithm>
#include <cmath>

namespace hoofload::mesh {
namespace {

EdgeSet shifted(EdgeSet set, int shift) {
  for (Edge& e : set.edges) e = {e.a + shift, e.b + shift, e.mid + shift};
  return set;
}

/// Applies new ids to everything in the mesh that names a node.
void renumber(PlaneMesh& mesh, const std::vector<int>& id) {
  const auto at = [&](int old) { return id[static_cast<std::size_t>(old)]; };
  for (Block& block : mesh.blocks)
    for (auto& tri : block.tri)
      for (int& node : tri) node = at(node);
  for (auto& [name, set] : mesh.edges)
    for (Edge& e : set.edges) e = {at(e.a), at(e.b), at(e.mid)};
  for (auto& [name, list] : mesh.pairs)
    for (NodePair& p : list) p = {at(p.slave), at(p.master)};
}

}  // namespace

Part add_sheet(PlaneMesh& mesh, const Sheet& sheet) {
  Part part{place_sheet(sheet), static_cast<int>(mesh.X.size())};
  append(mesh, part.sheet.mesh);
  return part;
}

EdgeSet rows_of(const Part& part, int line, int from, int to, Body body) {
  return shifted(row_edges(part.sheet, line, from, to, body), part.shift);
}

EdgeSet columns_of(const Part& part, int line, int from, int to, Body body) {
  return shifted(column_edges(part.sheet, line, from, to, body), part.shift);
}

void join(PlaneMesh& mesh, const std::string& name, const EdgeSet& slave, const EdgeSet& master, Along along,
          const std::vector<double>& except) {
  auto& list = mesh.pairs[name];
  for (const NodePair& pair : pair_lines(mesh, slave, master, along)) {
    const double x = mesh.X[static_cast<std::size_t>(pair.slave)].x();
    if (std::none_of(except.begin(), except.end(), [&](double e) { return std::abs(x - e) < 1e-7; }))
      list.push_back(pair);
  }
  extend(mesh.edges[name], slave);
  extend(mesh.edges[name + "_master"], master);
}

void weld(PlaneMesh& mesh, const EdgeSet& gone, const EdgeSet& kept) {
  constexpr int dropped = -1;
  std::vector<int> id(mesh.X.size(), 0);
  const std::vector<NodePair> same = pair_lines(mesh, gone, kept, Along::x);
  for (const NodePair& p : same) id[static_cast<std::size_t>(p.slave)] = dropped;
  std::vector<Vec2> X;
  for (std::size_t k = 0; k < id.size(); ++k) {
    if (id[k] == dropped) continue;
    id[k] = static_cast<int>(X.size());
    X.push_back(mesh.X[k]);
  }
  for (const NodePair& p : same) id[static_cast<std::size_t>(p.slave)] = id[static_cast<std::size_t>(p.master)];
  mesh.X = std::move(X);
  renumber(mesh, id);
}

}  // namespace hoofload::mesh
