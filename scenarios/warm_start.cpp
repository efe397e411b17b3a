#include "scenarios/warm_start.hpp"

#include <algorithm>

#include "scenarios/phases_breakover.hpp"
#include "solver/ground.hpp"

namespace hoofload::scenarios {

namespace {

constexpr double kAway = 20;  ///< of the ground while the foot is in the air, as in phases.cpp [mm]

/// Only these springs remember something: where all others are is said by the displacements.
bool has_bounds(const solver::SpringGroup& group) {
  return std::any_of(group.springs.begin(), group.springs.end(),
                     [](const solver::Spring& s) { return std::holds_alternative<solver::StickSlip>(s.law); });
}

/// Distance at which the level ground would touch the unloaded shoe.
double level_distance(const BuiltModel& built) {
  return built.system->touching_distance(built.system->rest_state(0, built.rest_pitch), built.rest_pitch);
}

bool same_topology(const BuiltModel& anchor, const solver::State& state, const BuiltModel& built) {
  const solver::Model &a = anchor.system->model(), &b = built.system->model();
  if (anchor.kind != built.kind || a.X.size() != b.X.size() || a.X_space.size() != b.X_space.size() ||
      a.ground.nodes != b.ground.nodes || a.pairs.size() != b.pairs.size() || a.springs.size() != b.springs.size())
    return false;
  for (std::size_t k = 0; k < a.pairs.size(); ++k)
    if (a.pairs[k].slave != b.pairs[k].slave || a.pairs[k].master != b.pairs[k].master) return false;
  for (std::size_t g = 0; g < a.springs.size(); ++g)
    if (a.springs[g].springs.size() != b.springs[g].springs.size() &&
        (has_bounds(a.springs[g]) || has_bounds(b.springs[g])))
      return false;
  return state.mixed.size() == built.system->rest_state(0, 0).mixed.size() && anchor.filled_after == built.filled_after;
}

bool can_start_warm(const PhaseSolution& s) {
  return s.solved && (s.phase == Phase::swing || s.phase == Phase::standing || s.phase == Phase::midstance ||
                      (s.phase == Phase::breakover && s.loading.hold_pitch));
}

void refuse(PhaseSolution& s) { s.path.reached = 0; }

/// The fitted foot in the air, from another fitted foot.
void fit_again(BuiltModel& built, PhaseSolution& s) {
  const auto& system = *built.system;
  s.touching = system.touching_distance(s.state, built.rest_pitch);
  const double away = s.touching + kAway;
  system.place_ground(s.state, away, 0, built.rest_pitch);
  s.loading.hold_distance = away;
  s.loading.hold_pitch = built.rest_pitch;
  const solver::SolveReport report = built.newton->solve(s.state, s.loading);
  s.path.outcome = report.outcome;
  s.path.reached = 1;
  s.path.iterations = report.iterations;
  s.path.factorisations = report.factorisations;
  s.touching = system.touching_distance(s.state, built.rest_pitch);
}

/// From heel-off to heel-off, and from roll to roll.
void lift_again(const BuiltModel& anchor, const PhaseSolution& from, BuiltModel& built, const Case& run,
                PhaseSolution& s) {
  const Demand demand = demand_of(run, s.phase);
  s.loading.cable.reset();
  s.loading.normal_force = demand.normal;
  s.loading.tangential_force = demand.tangential;
  s.loading.hold_pitch = s.state.q[pitch_dof(built)];
  s.remark.clear();
  s.rolled.reset();
  const auto rolled = from.rolled ? carried_over(anchor, *from.rolled, built) : std::nullopt;
  find_heel_off(built, run, s, demand, rolled ? &*rolled : nullptr);
}

/// From balance to balance, pitch free.
void balance_again(BuiltModel& built, const Case& run, PhaseSolution& s, TendonSlack& slack, bool baseline) {
  if (s.loading.cable) {
    solver::Cable tendon = *built.tendon;
    tendon.slack_length = s.loading.cable->slack_length;
    tendon.tension = s.loading.cable->tension;
    tendon.extension = s.loading.cable->extension;
    s.loading.cable = tendon;
    if (baseline && !tendon.tension) return refuse(s);  // an option's: its tendon stretches, a baseline's is set
  }
  SlackLength length{!baseline, baseline ? std::nullopt : slack.of(s.phase)};
  balance_on_next(built, run, s, demand_of(run, s.phase), length);
  if (baseline && good(s.path) && length.length) slack.length = {{s.phase, *length.length}};
}

}  // namespace

std::optional<solver::State> carried_over(const BuiltModel& anchor, const solver::State& state,
                                          const BuiltModel& built) {
  if (!same_topology(anchor, state, built)) return {};
  solver::State moved = state;
  for (std::size_t g = 0; g < built.system->model().springs.size(); ++g)
    moved.spring_bounds[g].resize(built.system->model().springs[g].springs.size(), 0.0);
  const solver::Model& model = built.system->model();
  const Eigen::VectorXd x = anchor.system->displacements(state);
  const int g0 = solver::ground_dof(model, 0);
  // A raised heel turns the ground under the bone, and a thicker shoe lowers it.
  moved.q[g0] += level_distance(built) - level_distance(anchor);
  moved.q[g0 + 2] += built.rest_pitch - anchor.rest_pitch;
  // Gap and place along the ground of the new nodes, displaced as the anchor's.
  for (std::size_t k = 0; k < model.ground.nodes.size(); ++k) {
    const int node = model.ground.nodes[k];
    const int i = solver::plane_dof(node, 0);
    const solver::Vec2 r = model.X[static_cast<std::size_t>(node)] + x.segment<2>(i) - model.ground.joint;
    moved.q[i] = moved.q[g0] + r.dot(solver::ground_normal(moved.q[g0 + 2]));
    moved.q[i + 1] = moved.q[g0 + 1] + r.dot(solver::ground_tangent(moved.q[g0 + 2]));
    // What sticks to the ground does so at the place of the new node.
    const auto contact = static_cast<std::size_t>(built.system->first_ground_contact()) + k;
    moved.contact[contact].reference += moved.q[i + 1] - state.q[i + 1];
  }
  return moved;
}

std::optional<PhaseSolution> solve_warm(const BuiltModel& anchor, const PhaseSolution& solution, BuiltModel& built,
                                        const Case& run, TendonSlack& slack, bool baseline) {
  if (!can_start_warm(solution)) return {};
  // What is filled in after nailing is free of stress as the nails have left the foot: only the fit-up itself knows where.
  if (solution.phase == Phase::swing && !built.filled_after.empty()) return {};
  std::optional<solver::State> state = carried_over(anchor, solution.state, built);
  if (!state) return {};
  PhaseSolution s = solution;
  s.state = std::move(*state);
  s.path = {};
  if (s.phase == Phase::swing)
    fit_again(built, s);
  else if (s.phase == Phase::breakover)
    lift_again(anchor, solution, built, run, s);
  else
    balance_again(built, run, s, slack, baseline);
  if (!good(s.path)) return {};
  finish(built, s);
  return s;
}

}  // namespace hoofload::scenarios
