// Two rings, or a core and a ring, that meet on a duplicated line, for tests.
#pragma once

#include "solver/contact_pressure.hpp"
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/rings.hpp"

namespace hoofload::tests {

struct Fit {
  mesh::PlaneMesh mesh;
  Grid inner, outer;
  int first_inner = 0, first_outer = 0;
  Model model;

  [[nodiscard]] std::vector<int> slave() const { return column_nodes(outer, first_outer, false); }
  [[nodiscard]] std::vector<int> master() const { return column_nodes(inner, first_inner, true); }
};

struct RingMaterial {
  materials::Material material;
  Formulation formulation;
};

/// Outer line of `inner` and inner line of `outer` are the pair (slave outside); `interference` is their overlap.
[[nodiscard]] inline Fit rings(const Grid& inner, const Grid& outer, Symmetry symmetry, const RingMaterial& in,
                               const RingMaterial& out, double interference) {
  Fit f;
  f.inner = inner;
  f.outer = outer;
  f.first_inner = add_grid(f.mesh, "inner", inner, true);
  f.first_outer = add_grid(f.mesh, "outer", outer, true);
  snap_to_axes(f.mesh);
  f.model.symmetry = symmetry;
  f.model.X = f.mesh.X;
  f.model.solids.push_back(make_solid_block(f.mesh, f.mesh.blocks[0], symmetry, in.material, in.formulation));
  f.model.solids.push_back(make_solid_block(f.mesh, f.mesh.blocks[1], symmetry, out.material, out.formulation));
  PairContact pair;
  pair.name = "fit";
  pair.slave = f.slave();
  pair.master = f.master();
  for (int node : pair.slave) {
    const Vec2& X = f.mesh.X[static_cast<std::size_t>(node)];
    pair.normal.push_back(symmetry == Symmetry::axisymmetric ? Vec2(1, 0) : Vec2(X.normalized()));
  }
  pair.gap.assign(pair.slave.size(), 0.0);
  pair.interference.assign(pair.slave.size(), interference);
  f.model.pairs.push_back(std::move(pair));
  return f;
}

/// Holds a row (bottom or top) at `value` in one component; the slave node follows by a zero tangential jump (unknown 2i + 1).
inline void hold_line(Fit& f, bool top, int component, double value = 0) {
  const auto at = [=](const Vec2&) { return Vec2(value, value); };
  hold(f.model, row_nodes(f.inner, f.first_inner, top), at, {component});
  std::vector<int> outer = row_nodes(f.outer, f.first_outer, top);
  f.model.supports.push_back({plane_dof(outer.front(), 1), 0});
  outer.erase(outer.begin());
  hold(f.model, outer, at, {component});
}

}  // namespace hoofload::tests
