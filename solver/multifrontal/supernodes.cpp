#include "solver/multifrontal/supernodes.hpp"

#include "solver/multifrontal/elimination_tree.hpp"

namespace hoofload::solver::multifrontal {

namespace {

/// Size of a supernode while supernodes merge, in unknowns.
struct Trapezoid {
  double columns = 0, rows = 0, zeros = 0;
  [[nodiscard]] double entries() const { return columns * rows - columns * (columns - 1) / 2; }
};

Trapezoid merged(const Trapezoid& child, const Trapezoid& parent) {
  Trapezoid both{child.columns + parent.columns, child.columns + parent.rows, 0};
  both.zeros = child.zeros + parent.zeros + both.entries() - child.entries() - parent.entries();
  return both;
}

bool worth_it(const Trapezoid& both) {
  const double share = both.zeros / both.entries();
  return both.columns <= 4 || (both.columns <= 16 && share < 0.8) || (both.columns <= 48 && share < 0.1) ||
         share < 0.05;
}

struct Forest {
  Supernodes super;
  std::vector<Trapezoid> size;
};

/// Joins runs of positions k, k + 1 = parent(k) whose columns have the same rows.
Forest maximal_supernodes(const NodeGraph& graph) {
  std::vector<int> order = minimum_degree_order(graph);
  std::vector<int> parent = elimination_tree(graph, order);
  sort_by_postorder(order, parent);
  const std::vector<int> height = column_heights(graph, order, parent);
  Forest forest;
  std::vector<int> super_of(order.size());
  for (std::size_t k = 0; k < order.size(); ++k) {
    const int weight = graph.weight(order[k]);
    const bool joins =
        k > 0 && parent[k - 1] == static_cast<int>(k) && height[k - 1] == height[k] + graph.weight(order[k - 1]);
    if (!joins) {
      forest.super.nodes.emplace_back();
      forest.size.push_back({0, static_cast<double>(height[k]), 0});
    }
    forest.super.nodes.back().push_back(order[k]);
    forest.size.back().columns += weight;
    super_of[k] = static_cast<int>(forest.super.nodes.size()) - 1;
  }
  forest.super.parent.assign(forest.super.nodes.size(), -1);
  for (std::size_t k = 0; k < order.size(); ++k)
    if (parent[k] >= 0 && super_of[static_cast<std::size_t>(parent[k])] != super_of[k])
      forest.super.parent[static_cast<std::size_t>(super_of[k])] = super_of[static_cast<std::size_t>(parent[k])];
  return forest;
}

/// Puts the child's nodes before the parent's and leaves the child empty.
void absorb(Supernodes& super, std::size_t child, std::size_t parent) {
  std::vector<int>& nodes = super.nodes[child];
  nodes.insert(nodes.end(), super.nodes[parent].begin(), super.nodes[parent].end());
  super.nodes[parent] = std::move(nodes);
  super.nodes[child].clear();
}

Supernodes without_empty(const Supernodes& super) {
  std::vector<int> index(super.nodes.size(), -1);
  Supernodes kept;
  for (std::size_t s = 0; s < super.nodes.size(); ++s) {
    if (super.nodes[s].empty()) continue;
    index[s] = static_cast<int>(kept.nodes.size());
    kept.nodes.push_back(super.nodes[s]);
    kept.parent.push_back(super.parent[s]);
  }
  for (int& p : kept.parent)
    if (p >= 0) p = index[static_cast<std::size_t>(p)];
  return kept;
}

}  // namespace

Supernodes find_supernodes(const NodeGraph& graph) {
  Forest forest = maximal_supernodes(graph);
  Supernodes& super = forest.super;
  std::vector<std::vector<int>> children(super.nodes.size());
  for (std::size_t s = 0; s < super.nodes.size(); ++s)
    if (super.parent[s] >= 0) children[static_cast<std::size_t>(super.parent[s])].push_back(static_cast<int>(s));
  for (std::size_t s = 0; s < super.nodes.size(); ++s) {
    std::vector<int> kept;
    for (auto it = children[s].rbegin(); it != children[s].rend(); ++it) {
      const auto c = static_cast<std::size_t>(*it);
      const Trapezoid both = merged(forest.size[c], forest.size[s]);
      if (!worth_it(both)) {
        kept.push_back(*it);
        continue;
      }
      forest.size[s] = both;
      absorb(super, c, s);
      for (int grandchild : children[c]) {
        super.parent[static_cast<std::size_t>(grandchild)] = static_cast<int>(s);
        kept.push_back(grandchild);
      }
    }
    children[s] = std::move(kept);
  }
  return without_empty(super);
}

}  // namespace hoofload::solver::multifrontal
