#include "solver/scatter_pattern.hpp"

#include <algorithm>
#include <utility>
#include <cstddef>
#include <vector>

namespace hoofload::solver {

namespace {

struct Mention {
  int coupling, position;
};

/// Mentions of each unknown, one list after the other; `first` has one past the end.
struct Mentions {
  std::vector<std::size_t> first;
  std::vector<Mention> all;

  [[nodiscard]] std::span<const Mention> of(int unknown) const {
    const auto u = static_cast<std::size_t>(unknown);
    return {all.data() + first[u], first[u + 1] - first[u]};
  }
};

Mentions mentions_of(int n, std::span<const Coupling> couplings) {
  Mentions m;
  m.first.assign(static_cast<std::size_t>(n) + 1, 0);
  for (const Coupling& c : couplings)
    for (int u : c.unknowns) ++m.first[static_cast<std::size_t>(u) + 1];
  for (std::size_t u = 0; u < static_cast<std::size_t>(n); ++u) m.first[u + 1] += m.first[u];
  m.all.resize(m.first.back());
  std::vector<std::size_t> next(m.first.begin(), m.first.end() - 1);
  for (std::size_t k = 0; k < couplings.size(); ++k)
    for (std::size_t a = 0; a < couplings[k].unknowns.size(); ++a)
      m.all[next[static_cast<std::size_t>(couplings[k].unknowns[a])]++] = {static_cast<int>(k), static_cast<int>(a)};
  return m;
}

/// Index of the pair (a, b) in a triangle of m, packed by columns.
std::size_t packed(std::size_t a, std::size_t b, std::size_t m) {
  const std::size_t row = std::max(a, b), column = std::min(a, b);
  return column * m - column * (column + 1) / 2 + row;
}

}  // namespace

LowerPattern lower_pattern(int n, std::span<const Coupling> couplings) {
  const Mentions mentions = mentions_of(n, couplings);
  std::vector<int> inner, rows, outer{0};
  std::vector<int> seen_in(static_cast<std::size_t>(n), -1), place(static_cast<std::size_t>(n), 0);
  for (int column = 0; column < n; ++column) {
    rows.assign(1, column);
    for (const auto& [k, b] : mentions.of(column))
      for (int u : couplings[static_cast<std::size_t>(k)].unknowns)
        if (u > column && seen_in[static_cast<std::size_t>(u)] != column) {
          seen_in[static_cast<std::size_t>(u)] = column;
          rows.push_back(u);
        }
    std::sort(rows.begin(), rows.end());
    for (int row : rows) {
      place[static_cast<std::size_t>(row)] = static_cast<int>(inner.size());
      inner.push_back(row);
    }
    outer.push_back(static_cast<int>(inner.size()));
    for (const auto& [k, b] : mentions.of(column)) {
      const Coupling& c = couplings[static_cast<std::size_t>(k)];
      if (c.places == nullptr) continue;
      const std::size_t m = c.unknowns.size();
      for (std::size_t a = 0; a < m; ++a)
        if (c.unknowns[a] >= column)
          c.places[packed(a, static_cast<std::size_t>(b), m)] = place[static_cast<std::size_t>(c.unknowns[a])];
    }
  }
  inner.shrink_to_fit();
  return {n, std::move(outer), std::move(inner)};
}

}  // namespace hoofload::solver
