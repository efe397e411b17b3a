#include "scenarios/warm_start.hpp"

#include "scenarios/phases_balance.hpp"
#include "solver/ground.hpp"

namespace hoofload::scenarios {

namespace {

bool same_topology(const BuiltModel& anchor, const solver::State& state, const BuiltModel& built) {
  const solver::Model &a = anchor.system->model(), &b = built.system->model();
  if (anchor.kind != built.kind || a.X.size() != b.X.size() || a.X_space.size() != b.X_space.size() ||
      a.ground.nodes != b.ground.nodes || a.pairs.size() != b.pairs.size() || a.springs.size() != b.springs.size())
    return false;
  for (std::size_t k = 0; k < a.pairs.size(); ++k)
    if (a.pairs[k].slave != b.pairs[k].slave || a.pairs[k].master != b.pairs[k].master) return false;
  for (std::size_t g = 0; g < a.springs.size(); ++g)
    if (a.springs[g].springs.size() != b.springs[g].springs.size()) return false;
  return state.mixed.size() == built.system->rest_state(0, 0).mixed.size() && anchor.filled_after == built.filled_after;
}

bool can_start_warm(const PhaseSolution& s) {
  return s.solved && (s.phase == Phase::standing || s.phase == Phase::midstance);
}

}  // namespace

std::optional<solver::State> carried_over(const BuiltModel& anchor, const solver::State& state,
                                          const BuiltModel& built) {
  if (!same_topology(anchor, state, built)) return {};
  solver::State moved = state;
  const solver::Model& model = built.system->model();
  const Eigen::VectorXd x = anchor.system->displacements(state);
  const int g0 = solver::ground_dof(model, 0);
  // Gap and place along the ground of the new nodes, displaced as the anchor's.
  for (std::size_t k = 0; k < model.ground.nodes.size(); ++k) {
    const int node = model.ground.nodes[k];
    const int i = solver::plane_dof(node, 0);
    const solver::Vec2 r = model.X[static_cast<std::size_t>(node)] + x.segment<2>(i) - model.ground.joint;
    moved.q[i] = state.q[g0] + r.dot(solver::ground_normal(state.q[g0 + 2]));
    moved.q[i + 1] = state.q[g0 + 1] + r.dot(solver::ground_tangent(state.q[g0 + 2]));
    // What sticks to the ground does so at the place of the new node.
    const auto contact = static_cast<std::size_t>(built.system->first_ground_contact()) + k;
    moved.contact[contact].reference += moved.q[i + 1] - state.q[i + 1];
  }
  return moved;
}

std::optional<PhaseSolution> solve_warm(const BuiltModel& anchor, const PhaseSolution& solution, BuiltModel& built,
                                        const Case& run, const TendonSlack& slack) {
  if (!can_start_warm(solution)) return {};
  std::optional<solver::State> state = carried_over(anchor, solution.state, built);
  if (!state) return {};
  PhaseSolution s = solution;
  s.state = std::move(*state);
  s.path = {};
  if (s.loading.cable) {
    solver::Cable tendon = *built.tendon;
    tendon.slack_length = s.loading.cable->slack_length;
    tendon.tension = s.loading.cable->tension;
    tendon.extension = s.loading.cable->extension;
    s.loading.cable = tendon;
  }
  SlackLength length{true, slack.of(s.phase)};
  balance_on_next(built, run, s, demand_of(run, s.phase), length);
  if (!good(s.path)) return {};
  finish(built, s);
  return s;
}

}  // namespace hoofload::scenarios
