#include "scenarios/phases.hpp"

#include <algorithm>
#include <cmath>

#include "scenarios/load_curves.hpp"
#include "scenarios/tendon.hpp"
#include "solver/ground.hpp"

namespace hoofload::scenarios {

namespace {

using solver::Loading;
using solver::State;

constexpr double kRolled = 5 * mesh::degree;  ///< pitch beyond the level shoe's at which the pivot is read again
constexpr double kFirstPress = 0.02;          ///< depth of the displacement-controlled first touch [mm]

int pitch_dof(const BuiltModel& built) { return solver::ground_dof(built.system->model(), 2); }
int distance_dof(const BuiltModel& built) { return solver::ground_dof(built.system->model(), 0); }

solver::PathReport follow(BuiltModel& built, const Case& run, State& state, const Loading& from, const Loading& to) {
  solver::PathOptions options;
  options.first_step = run.study.first_step;
  return solver::follow(*built.newton, state, from, to, options);
}

/// Nail, squeeze what was packed before, then let a later filling take its place: the fitted foot in the air.
PhaseSolution fit_up(BuiltModel& built, const Case& run) {
  PhaseSolution fit;
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
  for (std::size_t pair : built.filled_after) system.wake(fit.state, pair);
  if (!built.filled_after.empty() && fit.path.outcome == solver::Outcome::converged) {
    const auto settle = built.newton->solve(fit.state, to);
    fit.path.outcome = settle.outcome;
    fit.path.iterations += settle.iterations;
    fit.path.factorisations += settle.factorisations;
  }
  fit.loading = to;
  fit.reactions = built.newton->reactions();
  fit.touching = system.touching_distance(fit.state, built.rest_pitch);
  fit.solved = fit.path.outcome == solver::Outcome::converged && fit.path.reached >= 1;
  if (!fit.solved) fit.why = std::string("fit-up: ") + solver::describe(fit.path.outcome);
  return fit;
}

struct Demand {
  double normal = 0, tangential = 0, cop = 0, extension = 0;
};

Demand demand_of(const Case& run, Phase phase) {
  const double mass = run.horse.mass;
  if (phase == Phase::standing) return {run.load.standing_force * mass, 0, run.load.standing_cop, 0};
  if (phase == Phase::press) return {run.load.force.value_or(0), 0, 0, 0};
  const double at = phase == Phase::midstance ? run.load.midstance_at : heel_off_fraction(run.load.gait);
  const LoadPoint p = stance_point(run.load.gait, at);
  return {p.normal * mass, p.tangential * mass, p.cop, p.extension};
}

void absorb(solver::PathReport& all, const solver::PathReport& part) {
  all.steps += part.steps;
  all.iterations += part.iterations;
  all.factorisations += part.factorisations;
  all.shifts += part.shifts;
  all.outcome = part.outcome;
  all.reached = part.reached;
  all.residual = part.residual;
  all.energy = part.energy;
}

bool good(const solver::PathReport& path) { return path.outcome == solver::Outcome::converged && path.reached >= 1; }

/// Ground under the fitted foot, then the load, pitch held at the level ground's.
PhaseSolution press_level(BuiltModel& built, const Case& run, const PhaseSolution& fit, Phase phase,
                          const Demand& demand) {
  PhaseSolution s;
  s.phase = phase;
  s.state = fit.state;
  s.touching = fit.touching;
  solver::TouchDown touch = solver::touch_down(*built.newton, s.state, fit.loading, built.rest_pitch, kFirstPress);
  s.path = touch.path;
  if (!good(s.path)) return s;
  Loading to = touch.held;
  to.hold_distance.reset();
  to.normal_force = demand.normal;
  Loading from = to;
  // What the held ground already carries: -dPi/dd of the internal energy.
  from.normal_force = std::max(0.0, -built.newton->reactions()[distance_dof(built)]);
  absorb(s.path, follow(built, run, s.state, from, to));
  s.loading = to;
  s.solved = good(s.path);
  return s;
}

void finish(const BuiltModel& built, PhaseSolution& s) {
  if (s.phase != Phase::breakover || s.reactions.size() == 0) s.reactions = built.newton->reactions();
  s.solved = good(s.path);
  if (s.loading.cable && s.solved) {
    const auto path = solver::cable_path(*s.loading.cable, s.state.q[pitch_dof(built)]);
    s.cable_tension = solver::cable_tension(*s.loading.cable, path);
    s.moment = -s.cable_tension * path.dL;
  }
}

/// The tendon that just holds the moment of the held pitch: freeing the pitch from there moves nothing.
solver::Cable balanced_tendon(const BuiltModel& built, const PhaseSolution& s, double extension) {
  solver::Cable tendon = *built.tendon;
  tendon.extension = extension;
  const auto path = solver::cable_path(tendon, s.state.q[pitch_dof(built)]);
  tendon.tension = std::max(0.0, built.newton->reactions()[pitch_dof(built)] / -path.dL);
  return tendon;
}

/// Baseline: tension from the reference centre of pressure, repeated until the joint's height and arm agree with it; the
/// slack length follows, Eq. (62).
void balance_on_reference(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand, Loading from,
                          TendonSlack& slack) {
  Loading to = from;
  for (int pass = 0; pass < 6; ++pass) {
    const auto path = solver::cable_path(*to.cable, s.state.q[pitch_dof(built)]);
    const double moment = demand.normal * demand.cop + demand.tangential * s.state.q[distance_dof(built)];
    const double tension = std::max(0.0, moment / -path.dL);
    if (pass > 1 && std::abs(tension - *to.cable->tension) < 1e-9 * tension) break;
    to.cable->tension = tension;
    absorb(s.path, follow(built, run, s.state, from, to));
    if (!good(s.path)) return;
    from = to;
  }
  const auto path = solver::cable_path(*to.cable, s.state.q[pitch_dof(built)]);
  slack.length.emplace_back(s.phase, path.length - *to.cable->tension / to.cable->stiffness);
  s.loading = to;
}

/// Frees the pitch against the tendon: at its reference tension on the baseline, at its frozen slack length on an option,
/// at a given force in the press.
void balance_on_tendon(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand, TendonSlack& slack,
                       bool baseline) {
  Loading pushed = s.loading;
  pushed.tangential_force = demand.tangential;
  absorb(s.path, follow(built, run, s.state, s.loading, pushed));
  if (!good(s.path)) return;
  Loading from = pushed;
  from.hold_pitch.reset();
  from.cable = balanced_tendon(built, s, demand.extension);
  if (baseline && s.phase != Phase::press) {
    balance_on_reference(built, run, s, demand, from, slack);
    return;
  }
  Loading to = from;
  if (s.phase == Phase::press) {
    to.cable->tension = run.load.tendon_force;
  } else {
    const std::optional<double> frozen = slack.of(s.phase);
    if (!frozen) {
      s.path.outcome = solver::Outcome::too_many_iterations;
      s.path.reached = 0;
      s.why = "the baseline found no tendon slack for this phase";
      return;
    }
    const auto path = solver::cable_path(*from.cable, s.state.q[pitch_dof(built)]);
    from.cable->slack_length = path.length - *from.cable->tension / from.cable->stiffness;
    from.cable->tension.reset();
    to = from;
    to.cable->slack_length = *frozen;
  }
  absorb(s.path, follow(built, run, s.state, from, to));
  s.loading = to;
}

/// Rolls on over the toe: the moment once the heel is well off the ground, where the pivot is the shoe's front. Leaves the
/// phase's own state at the event.
void roll_over(BuiltModel& built, PhaseSolution& s) {
  State rolled = s.state;
  Loading from = s.loading;
  from.cable.reset();
  Loading to = from;
  to.hold_pitch = std::max(*from.hold_pitch, built.rest_pitch + kRolled);
  solver::PathOptions options;
  options.first_step = 0.5;
  const auto path = solver::follow(*built.newton, rolled, from, to, options);
  s.path.iterations += path.iterations;
  s.path.factorisations += path.factorisations;
  if (!good(path)) return;
  s.rolled_moment = built.newton->reactions()[pitch_dof(built)];
  const double d = rolled.q[distance_dof(built)], theta = rolled.q[pitch_dof(built)];
  s.rolled_cop = (s.rolled_moment - from.tangential_force * d) / from.normal_force;
  s.rolled_pivot = built.system->model().ground.joint - d * solver::ground_normal(theta) +
                   s.rolled_cop * solver::ground_tangent(theta);
}

/// Lifts the heel under a held pitch: the moment at the event is what the tendon must hold.
void lift_heel(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand) {
  Loading loading = s.loading;
  Loading pushed = loading;
  pushed.tangential_force = demand.tangential;
  absorb(s.path, follow(built, run, s.state, loading, pushed));
  if (!good(s.path)) return;
  loading = pushed;
  solver::PathOptions options;
  const solver::LiftOff event = solver::find_lift_off(*built.newton, s.state, loading, built.rear_contacts, 0.01,
                                                      0.2 * mesh::degree, 25 * mesh::degree, options);
  absorb(s.path, event.path);
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
  roll_over(built, s);
  s.reactions = at_event;
}

PhaseSolution solve_one(BuiltModel& built, const Case& run, const PhaseSolution& fit, Phase phase, TendonSlack& slack,
                        bool baseline) {
  const Demand demand = demand_of(run, phase);
  PhaseSolution s = press_level(built, run, fit, phase, demand);
  if (s.solved && built.kind == ModelKind::sagittal) {
    if (phase == Phase::breakover)
      lift_heel(built, run, s, demand);
    else
      balance_on_tendon(built, run, s, demand, slack, baseline);
  }
  const double moment = s.moment, tension = s.cable_tension;
  finish(built, s);
  if (phase == Phase::breakover) s.moment = moment, s.cable_tension = tension;
  if (!s.solved && s.why.empty())
    s.why = std::string(solver::describe(s.path.outcome)) + " at " +
            std::to_string(static_cast<int>(100 * s.path.reached)) + " % of the load";
  return s;
}

}  // namespace

std::optional<double> TendonSlack::of(Phase phase) const {
  for (const auto& [p, l] : length)
    if (p == phase) return l;
  return {};
}

std::vector<PhaseSolution> solve_phases(BuiltModel& built, const Case& run, TendonSlack& slack, bool baseline) {
  std::vector<PhaseSolution> solutions;
  PhaseSolution fit = fit_up(built, run);
  for (Phase phase : run.load.phases) {
    if (built.kind == ModelKind::axisymmetric && phase == Phase::breakover) continue;
    if (phase == Phase::swing || !fit.solved) {
      PhaseSolution s = fit;
      s.phase = phase;
      solutions.push_back(std::move(s));
      continue;
    }
    solutions.push_back(solve_one(built, run, fit, phase, slack, baseline));
  }
  return solutions;
}

}  // namespace hoofload::scenarios
