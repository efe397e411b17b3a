// What an exact pressure is when it is read as the solver reads its own: its means over the linear hats of a chain, Eq. (44).
#pragma once

#include <functional>
#include <vector>

#include "solver/contact_pressure.hpp"

namespace hoofload::tests {

/// Mean of p(x) over each corner's hat, weighted with the measure, by 64 points an edge (p may have a square-root edge).
[[nodiscard]] inline std::vector<double> hat_means(const std::vector<solver::Vec2>& X, const mesh::EdgeSet& chain,
                                                   solver::Symmetry symmetry, const std::function<double(double)>& p) {
  std::vector<double> force(chain.edges.size() + 1, 0.0), weight(chain.edges.size() + 1, 0.0);
  constexpr int points = 64;
  for (std::size_t e = 0; e < chain.edges.size(); ++e) {
    const solver::Vec2 a = X[static_cast<std::size_t>(chain.edges[e].a)],
                       b = X[static_cast<std::size_t>(chain.edges[e].b)];
    for (int i = 0; i < points; ++i) {
      const double t = (i + 0.5) / points;
      const solver::Vec2 at = a + t * (b - a);
      const double w = solver::measure(symmetry, at, 1) * (b - a).norm() / points;
      force[e] += (1 - t) * w * p(at.x());
      force[e + 1] += t * w * p(at.x());
      weight[e] += (1 - t) * w;
      weight[e + 1] += t * w;
    }
  }
  for (std::size_t c = 0; c < force.size(); ++c) force[c] /= weight[c];
  return force;
}

}  // namespace hoofload::tests
