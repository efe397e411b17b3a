// A soft and a stiffer block, the lower one slave of a pair, standing on the ground under an upper one held on top; for
// tests of balance and invariance.
#pragma once

#include "tests/support/equilibrium.hpp"
#include "tests/support/two_blocks.hpp"

namespace hoofload::tests {

struct Stack {
  TwoBlocks blocks;
  Model model;
};

/// Lower block law A (mu 1, kappa 50), upper law B; `unit` scales stresses, `shape` maps places. A soft spring guides the
/// lower block sideways, which nothing else does without friction.
[[nodiscard]] inline Stack standing_stack(
    double friction, double unit = 1, const std::function<Vec2(const Vec2&)>& shape = [](const Vec2& X) { return X; }) {
  Stack s{
      two_blocks({6, 3, -6, 6, 4, 4, 0, 3}, Symmetry::plane_strain, materials::NeoHooke{1 * unit, 50 * unit},
                 Formulation::mixed, materials::CompressibleNeoHooke{20 * unit, 30 * unit}, Formulation::displacement),
      {}};
  // A slanted cut: nothing is symmetric by accident.
  for (auto& X : s.blocks.mesh.X) X = shape(Vec2{X.x() + 0.1 * X.y(), X.y() + 0.02 * X.x()});
  s.model = s.blocks.model;
  s.model.X = s.blocks.mesh.X;
  for (std::size_t k = 0; k < 2; ++k)
    s.model.solids[k] = make_solid_block(s.blocks.mesh, s.blocks.mesh.blocks[k], Symmetry::plane_strain,
                                         s.blocks.model.solids[k].material, s.blocks.model.solids[k].formulation);
  auto& pair = s.model.pairs[0];
  const Vec2 along =
      s.model.X[static_cast<std::size_t>(pair.slave.back())] - s.model.X[static_cast<std::size_t>(pair.slave.front())];
  Vec2 normal = Vec2(along.y(), -along.x()).normalized();
  if (normal.y() > 0) normal = -normal;
  pair.normal.assign(pair.slave.size(), normal);
  pair.friction = friction;
  s.model.ground.joint = shape({1, 6});
  s.model.ground.nodes = s.blocks.lower_bottom();
  s.model.ground.friction.assign(s.model.ground.nodes.size(), friction);
  Spring guide;
  const std::vector<int> side = s.blocks.lower_left();  // without its ends, which touch the ground and the upper block
  for (std::size_t i = 1; i + 1 < side.size(); ++i)
    guide.measure.push_back({plane_dof(side[i], 0), 1.0 / static_cast<double>(side.size() - 2)});
  guide.law = TwoSided{5 * unit, 0};
  s.model.springs.push_back({"guide", {guide}});
  for (int node : s.blocks.upper_top())
    for (int c = 0; c < 2; ++c) s.model.supports.push_back({plane_dof(node, c), 0});
  return s;
}

struct Standing {
  std::shared_ptr<System> system;
  State state;
  SolveReport report;
  Eigen::VectorXd x, g;

  [[nodiscard]] bool converged() const { return report.outcome == Outcome::converged; }
};

/// Ground at `pitch`, pushed in by 0.05 at first, then loaded up to (normal, tangential) in equal steps.
[[nodiscard]] inline Standing stand_on_ground(const Model& model, double normal, double tangential, double pitch,
                                              int steps, const NewtonOptions& options = {}) {
  Standing out;
  out.system = std::make_shared<System>(model);
  Newton newton(*out.system);
  out.state = out.system->rest_state(0, 0);
  const double touch = out.system->touching_distance(out.state, pitch);
  out.system->place_ground(out.state, touch, 0, pitch);
  Loading loading;
  loading.hold_offset = 0;
  loading.hold_pitch = pitch;
  loading.hold_distance = touch - 0.05;
  out.report = newton.solve(out.state, loading, options);
  loading.hold_distance.reset();
  for (int k = 1; k <= steps && out.converged(); ++k) {
    loading.normal_force = normal * k / steps;
    loading.tangential_force = tangential * k / steps;
    if (tangential != 0) loading.hold_offset.reset();
    out.report = newton.solve(out.state, loading, options);
  }
  out.x = out.system->displacements(out.state);
  out.g = newton.reactions();
  return out;
}

}  // namespace hoofload::tests
