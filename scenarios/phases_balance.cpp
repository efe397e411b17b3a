#include "scenarios/phases_balance.hpp"

#include <algorithm>
#include <cmath>

#include "scenarios/load_curves.hpp"
#include "scenarios/tendon.hpp"
#include "solver/ground.hpp"

namespace hoofload::scenarios {

namespace {

using solver::Loading;
using solver::State;

constexpr double kFirstPress = 0.02;  ///< depth of the displacement-controlled first touch [mm]

/// The tendon that just holds the moment of the held pitch: freeing the pitch from there moves nothing.
solver::Cable balanced_tendon(const BuiltModel& built, const PhaseSolution& s, double extension) {
  solver::Cable tendon = *built.tendon;
  tendon.extension = extension;
  const auto path = solver::cable_path(tendon, s.state.q[pitch_dof(built)]);
  tendon.tension = std::max(0.0, built.newton->reactions()[pitch_dof(built)] / -path.dL);
  return tendon;
}

/// `from` under the forces and the pastern of a demand.
Loading demanded(Loading from, const Demand& demand) {
  from.normal_force = demand.normal;
  from.tangential_force = demand.tangential;
  from.cable->extension = demand.extension;
  return from;
}

/// Baseline: tension from the reference centre of pressure, repeated until the joint's height and arm agree with it; the
/// slack length follows, Eq. (62). Where that tension is negative the tendon is slack by what is missing, Eq. (90).
void balance_on_reference(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand, Loading from,
                          SlackLength& slack) {
  Loading to = demanded(from, demand);
  double wanted = 0;
  for (int pass = 0; pass < 8; ++pass) {
    const auto path = solver::cable_path(*to.cable, s.state.q[pitch_dof(built)]);
    const double moment = demand.normal * demand.cop + demand.tangential * force_distance(built, s.state);
    wanted = moment / -path.dL;
    const double tension = std::max(0.0, wanted);
    if (pass > 1 && std::abs(tension - *to.cable->tension) <= 1e-9 * tension) break;
    to.cable->tension = tension;
    solver::append(s.path, follow(built, run, s.state, from, to));
    if (!good(s.path)) return;
    from = to;
  }
  const auto path = solver::cable_path(*to.cable, s.state.q[pitch_dof(built)]);
  slack.length = path.length - wanted / to.cable->stiffness - posture_of(run).slack;
  s.loading = to;
}

/// Option: to the demand and its frozen slack length, from an elastic or a given tendon in balance.
void balance_on_frozen(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand, Loading from,
                       const SlackLength& slack) {
  if (!slack.length) {
    s.path.outcome = solver::Outcome::too_many_iterations;
    s.path.reached = 0;
    s.why = "the baseline found no tendon slack for this phase";
    return;
  }
  if (from.cable->tension) {
    const auto path = solver::cable_path(*from.cable, s.state.q[pitch_dof(built)]);
    from.cable->slack_length = path.length - *from.cable->tension / from.cable->stiffness;
    from.cable->tension.reset();
  }
  Loading to = demanded(from, demand);
  to.cable->slack_length = *slack.length + posture_of(run).slack;
  solver::append(s.path, follow(built, run, s.state, from, to));
  s.loading = to;
}

}  // namespace

int pitch_dof(const BuiltModel& built) { return solver::ground_dof(built.system->model(), 2); }
double force_distance(const BuiltModel& built, const State& state) {
  return state.q[distance_dof(built)] + solver::mean_depth(*built.system, state, built.newton->reactions());
}

int distance_dof(const BuiltModel& built) { return solver::ground_dof(built.system->model(), 0); }

solver::PathReport follow(BuiltModel& built, const Case& run, State& state, const Loading& from, const Loading& to) {
  return solver::follow(*built.newton, state, from, to, path_options(run));
}

solver::PathOptions path_options(const Case& run) {
  solver::PathOptions options;
  options.first_step = run.study.first_step;
  options.newton.friction_slack = run.study.friction_slack;
  if (run.study.friction_slack < solver::NewtonOptions{}.friction_slack) options.newton.most_friction_updates = 100;
  return options;
}

bool good(const solver::PathReport& path) { return path.outcome == solver::Outcome::converged && path.reached >= 1; }

Demand demand_at(const Case& run, double share) {
  const double mass = run.horse.mass;
  const LoadPoint p = stance_point(run, share);
  return {p.normal * mass, p.tangential * mass, p.cop, p.extension + posture_of(run).extension};
}

Demand demand_of(const Case& run, Phase phase) {
  if (phase == Phase::standing)
    return {run.load.standing_force * run.horse.mass, 0, run.load.standing_cop, posture_of(run).extension};
  if (phase == Phase::press) return {run.load.force.value_or(0), 0, 0, 0};
  return demand_at(run, phase == Phase::midstance ? run.load.midstance_at : heel_off_fraction(run.load.gait));
}

PhaseSolution press_level(BuiltModel& built, const Case& run, const PhaseSolution& fit, Phase phase,
                          const Demand& demand) {
  PhaseSolution s;
  s.phase = phase;
  s.state = fit.state;
  s.touching = fit.touching;
  solver::PathOptions options;
  options.newton = path_options(run).newton;
  solver::TouchDown touch =
      solver::touch_down(*built.newton, s.state, fit.loading, built.rest_pitch, kFirstPress, options);
  s.path = touch.path;
  if (!good(s.path)) return s;
  Loading to = touch.held;
  to.hold_distance.reset();
  to.normal_force = demand.normal;
  Loading from = to;
  // What the held ground already carries: -dPi/dd of the internal energy.
  from.normal_force = std::max(0.0, -built.newton->reactions()[distance_dof(built)]);
  solver::append(s.path, follow(built, run, s.state, from, to));
  s.loading = to;
  s.solved = good(s.path);
  return s;
}

void balance_on_tendon(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand, SlackLength& slack) {
  Loading pushed = s.loading;
  pushed.tangential_force = demand.tangential;
  solver::append(s.path, follow(built, run, s.state, s.loading, pushed));
  if (!good(s.path)) return;
  Loading from = pushed;
  from.hold_pitch.reset();
  from.cable = balanced_tendon(built, s, demand.extension);
  if (s.phase == Phase::press) {
    Loading to = from;
    to.cable->tension = run.load.tendon_force;
    solver::append(s.path, follow(built, run, s.state, from, to));
    s.loading = to;
  } else if (slack.is_frozen) {
    balance_on_frozen(built, run, s, demand, from, slack);
  } else {
    balance_on_reference(built, run, s, demand, from, slack);
  }
}

void balance_on_next(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand, SlackLength& slack) {
  if (built.kind == ModelKind::axisymmetric) {
    Loading to = s.loading;
    to.normal_force = demand.normal;
    solver::append(s.path, follow(built, run, s.state, s.loading, to));
    s.loading = to;
  } else if (slack.is_frozen) {
    balance_on_frozen(built, run, s, demand, s.loading, slack);
  } else {
    balance_on_reference(built, run, s, demand, s.loading, slack);
  }
}

void finish(const BuiltModel& built, PhaseSolution& s) {
  if (s.phase != Phase::breakover || s.reactions.size() == 0) s.reactions = built.newton->reactions();
  s.solved = good(s.path);
  // At heel-off the moment is the held pitch's and the tendon's force follows from it.
  if (s.loading.cable && s.solved && s.phase != Phase::breakover) {
    const auto path = solver::cable_path(*s.loading.cable, s.state.q[pitch_dof(built)]);
    s.cable_tension = solver::cable_tension(*s.loading.cable, path);
    s.moment = -s.cable_tension * path.dL;
  }
}

std::string why_not(const PhaseSolution& s) {
  return std::string(solver::describe(s.path.outcome)) + " at " +
         std::to_string(static_cast<int>(100 * s.path.reached)) + " % of the load";
}

}  // namespace hoofload::scenarios
