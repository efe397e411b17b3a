#include "scenarios/phases.hpp"

#include <algorithm>
#include <cmath>

#include "scenarios/phases_balance.hpp"
#include "scenarios/phases_breakover.hpp"
#include "scenarios/stance.hpp"
#include "solver/ground.hpp"

namespace hoofload::scenarios {

namespace {

using solver::Loading;
using solver::State;

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
  finish(built, s);
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
