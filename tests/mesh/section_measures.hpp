// Integrals over section meshes, for tests: areas, volumes of revolution, breadth integrals.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "mesh/plane_mesh.hpp"
#include "mesh/tri_shapes.hpp"

namespace hoofload::mesh::measures {

/// Integral over the blocks of a region of weight(x, breadth) dA.
template <class Weight>
double integral(const PlaneMesh& m, const std::string& region, Weight weight) {
  double sum = 0;
  for (const Block& block : m.blocks) {
    if (block.region != region) continue;
    for (std::size_t e = 0; e < block.tri.size(); ++e)
      for (const TriPoint& p : triangle_rule<12>) {
        const Tri6::Values n = Tri6::N(p.xi, p.eta);
        const Tri6::Gradients g = Tri6::dN(p.xi, p.eta);
        Vec2 x = Vec2::Zero();
        Eigen::Matrix2d j = Eigen::Matrix2d::Zero();
        double breadth = 0;
        for (int i = 0; i < 6; ++i) {
          const auto k = static_cast<std::size_t>(i);
          const Vec2& X = m.X[static_cast<std::size_t>(block.tri[e][k])];
          x += n[i] * X, j += X * g.row(i), breadth += n[i] * block.breadth[e][k];
        }
        sum += p.weight * (j(0, 0) * j(1, 1) - j(0, 1) * j(1, 0)) * weight(x, breadth);
      }
  }
  return sum;
}

inline double revolved(const PlaneMesh& m, const std::string& region) {
  return integral(m, region, [](const Vec2& x, double) { return 2 * std::numbers::pi * x.x(); });
}

inline double broad(const PlaneMesh& m, const std::string& region) {
  return integral(m, region, [](const Vec2&, double b) { return b; });
}

/// Composite Gauss integral of f over [a, b].
template <class F>
double along(double a, double b, F f, int parts = 4000) {
  double sum = 0;
  for (int k = 0; k < parts; ++k)
    for (const LinePoint& p : line_rule<3>) sum += 0.5 * p.weight * f(a + (b - a) * (k + 0.5 + 0.5 * p.s) / parts);
  return sum * (b - a) / parts;
}

/// Largest distance of the two nodes of any pair of an interface.
inline double widest_gap(const PlaneMesh& m, const std::string& interface) {
  double widest = 0;
  for (const NodePair& p : m.pairs.at(interface))
    widest =
        std::max(widest, (m.X[static_cast<std::size_t>(p.slave)] - m.X[static_cast<std::size_t>(p.master)]).norm());
  return widest;
}

inline bool same_topology(const PlaneMesh& a, const PlaneMesh& b) {
  if (a.X.size() != b.X.size() || a.blocks.size() != b.blocks.size() || a.pairs.size() != b.pairs.size()) return false;
  for (std::size_t k = 0; k < a.blocks.size(); ++k)
    if (a.blocks[k].region != b.blocks[k].region || a.blocks[k].tri != b.blocks[k].tri) return false;
  for (const auto& [name, list] : a.pairs) {
    const auto& other = b.pairs.at(name);
    if (list.size() != other.size()) return false;
    for (std::size_t k = 0; k < list.size(); ++k)
      if (list[k].slave != other[k].slave || list[k].master != other[k].master) return false;
  }
  return true;
}

inline bool same_bits(const PlaneMesh& a, const PlaneMesh& b) {
  if (!same_topology(a, b)) return false;
  for (std::size_t k = 0; k < a.X.size(); ++k)
    if (a.X[k] != b.X[k]) return false;
  for (std::size_t k = 0; k < a.blocks.size(); ++k)
    if (a.blocks[k].breadth != b.blocks[k].breadth) return false;
  return true;
}

/// Every node belongs to a triangle, every edge of every set is an edge of a triangle walked counter-clockwise.
inline bool consistent(const PlaneMesh& m) {
  std::vector<char> used(m.X.size(), 0);
  std::vector<std::array<int, 3>> sides;
  for (const Block& block : m.blocks)
    for (const auto& t : block.tri) {
      for (const int id : t) used[static_cast<std::size_t>(id)] = 1;
      sides.push_back({t[0], t[1], t[3]}), sides.push_back({t[1], t[2], t[4]}), sides.push_back({t[2], t[0], t[5]});
    }
  std::sort(sides.begin(), sides.end());
  for (const auto& [name, set] : m.edges)
    for (const Edge& e : set.edges)
      if (!std::binary_search(sides.begin(), sides.end(), std::array<int, 3>{e.a, e.b, e.mid})) return false;
  return std::all_of(used.begin(), used.end(), [](char u) { return u != 0; });
}

}  // namespace hoofload::mesh::measures
