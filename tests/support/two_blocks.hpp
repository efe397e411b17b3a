// Two distorted bodies that meet on a duplicated straight line through the origin, which may be tilted, for tests.
#pragma once

#include "tests/support/single_block.hpp"

namespace hoofload::tests {

struct TwoBlocksShape {
  int nx, ny;
  double x0, x1, depth, height;  ///< extents along and across the line [mm]
  double tilt;                   ///< of the line against x [rad]
  double breadth;
};

struct TwoBlocks {
  mesh::PlaneMesh mesh;
  Grid lower, upper;
  int first_lower = 0, first_upper = 0;
  solver::Model model;

  [[nodiscard]] std::vector<int> lower_bottom() const { return row_nodes(lower, first_lower, false); }
  [[nodiscard]] std::vector<int> lower_top() const { return row_nodes(lower, first_lower, true); }
  [[nodiscard]] std::vector<int> upper_bottom() const { return row_nodes(upper, first_upper, false); }
  [[nodiscard]] std::vector<int> upper_top() const { return row_nodes(upper, first_upper, true); }
  [[nodiscard]] std::vector<int> lower_left() const { return column_nodes(lower, first_lower, false); }
  [[nodiscard]] std::vector<int> upper_left() const { return column_nodes(upper, first_upper, false); }
  [[nodiscard]] std::vector<int> lower_right() const { return column_nodes(lower, first_lower, true); }
  [[nodiscard]] std::vector<int> upper_right() const { return column_nodes(upper, first_upper, true); }
  [[nodiscard]] mesh::EdgeSet slave_line() const { return chain(lower_top(), lower.breadth); }

  void leave_out_first_pair() {
    auto& p = model.pairs[0];
    p.slave.erase(p.slave.begin());
    p.master.erase(p.master.begin());
    p.normal.erase(p.normal.begin());
    p.gap.erase(p.gap.begin());
    p.interference.erase(p.interference.begin());
  }
  /// u_r = 0 on the axis, of nodes not held yet.
  void hold_axis() {
    for (const auto& side : {lower_left(), upper_left()})
      for (int node : side) {
        const int dof = solver::plane_dof(node, 0);
        bool held = false;
        for (const auto& s : model.supports) held = held || s.dof == dof;
        if (!held) model.supports.push_back({dof, 0});
      }
  }
};

/// Block 0 lies below the line (slave), block 1 above it (master); frictionless, closed, no interference.
[[nodiscard]] inline TwoBlocks two_blocks(const TwoBlocksShape& s, solver::Symmetry symmetry,
                                          const materials::Material& low, solver::Formulation low_formulation,
                                          const materials::Material& up, solver::Formulation up_formulation) {
  TwoBlocks b;
  // A tilted body is sheared, not turned, in axisymmetry's sense of keeping its radii: x stays, y follows the line.
  const bool ax = symmetry == solver::Symmetry::axisymmetric;
  const auto placed = [=](const std::function<Vec2(double, double)>& flat) {
    return [=](double u, double v) {
      const Vec2 X = flat(u, v);
      if (ax) return Vec2{X.x(), X.y() + std::tan(s.tilt) * X.x()};
      return Vec2{std::cos(s.tilt) * X.x() - std::sin(s.tilt) * X.y(),
                  std::sin(s.tilt) * X.x() + std::cos(s.tilt) * X.y()};
    };
  };
  b.lower = {s.nx, s.ny, placed(rectangle(s.x0, s.x1, -s.depth, 0, 0.1)), s.breadth};
  b.upper = {s.nx, s.ny, placed(rectangle(s.x0, s.x1, 0, s.height, 0.07)), s.breadth};
  b.first_lower = add_grid(b.mesh, "lower", b.lower);
  b.first_upper = add_grid(b.mesh, "upper", b.upper);
  b.model.symmetry = symmetry;
  b.model.X = b.mesh.X;
  b.model.solids.push_back(solver::make_solid_block(b.mesh, b.mesh.blocks[0], symmetry, low, low_formulation));
  b.model.solids.push_back(solver::make_solid_block(b.mesh, b.mesh.blocks[1], symmetry, up, up_formulation));
  solver::PairContact pair;
  pair.name = "line";
  pair.slave = b.lower_top();
  pair.master = b.upper_bottom();
  pair.normal.assign(pair.slave.size(), Vec2{std::sin(s.tilt), -std::cos(s.tilt)});
  pair.gap.assign(pair.slave.size(), 0.0);
  pair.interference.assign(pair.slave.size(), 0.0);
  b.model.pairs.push_back(std::move(pair));
  return b;
}

}  // namespace hoofload::tests
