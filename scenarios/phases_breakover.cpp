#include "scenarios/phases_breakover.hpp"

#include <algorithm>

#include "solver/ground.hpp"

namespace hoofload::scenarios {

namespace {

using solver::Loading;
using solver::State;

constexpr double kRolled = 5 * mesh::degree;  ///< pitch beyond the level shoe's at which the pivot is read again
constexpr double kFirstLift = 0.2 * mesh::degree, kMostLift = 25 * mesh::degree;

Loading rolled_loading(const BuiltModel& built, const PhaseSolution& at_heel_off) {
  Loading to = at_heel_off.loading;
  to.cable.reset();
  to.hold_pitch = std::max(*at_heel_off.loading.hold_pitch, built.rest_pitch + kRolled);
  return to;
}

/// Leaves the phase's own state at the event.
void roll_over(BuiltModel& built, const Case& run, PhaseSolution& s, const State* near) {
  if (near != nullptr) {
    RolledFoot rolled{*near, rolled_loading(built, s), {}};
    const solver::SolveReport report = built.newton->solve(rolled.state, rolled.loading, path_options(run).newton);
    s.path.iterations += report.iterations;
    s.path.factorisations += report.factorisations;
    if (report.outcome == solver::Outcome::converged) return read_rolled(built, rolled.state, s);
  }
  const RolledFoot rolled = roll_on(built, run, s);
  s.path.iterations += rolled.path.iterations;
  s.path.factorisations += rolled.path.factorisations;
  if (good(rolled.path))
    read_rolled(built, rolled.state, s);
  else
    s.remark = std::string("no roll-over: ") + solver::describe(rolled.path.outcome);
}

}  // namespace

void find_heel_off(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand, const State* rolled) {
  solver::PathOptions options;
  options.newton = path_options(run).newton;
  if (rolled != nullptr) options.first_step = 1;  // from an event to the next it is a small way
  const solver::LiftOff event = solver::find_lift_off(*built.newton, s.state, s.loading, built.rear_contacts,
                                                       kLiftedShare, kFirstLift, kMostLift, options);
  solver::append(s.path, event.path);
  s.loading.hold_pitch = event.pitch;
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
  roll_over(built, run, s, rolled);
  s.reactions = at_event;
}

RolledFoot roll_on(BuiltModel& built, const Case& run, const PhaseSolution& at_heel_off) {
  RolledFoot rolled{at_heel_off.state, rolled_loading(built, at_heel_off), {}};
  Loading from = at_heel_off.loading;
  from.cable.reset();
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
  s.rolled = std::make_shared<const State>(rolled);
}

void lift_heel(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand) {
  Loading pushed = s.loading;
  pushed.tangential_force = demand.tangential;
  solver::append(s.path, follow(built, run, s.state, s.loading, pushed));
  if (!good(s.path)) return;
  s.loading = pushed;
  find_heel_off(built, run, s, demand, nullptr);
}

}  // namespace hoofload::scenarios
