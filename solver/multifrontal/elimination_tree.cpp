#include "solver/multifrontal/elimination_tree.hpp"

namespace hoofload::solver::multifrontal {

namespace {

/// visit(k) for each neighbour of position i that is eliminated before it.
template <class Visit>
void each_earlier(const NodeGraph& graph, const std::vector<int>& order, const std::vector<int>& position, int i,
                  Visit&& visit) {
  const auto node = static_cast<std::size_t>(order[static_cast<std::size_t>(i)]);
  for (int p = graph.first_neighbour[node]; p < graph.first_neighbour[node + 1]; ++p) {
    const int k = position[static_cast<std::size_t>(graph.neighbour[static_cast<std::size_t>(p)])];
    if (k < i) visit(k);
  }
}

}  // namespace

std::vector<int> positions(const std::vector<int>& order) {
  std::vector<int> position(order.size());
  for (std::size_t k = 0; k < order.size(); ++k) position[static_cast<std::size_t>(order[k])] = static_cast<int>(k);
  return position;
}

std::vector<int> elimination_tree(const NodeGraph& graph, const std::vector<int>& order) {
  const std::vector<int> position = positions(order);
  std::vector<int> parent(order.size(), -1), ancestor(order.size(), -1);
  for (int i = 0; i < static_cast<int>(order.size()); ++i) {
    each_earlier(graph, order, position, i, [&](int k) {
      while (k != -1 && k != i) {  // climbs to the root of k's tree, shortening the way for the next climb
        const auto at = static_cast<std::size_t>(k);
        const int next = ancestor[at];
        ancestor[at] = i;
        if (next == -1) parent[at] = i;
        k = next;
      }
    });
  }
  return parent;
}

void sort_by_postorder(std::vector<int>& order, std::vector<int>& parent) {
  const std::size_t n = order.size();
  std::vector<int> child(n + 1, -1), sibling(n, -1);  // the last list holds the roots
  for (std::size_t k = n; k-- > 0;) {
    const std::size_t up = parent[k] < 0 ? n : static_cast<std::size_t>(parent[k]);
    sibling[k] = child[up];
    child[up] = static_cast<int>(k);
  }
  std::vector<int> sorted, at(n), stack;
  sorted.reserve(n);
  for (int root = child[n]; root >= 0; root = sibling[static_cast<std::size_t>(root)]) {
    stack.push_back(root);
    while (!stack.empty()) {
      const auto k = static_cast<std::size_t>(stack.back());
      if (child[k] >= 0) {
        stack.push_back(child[k]);
        child[k] = sibling[static_cast<std::size_t>(child[k])];
        continue;
      }
      at[k] = static_cast<int>(sorted.size());
      sorted.push_back(static_cast<int>(k));
      stack.pop_back();
    }
  }
  std::vector<int> new_order(n), new_parent(n);
  for (std::size_t k = 0; k < n; ++k) {
    const auto old = static_cast<std::size_t>(sorted[k]);
    new_order[k] = order[old];
    new_parent[k] = parent[old] < 0 ? -1 : at[static_cast<std::size_t>(parent[old])];
  }
  order = std::move(new_order);
  parent = std::move(new_parent);
}

std::vector<int> column_heights(const NodeGraph& graph, const std::vector<int>& order, const std::vector<int>& parent) {
  const std::vector<int> position = positions(order);
  std::vector<int> height(order.size()), row(order.size(), -1);
  for (int i = 0; i < static_cast<int>(order.size()); ++i) {
    const int weight = graph.weight(order[static_cast<std::size_t>(i)]);
    height[static_cast<std::size_t>(i)] = weight;
    row[static_cast<std::size_t>(i)] = i;
    each_earlier(graph, order, position, i, [&](int k) {
      for (; row[static_cast<std::size_t>(k)] != i; k = parent[static_cast<std::size_t>(k)]) {
        row[static_cast<std::size_t>(k)] = i;
        height[static_cast<std::size_t>(k)] += weight;
      }
    });
  }
  return height;
}

}  // namespace hoofload::solver::multifrontal
