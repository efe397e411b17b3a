// Consistent nodal loads of a traction on a chain of edges, and supports of node lists, for tests.
#pragma once

#include <algorithm>
#include <functional>
#include <vector>

#include "mesh/tri_shapes.hpp"
#include "solver/model.hpp"

namespace hoofload::tests {

using solver::Model;
using solver::Vec2;

/// f_a = int N_a t(X, n) m ds with t [MPa] from place and outward normal (the body lies left of the chain), per breadth.
inline void add_traction(Model& model, const mesh::EdgeSet& chain,
                         const std::function<Vec2(const Vec2&, const Vec2&)>& traction) {
  for (std::size_t e = 0; e < chain.edges.size(); ++e) {
    const std::array<int, 3> id{chain.edges[e].a, chain.edges[e].b, chain.edges[e].mid};
    for (const auto& q : mesh::line_rule<3>) {
      const auto N = mesh::Line3::N(q.s);
      const auto dN = mesh::Line3::dN(q.s);
      Vec2 X = Vec2::Zero(), T = Vec2::Zero();
      double breadth = 0;
      for (std::size_t i = 0; i < 3; ++i) {
        const auto k = static_cast<Eigen::Index>(i);
        X += N[k] * model.X[static_cast<std::size_t>(id[i])];
        T += dN[k] * model.X[static_cast<std::size_t>(id[i])];
        breadth += N[k] * chain.breadth[e][i];
      }
      const double ds = T.norm();
      const Vec2 t = traction(X, Vec2{T.y(), -T.x()} / ds);
      const double w = q.weight * ds * solver::measure(model.symmetry, X, breadth);
      for (std::size_t i = 0; i < 3; ++i)
        for (int c = 0; c < 2; ++c)
          model.dead_loads.push_back({solver::plane_dof(id[i], c), w * N[static_cast<Eigen::Index>(i)] * t[c]});
    }
  }
}

inline void add_pressure(Model& model, const mesh::EdgeSet& chain, double p) {
  add_traction(model, chain, [p](const Vec2&, const Vec2& n) { return Vec2(-p * n); });
}

/// Prescribes u(X) at both components of some nodes; a dof held before is left alone.
inline void hold(Model& model, const std::vector<int>& nodes, const std::function<Vec2(const Vec2&)>& u,
                 const std::vector<int>& components = {0, 1}) {
  for (int node : nodes)
    for (int c : components) {
      const int dof = solver::plane_dof(node, c);
      const bool held =
          std::any_of(model.supports.begin(), model.supports.end(), [&](const auto& s) { return s.dof == dof; });
      if (!held) model.supports.push_back({dof, u(model.X[static_cast<std::size_t>(node)])[c]});
    }
}

inline void fix(Model& model, const std::vector<int>& nodes, int component) {
  hold(model, nodes, [](const Vec2&) { return Vec2(0, 0); }, {component});
}

inline std::vector<int> reversed(std::vector<int> nodes) {
  std::reverse(nodes.begin(), nodes.end());
  return nodes;
}

}  // namespace hoofload::tests
