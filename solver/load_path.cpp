#include "solver/load_path.hpp"

#include <algorithm>
#include <cmath>

namespace hoofload::solver {

namespace {

std::optional<double> mix(const std::optional<double>& a, const std::optional<double>& b, double t) {
  if (a && b) return *a + t * (*b - *a);
  return b;
}

void count(PathReport& path, const SolveReport& solve) {
  path.iterations += solve.iterations;
  path.factorisations += solve.factorisations;
  path.shifts += solve.shifts;
  path.outcome = solve.outcome;
  path.residual = solve.residual;
  path.energy = solve.energy;
}

}  // namespace

void append(PathReport& path, const PathReport& more) {
  path.steps += more.steps;
  path.iterations += more.iterations;
  path.factorisations += more.factorisations;
  path.shifts += more.shifts;
  path.outcome = more.outcome;
  path.reached = more.reached;
  path.residual = more.residual;
  path.energy = more.energy;
}

Loading between(const Loading& a, const Loading& b, double t) {
  Loading l = b;
  l.normal_force = a.normal_force + t * (b.normal_force - a.normal_force);
  l.tangential_force = a.tangential_force + t * (b.tangential_force - a.tangential_force);
  l.ramp = a.ramp + t * (b.ramp - a.ramp);
  l.hold_distance = mix(a.hold_distance, b.hold_distance, t);
  l.hold_offset = mix(a.hold_offset, b.hold_offset, t);
  l.hold_pitch = mix(a.hold_pitch, b.hold_pitch, t);
  if (a.cable && b.cable) {
    l.cable->extension = a.cable->extension + t * (b.cable->extension - a.cable->extension);
    l.cable->slack_length = a.cable->slack_length + t * (b.cable->slack_length - a.cable->slack_length);
    if (a.cable->tension && b.cable->tension)
      l.cable->tension = *a.cable->tension + t * (*b.cable->tension - *a.cable->tension);
  } else if (b.cable && b.cable->tension) {
    l.cable->tension = t * *b.cable->tension;
  }
  return l;
}

PathReport follow(Newton& newton, State& state, const Loading& from, const Loading& to, const PathOptions& options) {
  PathReport path;
  path.reached = 0;
  double step = options.first_step;
  int cuts = 0;
  while (path.reached < 1) {
    const double t = std::min(1.0, path.reached + step);
    const SolveReport solve = newton.solve(state, between(from, to, t), options.newton);
    count(path, solve);
    ++path.steps;
    if (solve.outcome == Outcome::converged) {
      path.reached = t;
      cuts = 0;
      if (solve.iterations <= 8) step *= 1.5;
    } else {
      step = 0.5 * (t - path.reached);
      if (++cuts > options.most_cuts || step < options.least_step) return path;
    }
  }
  return path;
}

TouchDown touch_down(Newton& newton, State& state, const Loading& loading, double theta, double depth,
                     const PathOptions& options) {
  TouchDown touch;
  const System& system = newton.system();
  touch.touching = system.touching_distance(state, theta);
  system.place_ground(state, touch.touching, 0, theta);
  touch.held = loading;
  touch.held.normal_force = 0;
  touch.held.tangential_force = 0;
  touch.held.cable.reset();
  touch.held.hold_offset = 0;
  touch.held.hold_pitch = theta;
  touch.held.hold_distance = touch.touching;
  Loading pressed = touch.held;
  pressed.hold_distance = touch.touching - depth;
  touch.path = follow(newton, state, touch.held, pressed, options);
  touch.held = pressed;
  return touch;
}

double contact_share(const Newton& newton, const std::vector<ContactPart>& contacts, double normal_force) {
  double sum = 0;
  for (const auto& [contact, part] : contacts) {
    const int unknown = newton.system().contact_points()[static_cast<std::size_t>(contact)].normal;
    sum += part * std::max(0.0, newton.reactions()[unknown]);
  }
  return sum / normal_force;
}

double mean_depth(const System& system, const State& state, const Eigen::VectorXd& reactions) {
  if (!system.model().ground.bed) return 0;
  double force = 0, depth = 0;
  const auto& points = system.contact_points();
  for (std::size_t k = static_cast<std::size_t>(system.first_ground_contact()); k < points.size(); ++k) {
    if (!state.contact[k].closed) continue;
    force += reactions[points[k].normal];
    depth -= reactions[points[k].normal] * state.q[points[k].normal];
  }
  return force > 0 ? depth / force : 0;
}

LiftOff find_lift_off(Newton& newton, State& state, Loading loading, const std::vector<ContactPart>& rear, double share,
                      double pitch_step, double most_pitch, const PathOptions& options) {
  LiftOff event;
  const int theta = ground_dof(newton.system().model(), 2);
  const auto go_to = [&](State& s, double pitch) {
    Loading from = loading, to = loading;
    from.hold_pitch = s.q[theta];
    to.hold_pitch = pitch;
    const PathReport path = follow(newton, s, from, to, options);
    append(event.path, path);
    ++event.evaluations;
    return path.outcome == Outcome::converged && path.reached >= 1;
  };
  const auto excess = [&] { return contact_share(newton, rear, loading.normal_force) - share; };
  const double start = state.q[theta];
  if (!go_to(state, start)) return event;
  double a = start, fa = excess();
  double sign = fa > 0 ? 1.0 : -1.0;  // already lifted: go back until it carries again
  double b = a, fb = fa;
  double step = pitch_step;
  while (fa * fb > 0) {
    a = b, fa = fb;
    b = a + sign * step;
    step = std::min(1.5 * step, 8 * pitch_step);
    if (std::abs(b - start) > most_pitch || !go_to(state, b)) return event;
    fb = excess();
  }
  // Illinois: keeps the bracket, superlinear. A trial starts from the last one, the nearest state known.
  for (int i = 0; i < 60 && std::abs(fb) > 1e-6 * share && std::abs(b - a) > 1e-13; ++i) {
    const double c = b - fb * (b - a) / (fb - fa);
    State trial = state;
    if (!go_to(trial, c)) return event;
    const double fc = excess();
    if (fc * fb < 0) {
      a = b, fa = fb;
    } else {
      fa *= 0.5;
    }
    b = c, fb = fc;
    state = trial;
  }
  event.found = true;
  event.pitch = state.q[theta];
  event.moment = newton.reactions()[theta];
  event.share = contact_share(newton, rear, loading.normal_force);
  return event;
}

}  // namespace hoofload::solver
