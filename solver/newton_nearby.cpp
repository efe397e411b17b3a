// Equilibria near a solved one, found with its factor: what the derivatives are made of (theory.md, section 22).
#include <algorithm>
#include <cmath>

#include "solver/newton.hpp"

namespace hoofload::solver {

namespace {

constexpr int kMostRounds = 200;
constexpr int kMostStalls = 3;
constexpr double kFarBelow = 1e-3;  ///< of the tolerance: differences of neighbours are taken

/// Whether a spring acts in another way in the second state than in the first.
bool acts_otherwise(const Spring& spring, double q_then, double bound_then, double q_now, double bound_now) {
  if (std::holds_alternative<OneSided>(spring.law)) return (q_then > 0) != (q_now > 0);
  if (!std::holds_alternative<StickSlip>(spring.law)) return false;
  const double k = std::get<StickSlip>(spring.law).k;
  return (k * std::abs(q_then) > bound_then) != (k * std::abs(q_now) > bound_now);
}

int changed_springs(const System& system_then, const State& then, const System& system_now, const State& now) {
  int changed = 0;
  const Eigen::VectorXd x_then = system_then.displacements(then), x_now = system_now.displacements(now);
  for (std::size_t g = 0; g < now.spring_bounds.size(); ++g)
    for (std::size_t k = 0; k < now.spring_bounds[g].size(); ++k) {
      const Spring &a = system_then.model().springs[g].springs[k], &b = system_now.model().springs[g].springs[k];
      const bool is = acts_otherwise(b, elongation(a, x_then), then.spring_bounds[g][k], elongation(b, x_now),
                                     now.spring_bounds[g][k]);
      changed += is ? 1 : 0;
    }
  return changed;
}

}  // namespace

bool Newton::anchor(const State& state, const Loading& loading) {
  shift_ = 0;
  anchored_ = loading;
  system_.assemble(state, loading, assembly_, recovery_);
  largest_force_ = assembly_.gradient.cwiseAbs().maxCoeff();
  if (!std::isfinite(assembly_.energy)) return false;
  return factorise(state, held_unknowns(state, loading));
}

std::vector<double> Newton::asked_tractions(const State& state, const Loading& loading) const {
  const auto& points = system_.contact_points();
  std::vector<double> asked(points.size(), 0.0);
  double sum = 0;
  for (std::size_t k = 0; k < points.size(); ++k) {
    const ContactStatus& c = state.contact[k];
    if (!c.closed) continue;
    const double p = pressing(state, k);
    if (k >= first_ground() && system_.model().ground.mobilised)
      sum += asked[k] = p;
    else if (c.tangential == Tangential::slip)
      asked[k] = std::copysign(points[k].friction * p, c.traction);
  }
  if (system_.model().ground.mobilised)
    for (std::size_t k = first_ground(); k < points.size(); ++k)
      asked[k] *= sum > 0 ? loading.tangential_force / sum : 0.0;
  return asked;
}

double Newton::follow_pressures(const Newton& anchor, const State& at, State& state, const Loading& loading) const {
  // The anchor's own tractions may miss their bounds by what Eq. (47) allows: that part is kept as it is.
  const std::vector<double> before = anchor.asked_tractions(at, anchor.anchored_),
                            now = asked_tractions(state, loading);
  double largest = 0;
  for (std::size_t k = 0; k < now.size(); ++k) {
    ContactStatus& c = state.contact[k];
    if (c.tangential != Tangential::slip) continue;
    const double traction = at.contact[k].traction + now[k] - before[k];
    largest = std::max(largest, std::abs(traction - c.traction));
    c.traction = traction;
  }
  const auto bounds_before = anchor.system_.spring_bounds(at), bounds_now = system_.spring_bounds(state);
  for (std::size_t g = 0; g < bounds_now.size(); ++g)
    for (std::size_t k = 0; k < bounds_now[g].size(); ++k) {
      const double bound = at.spring_bounds[g][k] + bounds_now[g][k] - bounds_before[g][k];
      largest = std::max(largest, std::abs(bound - state.spring_bounds[g][k]));
      state.spring_bounds[g][k] = bound;
    }
  return largest;
}

SolveReport Newton::settle_near(const Newton& anchor, const State& at, State& state, const Loading& loading,
                                const NewtonOptions& options) {
  SolveReport report;
  double least = 1e300;
  int stalls = 0;
  for (report.iterations = 0; report.iterations < kMostRounds; ++report.iterations) {
    system_.assemble(state, loading, assembly_, recovery_);
    if (!std::isfinite(assembly_.energy)) break;
    largest_force_ = std::max(1.0, assembly_.gradient.cwiseAbs().maxCoeff());
    const double scale = force_scale(loading);
    const double turned = follow_pressures(anchor, at, state, loading);
    add_friction(state);
    report.residual = std::max(residual(state, loading, options), turned) / scale;
    const Held held = held_unknowns(state, loading);
    const bool settled = report.iterations > 0 && report.residual < kFarBelow * options.tolerance;
    // Round-off ends the descent: the state with the least residual is the answer, if it is good enough.
    stalls = report.residual < 0.5 * least ? 0 : stalls + 1;
    if (settled || (stalls >= kMostStalls && least < 100 * options.tolerance)) return report;
    if (report.residual < least) least = report.residual;
    Eigen::VectorXd force = assembly_.gradient;
    add_bed_forces(state, force);
    Eigen::VectorXd rhs = -force - anchor.system_.hessian(anchor.assembly_).selfadjointView<Eigen::Lower>() * held.move;
    for (Eigen::Index i = 0; i < rhs.size(); ++i)
      if (held.is[static_cast<std::size_t>(i)] != 0) rhs[i] = held.move[i];
    state = system_.advance(state, anchor.factor_.solve(rhs), 1, recovery_);
  }
  report.outcome = std::isfinite(assembly_.energy) ? Outcome::too_many_iterations : Outcome::inverted;
  return report;
}

StatusChanges Newton::status_changes(const Newton& anchor, const State& at, const State& state, const Loading& loading,
                                     const NewtonOptions& options) const {
  StatusChanges changes;
  const auto& points = system_.contact_points();
  const double tiny = 1e-9 * force_scale(loading);
  for (std::size_t k = 0; k < points.size(); ++k) {
    const ContactStatus& c = state.contact[k];
    if (points[k].tied || c.dormant) continue;
    const double over = state.q[points[k].normal] - bound(state, k, loading.ramp);
    if (!c.closed) {
      changes.closes += over < -1e-9 ? 1 : 0;
      continue;
    }
    changes.opens += (on_bed(k) ? over > 1e-9 : assembly_.gradient[points[k].normal] < -tiny) ? 1 : 0;
    if (k >= first_ground() && system_.model().ground.mobilised) continue;
    const double limit = points[k].friction * pressing(state, k) * (1 + options.friction_slack) + tiny;
    if (c.tangential == Tangential::stick)
      changes.slips += std::abs(assembly_.gradient[points[k].tangent]) > limit ? 1 : 0;
    else if (c.tangential == Tangential::slip)
      changes.sticks += (state.q[points[k].tangent] - c.reference) * c.traction > 0 ? 1 : 0;
  }
  changes.springs = changed_springs(anchor.system_, at, system_, state);
  return changes;
}

}  // namespace hoofload::solver
