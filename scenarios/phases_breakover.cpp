#include "scenarios/phases_breakover.hpp"

#include <algorithm>

#include "solver/ground.hpp"

namespace hoofload::scenarios {

namespace {

using solver::Loading;
using solver::State;

constexpr double kRolled = 5 * mesh::degree;  ///< pitch beyond the level shoe's at which the pivot is read again
constexpr double kLifted = 0.01;              ///< share of the load on the rear contacts at the event
constexpr double kFirstLift = 0.2 * mesh::degree, kMostLift = 25 * mesh::degree;

void read_rolled(BuiltModel& built, PhaseSolution& s, const State& rolled, const Loading& loading) {
  s.rolled_moment = built.newton->reactions()[pitch_dof(built)];
  const double d = force_distance(built, rolled), theta = rolled.q[pitch_dof(built)];
  s.rolled_cop = (s.rolled_moment - loading.tangential_force * d) / loading.normal_force;
  s.rolled_pivot = built.system->model().ground.joint - d * solver::ground_normal(theta) +
                   s.rolled_cop * solver::ground_tangent(theta);
  s.rolled = std::make_shared<const State>(rolled);
}

/// Rolls on over the toe: the moment once the heel is well off the ground, where the pivot is the shoe's front. Leaves the
/// phase's own state at the event.
void roll_over(BuiltModel& built, PhaseSolution& s, const State* near) {
  Loading from = s.loading;
  from.cable.reset();
  Loading to = from;
  to.hold_pitch = std::max(*from.hold_pitch, built.rest_pitch + kRolled);
  solver::PathOptions options;
  options.first_step = 0.5;
  State rolled = near != nullptr ? *near : s.state;
  solver::PathReport path;
  bool is_there = false;
  if (near != nullptr) {
    const solver::SolveReport report = built.newton->solve(rolled, to, options.newton);
    s.path.iterations += report.iterations;
    s.path.factorisations += report.factorisations;
    is_there = report.outcome == solver::Outcome::converged;
  }
  if (!is_there) {
    rolled = s.state;
    path = solver::follow(*built.newton, rolled, from, to, options);
    is_there = good(path);
  }
  s.path.iterations += path.iterations;
  s.path.factorisations += path.factorisations;
  if (is_there)
    read_rolled(built, s, rolled, to);
  else
    s.remark = std::string("no roll-over: ") + solver::describe(path.outcome);
}

}  // namespace

void find_heel_off(BuiltModel& built, PhaseSolution& s, const Demand& demand, const State* rolled) {
  solver::PathOptions options;
  if (rolled != nullptr) options.first_step = 1;  // from an event to the next it is a small way
  const solver::LiftOff event = solver::find_lift_off(*built.newton, s.state, s.loading, built.rear_contacts, kLifted,
                                                      kFirstLift, kMostLift, options);
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
  roll_over(built, s, rolled);
  s.reactions = at_event;
}

void lift_heel(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand) {
  Loading pushed = s.loading;
  pushed.tangential_force = demand.tangential;
  solver::append(s.path, follow(built, run, s.state, s.loading, pushed));
  if (!good(s.path)) return;
  s.loading = pushed;
  find_heel_off(built, s, demand, nullptr);
}

}  // namespace hoofload::scenarios
