#include "scenarios/phases.hpp"

#include <algorithm>
#include <cmath>

#include "scenarios/phases_balance.hpp"
#include "scenarios/stance.hpp"
#include "solver/ground.hpp"

namespace hoofload::scenarios {

namespace {

using solver::Loading;
using solver::State;

constexpr double kRolled = 5 * mesh::degree;  ///< pitch beyond the level shoe's at which the pivot is read again

FittedFoot fit_once(BuiltModel& built, const Case& run) {
  FittedFoot fitted;
  PhaseSolution& fit = fitted.solution;
  const auto& system = *built.system;
  fit.state = system.rest_state(0, built.rest_pitch);
  const double away = system.touching_distance(fit.state, built.rest_pitch) + 20;
  system.place_ground(fit.state, away, 0, built.rest_pitch);
  for (std::size_t pair : built.filled_after) system.set_dormant(fit.state, pair);
  Loading from;
  from.ramp = 0;
  from.hold_distance = away;
  from.hold_offset = 0;
  from.hold_pitch = built.rest_pitch;
  Loading to = from;
  to.ramp = 1;
  fit.path = follow(built, run, fit.state, from, to);
  if (!built.filled_after.empty()) fitted.unfilled = fit.state;
  for (std::size_t pair : built.filled_after) system.wake(fit.state, pair);
  if (!built.filled_after.empty() && fit.path.outcome == solver::Outcome::converged) {
    const auto settle = built.newton->solve(fit.state, to, path_options(run).newton);
    fit.path.outcome = settle.outcome;
    fit.path.iterations += settle.iterations;
    fit.path.factorisations += settle.factorisations;
  }
  fit.loading = to;
  fit.reactions = built.newton->reactions();
  fit.touching = system.touching_distance(fit.state, built.rest_pitch);
  fit.solved = fit.path.outcome == solver::Outcome::converged && fit.path.reached >= 1;
  if (!fit.solved) fit.why = std::string("fit-up: ") + solver::describe(fit.path.outcome);
  return fitted;
}

/// Rolls on over the toe: the moment once the heel is well off the ground, where the pivot is the shoe's front. Leaves the
/// phase's own state at the event.
void roll_over(BuiltModel& built, const Case& run, PhaseSolution& s) {
  const RolledFoot rolled = roll_on(built, run, s);
  s.path.iterations += rolled.path.iterations;
  s.path.factorisations += rolled.path.factorisations;
  if (good(rolled.path))
    read_rolled(built, rolled.state, s);
  else
    s.remark = std::string("no roll-over: ") + solver::describe(rolled.path.outcome);
}

/// Lifts the heel under a held pitch: the moment at the event is what the tendon must hold.
void lift_heel(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand) {
  Loading loading = s.loading;
  Loading pushed = loading;
  pushed.tangential_force = demand.tangential;
  solver::append(s.path, follow(built, run, s.state, loading, pushed));
  if (!good(s.path)) return;
  loading = pushed;
  solver::PathOptions options;
  options.newton = path_options(run).newton;
  const solver::LiftOff event = solver::find_lift_off(*built.newton, s.state, loading, built.rear_contacts,
                                                      kLiftedShare, 0.2 * mesh::degree, 25 * mesh::degree, options);
  solver::append(s.path, event.path);
  loading.hold_pitch = event.pitch;
  s.loading = loading;
  s.moment = event.moment;
  if (!event.found) {
    s.path.outcome =
        s.path.outcome == solver::Outcome::converged ? solver::Outcome::too_many_iterations : s.path.outcome;
    s.path.reached = 0;
    s.why = "the heel did not leave the ground within 25 degrees";
    return;
  }
  solver::Cable tendon = *built.tendon;
  tendon.extension = demand.extension;
  const auto path = solver::cable_path(tendon, event.pitch);
  s.cable_tension = event.moment / -path.dL;
  tendon.tension = s.cable_tension;
  s.loading.cable = tendon;
  const Eigen::VectorXd at_event = built.newton->reactions();
  roll_over(built, run, s);
  s.reactions = at_event;
}

void balance_on_phase(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand, TendonSlack& slack,
                      bool baseline) {
  SlackLength length{!baseline, baseline ? std::nullopt : slack.of(s.phase)};
  balance_on_tendon(built, run, s, demand, length);
  if (baseline && length.length) slack.length.emplace_back(s.phase, *length.length);
}

PhaseSolution solve_once(BuiltModel& built, const Case& run, const PhaseSolution& fit, Phase phase, TendonSlack& slack,
                         bool baseline) {
  const Demand demand = demand_of(run, phase);
  PhaseSolution s = press_level(built, run, fit, phase, demand);
  if (s.solved && built.kind == ModelKind::sagittal) {
    if (phase == Phase::breakover)
      lift_heel(built, run, s, demand);
    else
      balance_on_phase(built, run, s, demand, slack, baseline);
  }
  const double moment = s.moment, tension = s.cable_tension;
  finish(built, s);
  if (phase == Phase::breakover) s.moment = moment, s.cable_tension = tension;
  if (!s.solved && s.why.empty()) s.why = why_not(s);
  return s;
}

/// Smaller first steps for what the large ones did not reach: soft shoes and fillings squeeze far.
Case in_smaller_steps(const Case& run) {
  Case smaller = run;
  smaller.study.first_step = 0.15 * run.study.first_step;
  return smaller;
}

}  // namespace

FittedFoot fit_foot(BuiltModel& built, const Case& run) {
  FittedFoot fit = fit_once(built, run);
  if (!fit.solution.solved)
    if (FittedFoot again = fit_once(built, in_smaller_steps(run)); again.solution.solved) fit = std::move(again);
  return fit;
}

PhaseSolution solve_phase(BuiltModel& built, const Case& run, const PhaseSolution& fit, Phase phase, TendonSlack& slack,
                          bool baseline) {
  PhaseSolution first = solve_once(built, run, fit, phase, slack, baseline);
  if (first.solved) return first;
  PhaseSolution again = solve_once(built, in_smaller_steps(run), fit, phase, slack, baseline);
  return again.solved ? again : first;
}

RolledFoot roll_on(BuiltModel& built, const Case& run, const PhaseSolution& at_heel_off) {
  RolledFoot rolled{at_heel_off.state, at_heel_off.loading, {}};
  Loading from = at_heel_off.loading;
  from.cable.reset();
  rolled.loading = from;
  rolled.loading.hold_pitch = std::max(*from.hold_pitch, built.rest_pitch + kRolled);
  solver::PathOptions options;
  options.first_step = 0.5;
  options.newton = path_options(run).newton;
  rolled.path = solver::follow(*built.newton, rolled.state, from, rolled.loading, options);
  return rolled;
}

void read_rolled(const BuiltModel& built, const State& rolled, PhaseSolution& s) {
  s.rolled_moment = built.newton->reactions()[pitch_dof(built)];
  const double d = force_distance(built, rolled), theta = rolled.q[pitch_dof(built)];
  s.rolled_cop = (s.rolled_moment - s.loading.tangential_force * d) / s.loading.normal_force;
  s.rolled_pivot = built.system->model().ground.joint - d * solver::ground_normal(theta) +
                   s.rolled_cop * solver::ground_tangent(theta);
}

std::optional<double> TendonSlack::of(Phase phase) const {
  for (const auto& [p, l] : length)
    if (p == phase) return l;
  return {};
}

std::vector<PhaseSolution> solve_phases(const std::shared_ptr<BuiltModel>& model, const Case& run, TendonSlack& slack,
                                        bool baseline) {
  BuiltModel& built = *model;
  std::vector<PhaseSolution> solutions;
  const PhaseSolution fit = fit_foot(built, run).solution;
  for (Phase phase : run.load.phases) {
    if (built.kind == ModelKind::axisymmetric && phase == Phase::breakover) continue;
    if (phase == Phase::swing || !fit.solved) {
      PhaseSolution s = fit;
      s.phase = phase;
      solutions.push_back(std::move(s));
      continue;
    }
    solutions.push_back(phase == Phase::stance ? solve_stance(model, run, fit, slack, baseline)
                                               : solve_phase(built, run, fit, phase, slack, baseline));
  }
  return solutions;
}

}  // namespace hoofload::scenarios
