// Balance and invariance: what must hold for any model (Newton's laws, and common practice for the rest, no source).
#include "tests/support/record.hpp"
#include "tests/support/standing_stack.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

/// Force of body b alone on its nodes.
Eigen::VectorXd body_forces(const Standing& s, std::size_t b) {
  Model model = s.system->model();
  model.solids = {model.solids[b]};
  model.springs.clear();
  const System alone(model);
  State state = s.state;
  const auto& source = s.system->model().solids[b];
  if (source.formulation == Formulation::mixed)
    state.mixed.assign(s.state.mixed.begin() + source.first_state,
                       s.state.mixed.begin() + source.first_state + static_cast<long>(source.nodes.size()));
  else
    state.mixed.clear();
  state.spring_bounds.clear();
  return alone.internal_forces(state, {});
}

struct Wrench {
  Vec2 force = Vec2::Zero();
  double moment = 0, size = 0;
};
Wrench wrench(const Standing& s, const Eigen::VectorXd& f, const std::vector<int>& nodes) {
  Wrench w;
  for (int node : nodes) {
    const Vec2 p = s.system->model().X[static_cast<std::size_t>(node)] + s.x.segment<2>(plane_dof(node, 0));
    const Vec2 force = f.segment<2>(plane_dof(node, 0));
    w.force += force;
    w.moment += p.x() * force.y() - p.y() * force.x();
    w.size += force.norm();
  }
  return w;
}

std::vector<int> all_nodes(const Standing& s) {
  std::vector<int> nodes;
  for (std::size_t i = 0; i < s.system->model().X.size(); ++i) nodes.push_back(static_cast<int>(i));
  return nodes;
}

class Balance : public ::testing::TestWithParam<double> {};  // coefficient of friction

TEST_P(Balance, ground_reaction_equals_the_load_and_the_moment_rows_agree) {
  const auto stack = standing_stack(GetParam());
  const Standing s = stand_on_ground(stack.model, 6, GetParam() > 0 ? 1.0 : 0.0, 0.04, 4);
  ASSERT_TRUE(s.converged()) << describe(s.report.outcome);
  const int g0 = ground_dof(stack.model, 0);
  const double theta = s.state.q[g0 + 2];
  const Vec2 n(-std::sin(theta), std::cos(theta)), t(std::cos(theta), std::sin(theta));
  double normal = 0, tangential = 0, moment = 0;
  for (int node : stack.model.ground.nodes) {
    const double lambda = s.g[plane_dof(node, 0)];
    // While a node slips its reaction is the frozen traction, which the gradient no longer shows.
    const auto& c = s.state.contact[static_cast<std::size_t>(
        s.system->first_ground_contact() +
        (std::find(stack.model.ground.nodes.begin(), stack.model.ground.nodes.end(), node) -
         stack.model.ground.nodes.begin()))];
    const double rho = c.tangential == Tangential::slip ? c.traction : s.g[plane_dof(node, 1)];
    const Vec2 x =
        stack.model.X[static_cast<std::size_t>(node)] + s.x.segment<2>(plane_dof(node, 0)) - stack.model.ground.joint;
    const Vec2 f = lambda * n + rho * t;
    normal += lambda;
    tangential += rho;
    moment += x.x() * f.y() - x.y() * f.x();
    EXPECT_GE(lambda, -1e-9);
  }
  record_exact(
      {"ground reaction equals the load; its moment is the pitch's row", "statics, Eqs. (53) to (55)", "two bodies"},
      text("mu %g", GetParam()), std::max(std::abs(normal / 6 - 1), std::abs(moment - s.g[g0 + 2]) / 60), 1e-8);
  EXPECT_NEAR(normal, 6, 6e-8);                               // Eq. (53)
  EXPECT_NEAR(tangential, GetParam() > 0 ? 1.0 : 0.0, 6e-8);  // Eq. (54)
  EXPECT_NEAR(moment, s.g[g0 + 2], 1e-8 * 6 * 10);            // Eq. (55), lever arms of 10 mm
}

TEST_P(Balance, bodies_act_on_each_other_with_opposite_forces) {
  const auto stack = standing_stack(GetParam());
  const Standing s = stand_on_ground(stack.model, 6, 0, 0.04, 4);
  ASSERT_TRUE(s.converged()) << describe(s.report.outcome);
  const auto& pair = stack.model.pairs[0];
  const Wrench slave = wrench(s, body_forces(s, 0), pair.slave), master = wrench(s, body_forces(s, 1), pair.master);
  EXPECT_LT((slave.force + master.force).norm(), 1e-8 * slave.size);
  record_exact({"bodies act on each other with opposite forces", "Newton's third law", "two bodies"},
               text("mu %g", GetParam()), (slave.force + master.force).norm() / slave.size, 1e-8);
  // Moments differ only by the slip between the two nodes of a pair: force times jump.
  double slip = 0;
  for (int node : pair.slave) slip = std::max(slip, s.state.q.segment<2>(plane_dof(node, 0)).norm());
  EXPECT_LT(std::abs(slave.moment + master.moment), (slip + 1e-7) * slave.size);
}

// Virtual work of a rigid motion is zero: forces and their moment about the deformed places vanish, body by body.
TEST_P(Balance, internal_forces_do_no_work_on_a_rigid_motion) {
  const auto stack = standing_stack(GetParam());
  const Standing s = stand_on_ground(stack.model, 6, 0, 0.04, 4);
  ASSERT_TRUE(s.converged());
  for (std::size_t b : {0U, 1U}) {
    const Wrench w = wrench(s, body_forces(s, b), all_nodes(s));
    EXPECT_LT(w.force.norm(), 1e-10 * w.size);
    record_exact({"internal forces do no work on a rigid motion", "virtual work", "two bodies"},
                 text("mu %g", GetParam()), std::max(w.force.norm(), std::abs(w.moment) / 10) / w.size, 1e-10);
    EXPECT_LT(std::abs(w.moment), 1e-10 * 10 * w.size);
  }
}

INSTANTIATE_TEST_SUITE_P(WithAndWithoutFriction, Balance, ::testing::Values(0.0, 0.3));

const Claim kSame{"the mirror image, other names of the nodes, other units, half the load steps: the same numbers",
                  "common practice, no source", "two bodies"};

double largest(const Eigen::VectorXd& v) { return v.cwiseAbs().maxCoeff(); }

// Mirror x -> -x: elements turned over so that det J stays positive; the ground's pitch changes sign.
TEST(Invariance, the_mirror_image_gives_the_mirrored_numbers) {
  const auto stack = standing_stack(0.0);
  Model mirrored = stack.model;
  mesh::PlaneMesh mesh = stack.blocks.mesh;
  for (auto& X : mesh.X) X.x() = -X.x();
  for (auto& block : mesh.blocks)
    for (auto& e : block.tri) e = {e[0], e[2], e[1], e[5], e[4], e[3]};
  mirrored.X = mesh.X;
  for (std::size_t k = 0; k < 2; ++k)
    mirrored.solids[k] = make_solid_block(mesh, mesh.blocks[k], Symmetry::plane_strain, stack.model.solids[k].material,
                                          stack.model.solids[k].formulation);
  for (auto& n : mirrored.pairs[0].normal) n.x() = -n.x();
  mirrored.ground.joint.x() *= -1;
  const Standing a = stand_on_ground(stack.model, 6, 0, 0.04, 3), b = stand_on_ground(mirrored, 6, 0, -0.04, 3);
  ASSERT_TRUE(a.converged() && b.converged());
  double worst = 0;
  for (std::size_t i = 0; i < mesh.X.size(); ++i) {
    const auto k = 2 * static_cast<Eigen::Index>(i);
    worst = std::max({worst, std::abs(a.x[k] + b.x[k]), std::abs(a.x[k + 1] - b.x[k + 1])});
  }
  record_exact(kSame, "mirror image", worst / largest(a.x), 1e-8);
  EXPECT_LT(worst, 1e-8 * largest(a.x));
}

TEST(Invariance, numbering_the_nodes_differently_gives_the_same_numbers) {
  const auto stack = standing_stack(0.0);
  const auto n = static_cast<int>(stack.model.X.size());
  const auto renamed = [n](int i) { return static_cast<int>((static_cast<long>(i) * 11 + 3) % n); };
  ASSERT_NE(n % 11, 0);  // else the names would not be unique
  Model other = stack.model;
  mesh::PlaneMesh mesh = stack.blocks.mesh;
  for (int i = 0; i < n; ++i)
    mesh.X[static_cast<std::size_t>(renamed(i))] = stack.blocks.mesh.X[static_cast<std::size_t>(i)];
  for (auto& block : mesh.blocks)
    for (auto& e : block.tri)
      for (int& node : e) node = renamed(node);
  other.X = mesh.X;
  for (std::size_t k = 0; k < 2; ++k)
    other.solids[k] = make_solid_block(mesh, mesh.blocks[k], Symmetry::plane_strain, stack.model.solids[k].material,
                                       stack.model.solids[k].formulation);
  for (auto* list : {&other.pairs[0].slave, &other.pairs[0].master, &other.ground.nodes})
    for (int& node : *list) node = renamed(node);
  for (auto& s : other.supports) s.dof = plane_dof(renamed(s.dof / 2), s.dof % 2);
  for (auto& c : other.springs[0].springs[0].measure) c.dof = plane_dof(renamed(c.dof / 2), c.dof % 2);
  const Standing a = stand_on_ground(stack.model, 6, 0, 0.04, 3), b = stand_on_ground(other, 6, 0, 0.04, 3);
  ASSERT_TRUE(a.converged() && b.converged());
  double worst = 0;
  for (int i = 0; i < n; ++i) worst = std::max(worst, (a.x.segment<2>(2 * i) - b.x.segment<2>(2 * renamed(i))).norm());
  record_exact(kSame, "numbering", worst / largest(a.x), 1e-8);
  EXPECT_LT(worst, 1e-8 * largest(a.x));
}

// Units: stresses and forces a thousand times larger (kPa and mN for MPa and N) move nothing; places in another unit move
// everything alike.
TEST(Invariance, other_units_give_the_same_answer) {
  const Standing a = stand_on_ground(standing_stack(0.0).model, 6, 0, 0.04, 3);
  const Standing b = stand_on_ground(standing_stack(0.0, 1000).model, 6000, 0, 0.04, 3);
  ASSERT_TRUE(a.converged() && b.converged());
  const auto n = 2 * static_cast<Eigen::Index>(a.system->model().X.size());
  record_exact(kSame, "units", largest(a.x.head(n) - b.x.head(n)) / largest(a.x.head(n)), 1e-8);
  EXPECT_LT(largest(a.x.head(n) - b.x.head(n)), 1e-8 * largest(a.x.head(n)));
}

// Frictionless, so the answer depends on the load alone and not on the way to it.
TEST(Invariance, halving_the_load_steps_changes_nothing) {
  const auto stack = standing_stack(0.0);
  const Standing a = stand_on_ground(stack.model, 8, 0, 0.04, 3), b = stand_on_ground(stack.model, 8, 0, 0.04, 6);
  ASSERT_TRUE(a.converged() && b.converged());
  record_exact(kSame, "load steps", largest(a.x - b.x) / largest(a.x), 1e-7);
  EXPECT_LT(largest(a.x - b.x), 1e-7 * largest(a.x));
}

}  // namespace
