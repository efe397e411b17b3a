// One call from a model to its equilibrium, for tests: ramps supports, dead loads and fit-up in equal steps.
#pragma once

#include <gtest/gtest.h>

#include <Eigen/Geometry>
#include <memory>
#include <numbers>

#include "solver/newton.hpp"

namespace hoofload::tests {

using namespace hoofload::solver;

struct Solved {
  std::shared_ptr<System> system;
  State state;
  Loading loading;
  SolveReport report;
  Eigen::VectorXd x;          ///< displacements of all full dofs
  Eigen::VectorXd reactions;  ///< dPi/dq
  int iterations = 0;         ///< over all steps

  [[nodiscard]] Vec2 u(int node) const { return x.segment<2>(plane_dof(node, 0)); }
  [[nodiscard]] bool converged() const { return report.outcome == Outcome::converged; }
};

/// A ground that takes no part: held at rest.
[[nodiscard]] inline Loading no_ground() {
  Loading loading;
  loading.hold_distance = loading.hold_offset = loading.hold_pitch = 0;
  return loading;
}

/// Tight, for claims of exactness. Not tighter: F = I + H rounds strain to 1e-16, stress to 1e-16 times the bulk modulus, so
/// such tests also load linear bodies to large strain.
[[nodiscard]] inline NewtonOptions tight() {
  NewtonOptions options;
  options.tolerance = 1e-11;
  return options;
}

/// Solves in `steps` equal steps from rest. Supports of plane, non-contact dofs and dead loads scale with the step;
/// `start` places the ground. A failed step stops the walk and is reported.
/// `touching`: all contacts start closed, for bodies that nothing else holds.
enum class Start { open, touching };
[[nodiscard]] inline Solved equilibrium(const Model& model, Loading loading, int steps = 1, NewtonOptions options = {},
                                        double start_distance = 0, Start start = Start::open) {
  Solved out;
  for (int k = 1; k <= steps; ++k) {
    const double share = static_cast<double>(k) / steps;
    Model scaled = model;
    for (auto& s : scaled.supports) s.value *= share;
    for (auto& load : scaled.dead_loads) load.force *= share;
    out.system = std::make_shared<System>(scaled);
    if (k == 1) {
      out.state = out.system->rest_state(start_distance, 0);
      if (start == Start::touching)
        for (auto& c : out.state.contact) c.closed = true;
    }
    out.loading = loading;
    out.loading.ramp = loading.ramp * share;
    Newton newton(*out.system);
    out.report = newton.solve(out.state, out.loading, options);
    out.reactions = newton.reactions();
    out.iterations += out.report.iterations;
    if (!out.converged()) break;
  }
  out.x = out.system->displacements(out.state);
  return out;
}

/// Sum of one component of the reactions of some plain nodes [N].
[[nodiscard]] inline double reaction(const Solved& solved, const std::vector<int>& nodes, int component) {
  double sum = 0;
  for (int node : nodes) sum += solved.reactions[plane_dof(node, component)];
  return sum;
}

/// Normal contact forces by plane node (slave or ground) [N]; zero elsewhere.
[[nodiscard]] inline std::vector<double> contact_forces(const Solved& solved) {
  std::vector<double> force(solved.system->model().X.size(), 0.0);
  for (const auto& p : solved.system->contact_points())
    force[static_cast<std::size_t>(p.normal / 2)] = solved.reactions[p.normal];
  return force;
}

}  // namespace hoofload::tests
