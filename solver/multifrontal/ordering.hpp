// Elimination order of a sparse symmetric matrix: unknowns with the same neighbours form one node, and the nodes are
// ordered by approximate minimum degree (Amestoy, Davis, Duff 1996, as in Eigen).
#pragma once

#include <Eigen/SparseCore>
#include <vector>

namespace hoofload::solver::multifrontal {

using SparseMatrix = Eigen::SparseMatrix<double, Eigen::ColMajor, int>;
using PatternRef = Eigen::Ref<const SparseMatrix>;  ///< of which no value is read

/// Undirected graph of nodes; a node is a group of unknowns that depend on each other and on the same others.
struct NodeGraph {
  std::vector<int> first_unknown;    ///< per node, one past the end
  std::vector<int> unknown;          ///< unknowns of each node, ascending
  std::vector<int> first_neighbour;  ///< per node, one past the end
  std::vector<int> neighbour;        ///< the other nodes it depends on

  [[nodiscard]] int size() const { return static_cast<int>(first_unknown.size()) - 1; }
  [[nodiscard]] int weight(int node) const {
    return first_unknown[static_cast<std::size_t>(node) + 1] - first_unknown[static_cast<std::size_t>(node)];
  }
};

/// Graph of a lower triangle (n x n, rows of a column ascending). Throws std::invalid_argument if it is not one.
[[nodiscard]] NodeGraph compress(const PatternRef& lower);

/// order[k] = node eliminated k-th, chosen for little fill.
[[nodiscard]] std::vector<int> minimum_degree_order(const NodeGraph& graph);

}  // namespace hoofload::solver::multifrontal
