#include "mesh/section_edges.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <stdexcept>
#include <utility>

namespace hoofload::mesh {
namespace {

struct Piece {
  Edge edge;
  std::array<double, 3> breadth;
};

/// Starts of chains: nodes that begin a piece and end none; a closed chain starts anywhere.
std::vector<int> chain_starts(const std::map<int, Piece>& by_start, const PlaneMesh& mesh) {
  std::set<int> ends;
  for (const auto& [node, piece] : by_start) ends.insert(piece.edge.b);
  std::vector<int> starts;
  for (const auto& [node, piece] : by_start)
    if (!ends.contains(node)) starts.push_back(node);
  if (starts.empty() && !by_start.empty()) starts.push_back(by_start.begin()->first);
  std::sort(starts.begin(), starts.end(), [&](int p, int q) {
    const Vec2 &a = mesh.X[static_cast<std::size_t>(p)], &b = mesh.X[static_cast<std::size_t>(q)];
    return std::pair(a.x(), a.y()) < std::pair(b.x(), b.y());
  });
  return starts;
}

}  // namespace

EdgeSet edges_where(const PlaneMesh& mesh, const std::vector<TrianglesView>& views,
                    const std::function<bool(int node)>& on) {
  constexpr std::array<std::array<std::size_t, 3>, 3> sides{{{0, 1, 3}, {1, 2, 4}, {2, 0, 5}}};
  std::map<int, Piece> by_start;
  for (const TrianglesView& view : views)
    for (std::size_t e = view.first; e < view.last; ++e)
      for (const auto& [i, j, m] : sides) {
        const auto& t = view.block->tri[e];
        if (!on(t[i]) || !on(t[j]) || !on(t[m])) continue;
        const auto& b = view.block->breadth[e];
        by_start[t[i]] = {{t[i], t[j], t[m]}, {b[i], b[j], b[m]}};
      }
  EdgeSet set;
  for (const int start : chain_starts(by_start, mesh))
    for (auto it = by_start.find(start); it != by_start.end();) {
      set.edges.push_back(it->second.edge);
      set.breadth.push_back(it->second.breadth);
      const int next = it->second.edge.b;
      by_start.erase(it);
      it = by_start.find(next);
    }
  return set;
}

std::vector<std::size_t> blocks_named(const PlaneMesh& mesh, const std::string& region) {
  std::vector<std::size_t> found;
  for (std::size_t k = 0; k < mesh.blocks.size(); ++k)
    if (mesh.blocks[k].region == region) found.push_back(k);
  return found;
}

std::vector<NodePair> pair_lines(const PlaneMesh& mesh, const EdgeSet& slave, const EdgeSet& master, Along along) {
  constexpr double tolerance = 1e-7;
  const auto key = [&](int id) { return mesh.X[static_cast<std::size_t>(id)][along == Along::x ? 0 : 1]; };
  std::map<double, int> at;
  for (const int id : nodes_of(master)) at[key(id)] = id;
  std::vector<NodePair> pairs;
  for (const int id : nodes_of(slave)) {
    const auto it = at.lower_bound(key(id) - tolerance);
    if (it != at.end() && it->first <= key(id) + tolerance) pairs.push_back({id, it->second});
  }
  return pairs;
}

void append(PlaneMesh& to, PlaneMesh from) {
  const int shift = static_cast<int>(to.X.size());
  to.X.insert(to.X.end(), from.X.begin(), from.X.end());
  for (Block& block : from.blocks) {
    for (auto& tri : block.tri)
      for (int& id : tri) id += shift;
    to.blocks.push_back(std::move(block));
  }
  for (auto& [name, set] : from.edges) {
    for (Edge& e : set.edges) e = {e.a + shift, e.b + shift, e.mid + shift};
    extend(to.edges[name], set);
  }
  for (auto& [name, list] : from.pairs)
    for (const NodePair& p : list) to.pairs[name].push_back({p.slave + shift, p.master + shift});
}

void extend(EdgeSet& to, const EdgeSet& from) {
  to.edges.insert(to.edges.end(), from.edges.begin(), from.edges.end());
  to.breadth.insert(to.breadth.end(), from.breadth.begin(), from.breadth.end());
}

}  // namespace hoofload::mesh
