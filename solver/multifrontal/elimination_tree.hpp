// Elimination tree of an ordered graph: parent(k) is the first position that k's column of L reaches (Liu 1990; Davis
// 2006, chapter 4). Positions count in elimination order.
#pragma once

#include <vector>

#include "solver/multifrontal/ordering.hpp"

namespace hoofload::solver::multifrontal {

/// parent[k] of each position, -1 at a root. order[k] = node at position k.
[[nodiscard]] std::vector<int> elimination_tree(const NodeGraph& graph, const std::vector<int>& order);

/// The same elimination with every subtree consecutive: permutes `order` and `parent`; the fill stays as it was.
void sort_by_postorder(std::vector<int>& order, std::vector<int>& parent);

/// Rows (in unknowns, own ones included) of each position's column of L.
[[nodiscard]] std::vector<int> column_heights(const NodeGraph& graph, const std::vector<int>& order,
                                              const std::vector<int>& parent);

/// position[node] of an order.
[[nodiscard]] std::vector<int> positions(const std::vector<int>& order);

}  // namespace hoofload::solver::multifrontal
