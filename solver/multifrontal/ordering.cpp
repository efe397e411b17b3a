#include "solver/multifrontal/ordering.hpp"

#include <Eigen/OrderingMethods>
#include <algorithm>
#include <cstdint>
#include <numeric>
#include <stdexcept>
#include <utility>

namespace hoofload::solver::multifrontal {

namespace {

/// Neighbours of every unknown, itself among them, ascending: compressed rows of the full pattern.
struct Neighbours {
  std::vector<std::size_t> first;
  std::vector<int> list;

  [[nodiscard]] auto begin(std::size_t i) const { return list.begin() + static_cast<std::ptrdiff_t>(first[i]); }
  [[nodiscard]] auto end(std::size_t i) const { return list.begin() + static_cast<std::ptrdiff_t>(first[i + 1]); }
  [[nodiscard]] bool same(std::size_t i, std::size_t j) const { return std::equal(begin(i), end(i), begin(j), end(j)); }
};

void check(const PatternRef& lower) {
  if (lower.rows() != lower.cols()) throw std::invalid_argument("sparse factorisation: the matrix is not square");
  for (int c = 0; c < lower.cols(); ++c) {
    int last = c - 1;
    for (PatternRef::InnerIterator it(lower, c); it; ++it) {
      if (it.row() <= last)
        throw std::invalid_argument("sparse factorisation: expected a lower triangle with ascending rows");
      last = static_cast<int>(it.row());
    }
  }
}

Neighbours neighbours_of(const PatternRef& lower) {
  const auto n = static_cast<std::size_t>(lower.cols());
  Neighbours all;
  all.first.assign(n + 1, 0);
  for (std::size_t c = 0; c < n; ++c) {
    ++all.first[c + 1];
    for (PatternRef::InnerIterator it(lower, static_cast<int>(c)); it; ++it) {
      const auto r = static_cast<std::size_t>(it.row());
      if (r == c) continue;
      ++all.first[r + 1];
      ++all.first[c + 1];
    }
  }
  std::partial_sum(all.first.begin(), all.first.end(), all.first.begin());
  all.list.resize(all.first[n]);
  std::vector<std::size_t> next(all.first.begin(), all.first.end() - 1);
  for (std::size_t c = 0; c < n; ++c) {
    all.list[next[c]++] = static_cast<int>(c);
    for (PatternRef::InnerIterator it(lower, static_cast<int>(c)); it; ++it) {
      const auto r = static_cast<std::size_t>(it.row());
      if (r == c) continue;
      all.list[next[r]++] = static_cast<int>(c);
      all.list[next[c]++] = static_cast<int>(r);
    }
  }
  return all;
}

/// Node of each unknown: first unknown with the same neighbours. A hash finds candidates, a comparison decides.
std::vector<int> representatives(const Neighbours& all) {
  const std::size_t n = all.first.size() - 1;
  std::vector<std::pair<std::uint64_t, int>> keyed(n);
  for (std::size_t i = 0; i < n; ++i) {
    std::uint64_t hash = 0;
    for (auto it = all.begin(i); it != all.end(i); ++it) {
      std::uint64_t x = static_cast<std::uint64_t>(*it) + 0x9e3779b97f4a7c15ULL;
      x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
      hash += x ^ (x >> 27);
    }
    keyed[i] = {hash, static_cast<int>(i)};
  }
  std::sort(keyed.begin(), keyed.end());
  std::vector<int> representative(n);
  for (std::size_t k = 0; k < n; ++k) {
    const int i = keyed[k].second;
    int found = i;
    for (std::size_t j = k; j > 0 && keyed[j - 1].first == keyed[k].first; --j) {
      const int r = representative[static_cast<std::size_t>(keyed[j - 1].second)];
      if (!all.same(static_cast<std::size_t>(r), static_cast<std::size_t>(i))) continue;
      found = r;
      break;
    }
    representative[static_cast<std::size_t>(i)] = found;
  }
  return representative;
}

/// Node of each unknown; leader[node] = its first unknown.
std::vector<int> number_nodes(const std::vector<int>& representative, std::vector<int>& leader) {
  std::vector<int> node(representative.size(), -1);
  for (std::size_t i = 0; i < node.size(); ++i) {
    const auto r = static_cast<std::size_t>(representative[i]);
    if (node[r] < 0) {
      node[r] = static_cast<int>(leader.size());
      leader.push_back(static_cast<int>(r));
    }
    node[i] = node[r];
  }
  return node;
}

void list_unknowns(const std::vector<int>& node, std::size_t nodes, NodeGraph& graph) {
  graph.first_unknown.assign(nodes + 1, 0);
  for (int k : node) ++graph.first_unknown[static_cast<std::size_t>(k) + 1];
  std::partial_sum(graph.first_unknown.begin(), graph.first_unknown.end(), graph.first_unknown.begin());
  graph.unknown.resize(node.size());
  std::vector<int> next(graph.first_unknown.begin(), graph.first_unknown.end() - 1);
  for (std::size_t i = 0; i < node.size(); ++i)
    graph.unknown[static_cast<std::size_t>(next[static_cast<std::size_t>(node[i])]++)] = static_cast<int>(i);
}

}  // namespace

NodeGraph compress(const PatternRef& lower) {
  check(lower);
  const Neighbours all = neighbours_of(lower);
  std::vector<int> leader;
  const std::vector<int> node = number_nodes(representatives(all), leader);
  NodeGraph graph;
  list_unknowns(node, leader.size(), graph);
  graph.first_neighbour.push_back(0);
  std::vector<int> seen(leader.size(), -1);
  for (std::size_t k = 0; k < leader.size(); ++k) {
    seen[k] = static_cast<int>(k);
    const auto i = static_cast<std::size_t>(leader[k]);
    for (auto it = all.begin(i); it != all.end(i); ++it) {
      const auto other = static_cast<std::size_t>(node[static_cast<std::size_t>(*it)]);
      if (seen[other] == static_cast<int>(k)) continue;
      seen[other] = static_cast<int>(k);
      graph.neighbour.push_back(static_cast<int>(other));
    }
    graph.first_neighbour.push_back(static_cast<int>(graph.neighbour.size()));
  }
  return graph;
}

std::vector<int> minimum_degree_order(const NodeGraph& graph) {
  std::vector<Eigen::Triplet<double>> entries;
  for (int k = 0; k < graph.size(); ++k) {
    entries.emplace_back(k, k, 1.0);
    const auto at = static_cast<std::size_t>(k);
    for (int p = graph.first_neighbour[at]; p < graph.first_neighbour[at + 1]; ++p)
      entries.emplace_back(graph.neighbour[static_cast<std::size_t>(p)], k, 1.0);
  }
  SparseMatrix pattern(graph.size(), graph.size());
  pattern.setFromTriplets(entries.begin(), entries.end());
  Eigen::AMDOrdering<int>::PermutationType permutation;
  Eigen::AMDOrdering<int>()(pattern, permutation);
  const auto& order = permutation.indices();
  return {order.data(), order.data() + order.size()};
}

}  // namespace hoofload::solver::multifrontal
