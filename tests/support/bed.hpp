// A rigid base on a bed of springs against the ground plane: a thin layer with nu = 0 fixed above, ground below, for tests.
// Its stiffness per area is E / t; layer shear spreads an edge by about t.
#pragma once

#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/single_block.hpp"

namespace hoofload::tests {

struct Bed {
  BlockModel block;
  double stiffness;  ///< k [N/mm^3]
};

/// Base from x0 to x1 at height t, joint C, n cells along. The ground touches at d = C.y.
[[nodiscard]] inline Bed bed(double x0, double x1, double t, double k, const Vec2& joint, int n, double friction) {
  Bed b{one_block({n, 1, rectangle(x0, x1, 0, t), 1}, Symmetry::plane_strain, materials::LinearIsotropic{k * t, 0.0},
                  Formulation::displacement),
        k};
  fix(b.block.model, b.block.top(), 0);
  fix(b.block.model, b.block.top(), 1);
  b.block.model.ground.joint = joint;
  b.block.model.ground.nodes = b.block.bottom();
  b.block.model.ground.friction.assign(b.block.model.ground.nodes.size(), friction);
  return b;
}

/// Two steps from the touch: the ground is first pushed in by a prescribed way, then carries the loading.
[[nodiscard]] inline Solved stand(const Model& model, const Loading& loading, double push) {
  Solved out;
  out.system = std::make_shared<System>(model);
  Newton newton(*out.system);
  const double theta = loading.hold_pitch.value_or(0);
  out.state = out.system->rest_state(model.ground.joint.y(), 0);
  const double touch = out.system->touching_distance(out.state, theta);
  out.system->place_ground(out.state, touch, 0, theta);
  Loading first = loading;
  first.cable.reset();
  first.normal_force = first.tangential_force = 0;
  first.hold_distance = touch - push;
  first.hold_offset = 0;
  first.hold_pitch = theta;
  out.report = newton.solve(out.state, first);
  if (out.converged()) {
    out.loading = loading;
    out.report = newton.solve(out.state, loading);
    out.iterations = out.report.iterations;
  }
  out.reactions = newton.reactions();
  out.x = out.system->displacements(out.state);
  return out;
}

struct GroundResult {
  double force = 0, moment = 0, centre = 0;  ///< sum lambda [N], sum lambda tau [N mm], their ratio [mm]
  double loaded = 0;                         ///< share of the chain with force
};
[[nodiscard]] inline GroundResult ground_result(const Solved& solved) {
  GroundResult g;
  int loaded = 0;
  const auto& ground = solved.system->model().ground;
  for (int node : ground.nodes) {
    const double lambda = solved.reactions[plane_dof(node, 0)];
    g.force += lambda;
    g.moment += lambda * solved.state.q[plane_dof(node, 1)];
  }
  for (int node : ground.nodes) {
    const double lambda = solved.reactions[plane_dof(node, 0)];
    if (lambda > 1e-9 * g.force) ++loaded;  // an open node's force is round-off
  }
  g.centre = g.moment / g.force;
  g.loaded = static_cast<double>(loaded) / static_cast<double>(ground.nodes.size());
  return g;
}

}  // namespace hoofload::tests
