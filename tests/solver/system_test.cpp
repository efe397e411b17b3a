// The discrete system against finite differences, and small equilibria whose answer is known.
#include "solver/system.hpp"

#include <gtest/gtest.h>

#include <random>

#include "solver/newton.hpp"
#include "tests/support/block_mesh.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::solver;
using tests::Grid;

/// Two soft blocks, the lower one slave of a frictional pair on the upper one and standing on the ground; one mixed.
Model two_blocks_on_ground(Symmetry symmetry, double x0, Bond bond, double friction) {
  mesh::PlaneMesh mesh;
  const Grid upper{3, 2, tests::rectangle(x0, x0 + 10, 4, 8, 0.05), 3};
  const Grid lower{3, 2, tests::rectangle(x0, x0 + 10, 0, 4, 0.05), 3};
  const int a = tests::add_grid(mesh, "upper", upper), b = tests::add_grid(mesh, "lower", lower);
  Model model;
  model.symmetry = symmetry;
  model.X = mesh.X;
  model.solids.push_back(make_solid_block(mesh, mesh.blocks[0], symmetry, materials::SaintVenantKirchhoff{50, 0.3},
                                          Formulation::displacement));
  model.solids.push_back(
      make_solid_block(mesh, mesh.blocks[1], symmetry, materials::NeoHooke{1.0, 300.0}, Formulation::mixed));
  PairContact pair;
  pair.name = "interface";
  pair.bond = bond;
  pair.friction = friction;
  pair.slave = tests::row_nodes(lower, b, true);
  pair.master = tests::row_nodes(upper, a, false);
  pair.normal.assign(pair.slave.size(), Vec2{0, -1});
  pair.gap.assign(pair.slave.size(), 0.0);
  pair.interference.assign(pair.slave.size(), 0.0);
  model.pairs.push_back(pair);
  model.ground.joint = {x0 + 3, 12};
  model.ground.nodes = tests::row_nodes(lower, b, false);
  model.ground.friction.assign(model.ground.nodes.size(), 0.0);
  for (int node : tests::row_nodes(upper, a, true))
    for (int c = 0; c < 2; ++c) model.supports.push_back({plane_dof(node, c)});
  if (symmetry == Symmetry::axisymmetric) return model;
  model.springs.push_back(
      {"post", {{{{plane_dof(model.ground.nodes[2], 1), 1.0}, {plane_dof(a, 1), -1.0}}, 0.0, TwoSided{20, 0}, 1.5}}});
  return model;
}

State random_state(const System& system, unsigned seed) {
  State state = system.rest_state(12.2, 0.03);
  std::mt19937 rng(seed);
  std::uniform_real_distribution<double> u(-0.05, 0.05);
  for (auto& v : state.q) v += u(rng);
  for (auto& m : state.mixed) {
    m.bubble = {u(rng), u(rng)};
    m.pressure = {u(rng), u(rng), u(rng)};
  }
  return state;
}

class Derivatives : public ::testing::TestWithParam<Symmetry> {};

// Common practice, no source: central differences of the condensed energy are not available, so the bubble is put at
// rest first (fb = 0) where the condensed gradient is the plain one.
TEST_P(Derivatives, hessian_is_the_derivative_of_the_gradient) {
  const System system(
      two_blocks_on_ground(GetParam(), GetParam() == Symmetry::axisymmetric ? 5.0 : 0.0, Bond::contact, 0.3));
  State state = random_state(system, 3);
  Loading loading;
  loading.normal_force = 7;
  loading.tangential_force = 1.5;
  Cable cable;
  cable.insertion = {2, 3};
  cable.pulley = {-2, 6};
  cable.radius = 1.5;
  cable.joint = system.model().ground.joint;
  cable.arm = {-6, 9};
  cable.stiffness = 4;
  cable.slack_length = 10;
  loading.cable = cable;
  // Newton on the internals alone: q held, so each advance with dq = 0 moves only bubbles and pressures.
  Assembly assembly;
  std::vector<MixedRecovery> recovery;
  const auto settle = [&](State s) {
    for (int i = 0; i < 12; ++i) {
      system.assemble(s, loading, assembly, recovery);
      s = system.advance(s, Eigen::VectorXd::Zero(s.q.size()), 1.0, recovery);
    }
    system.assemble(s, loading, assembly, recovery);
    return s;
  };
  state = settle(state);
  const Eigen::MatrixXd K = Eigen::MatrixXd(system.hessian(assembly)).selfadjointView<Eigen::Lower>();
  std::mt19937 rng(5);
  std::normal_distribution<double> normal;
  const double eps = 1e-5;
  for (int trial = 0; trial < 4; ++trial) {
    Eigen::VectorXd v(state.q.size());
    for (auto& x : v) x = normal(rng);
    State plus = state, minus = state;
    plus.q += eps * v;
    minus.q -= eps * v;
    settle(plus);
    const Eigen::VectorXd g_plus = assembly.gradient;
    const double e_plus = assembly.energy;
    settle(minus);
    const Eigen::VectorXd g_minus = assembly.gradient;
    const double e_minus = assembly.energy;
    settle(state);
    EXPECT_LT((K * v - (g_plus - g_minus) / (2 * eps)).norm(), 1e-6 * (K * v).norm());
    EXPECT_NEAR(assembly.gradient.dot(v), (e_plus - e_minus) / (2 * eps),
                1e-5 * std::abs(assembly.gradient.dot(v)) + 1e-6);
  }
}

INSTANTIATE_TEST_SUITE_P(BothSymmetries, Derivatives,
                         ::testing::Values(Symmetry::plane_strain, Symmetry::axisymmetric));

// Common practice, no source: statics of a body on a plane.
TEST(GroundEquilibrium, reaction_equals_the_applied_load_and_the_moments_agree) {
  const System system(two_blocks_on_ground(Symmetry::plane_strain, 0, Bond::contact, 0.4));
  Newton newton(system);
  State state = system.rest_state(12, 0);
  system.place_ground(state, system.touching_distance(state, 0), 0, 0);
  Loading loading;
  loading.hold_offset = 0;
  loading.hold_pitch = 0;
  loading.hold_distance = state.q[ground_dof(system.model(), 0)] - 0.1;
  auto report = newton.solve(state, loading);
  ASSERT_EQ(report.outcome, Outcome::converged) << report.residual;
  loading.hold_distance.reset();
  loading.normal_force = 9;
  report = newton.solve(state, loading);
  ASSERT_EQ(report.outcome, Outcome::converged) << describe(report.outcome) << report.residual;
  double reaction = 0, moment = 0;
  const auto& g = newton.reactions();
  for (int node : system.model().ground.nodes) {
    const double lambda = g[plane_dof(node, 0)];
    EXPECT_GE(lambda, -1e-9);
    reaction += lambda;
    moment += lambda * state.q[plane_dof(node, 1)];
  }
  EXPECT_NEAR(reaction, 9, 9e-8);
  EXPECT_NEAR(moment, g[ground_dof(system.model(), 2)], 1e-7 * std::abs(moment));
}

}  // namespace
