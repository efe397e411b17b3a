#include "solver/newton.hpp"

#include <algorithm>
#include <cmath>

namespace hoofload::solver {

namespace {

constexpr double kNearBalance = 1e-2;  ///< of the force scale
/// What a step may leave of the residual that it is to remove. Only a factor that is kept in single precision leaves any; more
/// than this costs steps, less costs refinement (measured, docs/performance.md).
constexpr double kForcing = 1e-4;
constexpr int kMostShortSteps = 3;

/// Largest internal force of the mixed elements' bubbles: they too must be at rest.
double bubble_residual(const std::vector<MixedRecovery>& recovery) {
  double worst = 0;
  for (const auto& r : recovery) worst = std::max(worst, r.fb.cwiseAbs().maxCoeff());
  return worst;
}

}  // namespace

Newton::Newton(const System& system) : system_(system), factor_(system.pattern().with(nullptr)) {}

double Newton::bound(const State& state, std::size_t contact, double ramp) const {
  const ContactPoint& p = system_.contact_points()[contact];
  return state.contact[contact].offset_normal - (p.gap - ramp * p.interference);
}

bool Newton::on_bed(std::size_t contact) const { return contact >= first_ground() && system_.model().ground.bed; }

LawValue Newton::column(const State& state, std::size_t contact) const {
  const ContactPoint& p = system_.contact_points()[contact];
  const LawValue v = value(*system_.model().ground.bed, -state.q[p.normal]);
  return {p.area * v.energy, -p.area * v.force, p.area * v.stiffness};
}

double Newton::bed_energy(const State& state) const {
  double energy = 0;
  if (!system_.model().ground.bed) return energy;
  for (std::size_t k = first_ground(); k < state.contact.size(); ++k)
    if (state.contact[k].closed) energy += column(state, k).energy;
  return energy;
}

void Newton::add_bed_forces(const State& state, Eigen::VectorXd& gradient) const {
  if (!system_.model().ground.bed) return;
  for (std::size_t k = first_ground(); k < state.contact.size(); ++k)
    if (state.contact[k].closed) gradient[system_.contact_points()[k].normal] += column(state, k).force;
}

double Newton::pressing(const State& state, std::size_t contact) const {
  return std::max(0.0, on_bed(contact) ? -column(state, contact).force
                                       : assembly_.gradient[system_.contact_points()[contact].normal]);
}

Newton::Held Newton::held_unknowns(const State& state, const Loading& loading) const {
  const Model& model = system_.model();
  Held held{std::vector<char>(static_cast<std::size_t>(dof_count(model)), 0), Eigen::VectorXd::Zero(dof_count(model))};
  const auto hold = [&](int unknown, double target) {
    held.is[static_cast<std::size_t>(unknown)] = 1;
    held.move[unknown] = target - state.q[unknown];
  };
  for (const auto& s : model.supports) hold(s.dof, s.value);
  const int g0 = ground_dof(model, 0);
  if (loading.hold_distance) hold(g0, *loading.hold_distance);
  if (loading.hold_offset) hold(g0 + 1, *loading.hold_offset);
  if (loading.hold_pitch) hold(g0 + 2, *loading.hold_pitch);
  const auto& points = system_.contact_points();
  for (std::size_t k = 0; k < points.size(); ++k) {
    const ContactStatus& c = state.contact[k];
    if (!c.closed) continue;
    if (!on_bed(k)) hold(points[k].normal, bound(state, k, loading.ramp));
    if (points[k].tied)
      hold(points[k].tangent, c.offset_tangent);
    else if (c.tangential == Tangential::stick)
      hold(points[k].tangent, c.reference);
  }
  return held;
}

bool Newton::mobilise_ground(State& state, const Loading& loading, double scale, double part_left) {
  const auto& points = system_.contact_points();
  double sum = 0, total = 0;
  for (std::size_t k = first_ground(); k < points.size(); ++k) {
    ContactStatus& c = state.contact[k];
    // One that opened and closed again since the last round has its traction still.
    if (!c.closed) c.traction = 0;
    c.tangential = c.traction != 0 ? Tangential::slip : Tangential::free;
    if (c.closed) sum += pressing(state, k);
    total += c.traction;
  }
  const double target = sum > 0 ? loading.tangential_force : 0.0;
  const auto count = static_cast<Eigen::Index>(points.size() - first_ground());
  Eigen::VectorXd excess(count);  // of the traction that the present pressure asks for over the present one
  for (Eigen::Index i = 0; i < count; ++i) {
    const std::size_t k = first_ground() + static_cast<std::size_t>(i);
    const bool presses = state.contact[k].closed && sum > 0;
    excess[i] = (presses ? target * pressing(state, k) / sum : 0.0) - state.contact[k].traction;
  }
  const bool sums = std::abs(total - target) <= 1e-12 * scale;
  // Tractions that have all but settled stay as they are: the energy of two states is then comparable.
  if (excess.lpNorm<Eigen::Infinity>() <= part_left * std::abs(target) && sums) return false;
  // On a soft body the pressures answer to the tractions, and a round may undo the last: Aitken's relaxation. Tractions that do
  // not sum to the load are shared out anew.
  double part = 1;
  if (sums && last_excess_.size() == count) {
    const Eigen::VectorXd turn = excess - last_excess_;
    const double by_aitken = -relaxation_ * last_excess_.dot(turn) / std::max(turn.squaredNorm(), 1e-300);
    part = std::clamp(by_aitken, 0.1, 1.0);
  }
  relaxation_ = part;
  if (sums)
    last_excess_ = excess;
  else
    last_excess_.resize(0);
  for (Eigen::Index i = 0; i < count; ++i) {
    ContactStatus& c = state.contact[first_ground() + static_cast<std::size_t>(i)];
    c.traction += part * excess[i];
    c.tangential = c.traction != 0 ? Tangential::slip : Tangential::free;
  }
  return true;
}

bool Newton::update_friction(State& state, double scale, double part) const {
  bool changed = false;
  const auto& points = system_.contact_points();
  for (std::size_t k = 0; k < points.size(); ++k) {
    ContactStatus& c = state.contact[k];
    if (points[k].tied || (k >= first_ground() && system_.model().ground.mobilised)) continue;
    if (!c.closed || points[k].friction == 0) {
      c.tangential = Tangential::free;
      c.traction = 0;
      continue;
    }
    if (c.tangential == Tangential::free) {
      c.tangential = Tangential::stick;
      c.reference = state.q[points[k].tangent];
      changed = true;
      continue;
    }
    const double limit = points[k].friction * pressing(state, k);
    const double force = assembly_.gradient[points[k].tangent];
    const double slack = part * limit + 1e-9 * scale;
    if (c.tangential == Tangential::stick && std::abs(force) > limit + slack && c.toggles < 3) {
      c.tangential = Tangential::slip;
      c.traction = std::copysign(limit, force);
      ++c.toggles;
      changed = true;
    } else if (c.tangential == Tangential::slip) {
      const double slip = state.q[points[k].tangent] - c.reference;
      if (slip * c.traction > 0 && c.toggles < 3) {
        c.tangential = Tangential::stick;  // where it stood before it turned back
        ++c.toggles;
        changed = true;
      } else if (std::abs(limit - std::abs(c.traction)) > slack) {
        c.traction = std::copysign(limit, c.traction);
        changed = true;
      }
    }
  }
  return changed;
}

void Newton::add_friction(const State& state) {
  const auto& points = system_.contact_points();
  for (std::size_t k = 0; k < points.size(); ++k)
    if (state.contact[k].closed && state.contact[k].tangential == Tangential::slip)
      assembly_.gradient[points[k].tangent] -= state.contact[k].traction;
}

void Newton::release_unreached(const std::vector<ContactStatus>& before, State& state, double ramp) const {
  const auto& points = system_.contact_points();
  for (std::size_t k = 0; k < points.size(); ++k) {
    ContactStatus& c = state.contact[k];
    if (!before[k].closed && c.closed && state.q[points[k].normal] > bound(state, k, ramp) + 1e-10) c.closed = false;
  }
}

double Newton::friction_work(const std::vector<ContactStatus>& contact, const Eigen::VectorXd& q) const {
  const auto& points = system_.contact_points();
  double work = 0;
  for (std::size_t k = 0; k < points.size(); ++k)
    if (contact[k].closed && contact[k].tangential == Tangential::slip)
      work += contact[k].traction * q[points[k].tangent];
  return work;
}

bool Newton::in_place(const State& state, const Loading& loading) const {
  const Held held = held_unknowns(state, loading);
  for (std::size_t i = 0; i < held.is.size(); ++i)
    if (held.is[i] != 0 && std::abs(held.move[static_cast<Eigen::Index>(i)]) > 1e-9) return false;
  return true;
}

bool Newton::feasible(const State& state, double ramp) const {
  const auto& points = system_.contact_points();
  for (std::size_t k = 0; k < points.size(); ++k) {
    const ContactStatus& c = state.contact[k];
    if (points[k].tied || c.dormant || on_bed(k)) continue;
    const double over = state.q[points[k].normal] - bound(state, k, ramp);
    if (over < -1e-9 || (c.closed && over > 1e-9)) return false;
  }
  return true;
}

double Newton::force_scale(const Loading& loading) const {
  // Clamped unknowns of stiff parts react with forces far above the load: where there is a load, it is the measure.
  if (loading.normal_force > 0) return loading.normal_force;
  // Preloads hold each other in equilibrium and then show in no residual.
  double preload = 0;
  for (const auto& group : system_.model().springs)
    for (const auto& spring : group.springs)
      preload = std::max(preload, loading.ramp * std::abs(spring.ramped_preload));
  return std::max({1.0, largest_force_, preload});
}

double Newton::residual(const State& state, const Loading& loading, const NewtonOptions& options) const {
  const Held held = held_unknowns(state, loading);
  double worst = bubble_residual(recovery_);
  const int g0 = ground_dof(system_.model(), 0);
  // The ground's own balance is measured against its load, however large the forces inside the bodies are.
  const double load = std::max({1e-3, std::abs(loading.normal_force), std::abs(loading.tangential_force)});
  const double ground_weight = force_scale(loading) / load;
  Eigen::VectorXd unbalanced = assembly_.gradient;
  add_bed_forces(state, unbalanced);
  for (Eigen::Index i = 0; i < unbalanced.size(); ++i) {
    if (held.is[static_cast<std::size_t>(i)] != 0) continue;
    const double weight = i == g0 || i == g0 + 1 ? ground_weight : i == g0 + 2 ? 1 / options.arm : 1.0;
    worst = std::max(worst, weight * std::abs(unbalanced[i]));
  }
  return worst;
}

bool Newton::factorise(const State& state, const Held& held) {
  const auto K = system_.hessian(assembly_);
  diagonal_.resize(K.cols());
  for (int c = 0; c < K.cols(); ++c)
    diagonal_[c] = K.valuePtr()[K.outerIndexPtr()[c]];  // a lower column starts with it
  for (std::size_t k = first_ground(); k < state.contact.size(); ++k)
    if (on_bed(k) && state.contact[k].closed)
      diagonal_[system_.contact_points()[k].normal] += column(state, k).stiffness;
  for (int c = 0; c < K.cols(); ++c)
    if (held.is[static_cast<std::size_t>(c)] == 0) diagonal_[c] += shift_ * std::abs(diagonal_[c]) + 1e-12;
  return factor_.factorise({K.valuePtr(), held.is.data(), diagonal_.data()});
}

bool Newton::solve_reduced(const State& state, const Held& held, Eigen::VectorXd& dq, SolveReport& report) {
  const auto K = system_.hessian(assembly_);
  Eigen::VectorXd force = assembly_.gradient;
  add_bed_forces(state, force);
  Eigen::VectorXd rhs = -force;
  rhs -= K.selfadjointView<Eigen::Lower>() * held.move;
  for (int attempt = 0; attempt < 14; ++attempt) {
    for (Eigen::Index c = 0; c < rhs.size(); ++c)
      if (held.is[static_cast<std::size_t>(c)] != 0) rhs[c] = held.move[c];
    ++report.factorisations;
    if (factorise(state, held)) {
      dq = factor_.solve(K, {K.valuePtr(), held.is.data(), diagonal_.data()}, rhs, kForcing);
      return dq.allFinite();
    }
    shift_ = shift_ == 0 ? 1e-6 : 5 * shift_;
    ++report.shifts;
  }
  return false;
}

bool Newton::quadratic_step(State& state, const Loading& loading, const NewtonOptions& options, double tiny,
                            Eigen::VectorXd& dq, bool keeps_bounds, bool& found_set, SolveReport& report) {
  found_set = false;
  const auto& points = system_.contact_points();
  const auto K = system_.hessian(assembly_);
  // Downhill is only a step whose set was found: worth more passes where the energy can tell.
  const bool patient = cut_short_ || report.iterations >= options.patient_after;
  const int passes = patient ? options.most_set_changes : (keeps_bounds ? 4 : 1) * options.set_changes;
  for (int pass = 0; pass < passes && report.factorisations < options.most_factorisations; ++pass) {
    const Held held = held_unknowns(state, loading);
    if (!solve_reduced(state, held, dq, report)) return false;
    const Eigen::VectorXd reaction = assembly_.gradient + K.selfadjointView<Eigen::Lower>() * dq;
    bool changed = false;
    const bool one_at_a_time = patient && pass >= 8;  // Murty's least-index rule ends a cycle
    for (std::size_t k = 0; k < points.size() && !(changed && one_at_a_time); ++k) {
      if (points[k].tied || state.contact[k].dormant) continue;
      ContactStatus& c = state.contact[k];
      const double b = bound(state, k, loading.ramp);
      // A column closes and opens by where it will be; it has no bound that could react.
      const bool leaves =
          on_bed(k) ? state.q[points[k].normal] + dq[points[k].normal] > b + 1e-10 : reaction[points[k].normal] < -tiny;
      if (c.closed && leaves) {
        c.closed = false;
        c.tangential = Tangential::free;
        changed = true;
      } else if (!c.closed && state.q[points[k].normal] + dq[points[k].normal] < b - 1e-10) {
        c.closed = true;
        c.tangential = Tangential::free;  // it sticks from the next step on: within a step only bounds change
        changed = true;
      }
    }
    found_set = !changed;
    if (!changed) return true;
  }
  return true;
}

SolveReport Newton::solve(State& state, const Loading& loading, const NewtonOptions& options) {
  SolveReport report;
  const State given = state;
  const auto fail = [&](Outcome outcome) {
    state = given;
    report.outcome = outcome;
    return report;
  };
  for (std::size_t k = 0; k < state.contact.size(); ++k) {
    ContactStatus& c = state.contact[k];
    c.toggles = 0;
    // What slid on the way here has slid: whether it goes on or turns back is a matter of this step's motion alone.
    if (c.tangential == Tangential::slip) c.reference = state.q[system_.contact_points()[k].tangent];
  }
  shift_ = 0;
  cut_short_ = false;
  relaxation_ = 1;
  last_excess_.resize(0);
  largest_force_ = 0;
  system_.assemble(state, loading, assembly_, recovery_);
  if (!std::isfinite(assembly_.energy)) return fail(Outcome::inverted);
  Eigen::VectorXd dq;
  bool settled = false;
  int friction_rounds = 0, stalled = 0, short_steps = 0;
  double last_move = 1;       // largest change of an unknown in the last step [mm, rad]
  const auto goes_on = [&] {  // a shape that gives way needs more steps to find where it holds again
    return report.iterations < (report.shifts > 0 ? 2 : 1) * options.most_iterations;
  };
  for (report.iterations = 0; goes_on(); ++report.iterations) {
    largest_force_ = std::max(largest_force_, assembly_.gradient.cwiseAbs().maxCoeff());
    const double scale = force_scale(loading);
    // Stick, slip and slip bounds follow a pressure that is nearly in balance: from a step that is not they can run away. The
    // fixed point may chatter between neighbours: after some rounds the bounds stay as they are.
    const Eigen::VectorXd without = assembly_.gradient;
    add_friction(state);
    const bool is_near = report.iterations == 1 || residual(state, loading, options) < kNearBalance * scale;
    assembly_.gradient = without;
    bool friction_changed = false;
    if (report.iterations > 0 && is_near && friction_rounds < options.most_friction_updates) {
      friction_changed = update_friction(state, scale, options.friction_slack);
      friction_rounds += friction_changed ? 1 : 0;
    }
    // Mobilised friction follows its contacts to the end, for it must sum to the load; it too only near balance, or its
    // relaxation would learn from forces that are not its own doing.
    if (report.iterations > 0 && is_near && system_.model().ground.mobilised)
      friction_changed = mobilise_ground(state, loading, scale, options.friction_slack) || friction_changed;
    bool springs_changed = false;
    const auto bounds = system_.spring_bounds(state);
    for (std::size_t g = 0; g < bounds.size(); ++g)
      for (std::size_t k = 0; k < bounds[g].size(); ++k)
        if (std::abs(bounds[g][k] - state.spring_bounds[g][k]) > options.friction_slack * bounds[g][k] + 1e-9 * scale) {
          state.spring_bounds[g][k] = bounds[g][k];
          springs_changed = true;
        }
    if (springs_changed) system_.assemble(state, loading, assembly_, recovery_);
    add_friction(state);
    const double last_residual = report.residual;
    report.residual = residual(state, loading, options) / scale;
    // Full steps that no longer shrink a small residual, twice running, or that move nothing by a bit of its coordinates, have
    // met round-off (strain is known to 1e-16, stress to that times the modulus).
    const bool stalls = report.residual < 100 * options.tolerance && report.residual > 0.2 * last_residual;
    stalled = stalls && !friction_changed && !springs_changed ? stalled + 1 : 0;
    const bool at_round_off = report.iterations > 1 && (last_move < 1e-15 * options.length_scale || stalled >= 3);
    if (settled && !friction_changed && !springs_changed && (report.residual < options.tolerance || at_round_off)) {
      report.energy = assembly_.energy + bed_energy(state) - friction_work(state.contact, state.q);
      return report;
    }
    const std::vector<ContactStatus> before = state.contact;
    bool found_set = false;
    const bool keeps_bounds = feasible(state, loading.ramp) && in_place(state, loading);
    if (report.factorisations >= options.most_factorisations) break;
    if (!quadratic_step(state, loading, options, 1e-10 * scale, dq, keeps_bounds, found_set, report))
      return fail(Outcome::not_positive);
    settled = true;
    for (std::size_t k = 0; k < before.size(); ++k) settled = settled && before[k].closed == state.contact[k].closed;
    shift_ = shift_ < 1e-6 ? 0 : shift_ / 10;
    Eigen::VectorXd unbalanced = assembly_.gradient;
    add_bed_forces(state, unbalanced);
    const double slope = unbalanced.dot(dq);
    // The tractions of the step's start do work along it; those of a contact that it opens too.
    const double energy = assembly_.energy + bed_energy(state) - friction_work(before, state.q);
    const double noise = 1e-12 * (std::abs(energy) + scale);  // forces of that scale over a millimetre
    // A step from a state that keeps its bounds to one that keeps them goes downhill, also where contacts open and close on
    // the way. With bounds or supports on the move the energy of two states is not comparable, nor with columns that come
    // and go, and a decrease below round-off cannot be seen in it: then only inversion is refused.
    // Where slopes jump, downhill alone can crawl along the kink: after a few short steps one whole step goes through it.
    const bool comparable = short_steps < kMostShortSteps && keeps_bounds && found_set &&
                            (settled || !system_.model().ground.bed) && -slope > noise;
    double alpha = 1;
    State trial = system_.advance(state, dq, alpha, recovery_);
    std::swap(last_recovery_, recovery_);
    system_.assemble(trial, loading, assembly_, recovery_);
    const auto acceptable = [&](double trial_energy) {
      return std::isfinite(trial_energy) && (!comparable || trial_energy <= energy + 1e-4 * alpha * slope + noise);
    };
    const auto energy_of = [&](const State& t) {
      return assembly_.energy + bed_energy(t) - friction_work(before, t.q);
    };
    while (!acceptable(energy_of(trial))) {
      alpha *= 0.5;
      if (alpha < 1e-4) return fail(std::isfinite(assembly_.energy) ? Outcome::line_search_failed : Outcome::inverted);
      trial = system_.advance(state, dq, alpha, last_recovery_);
      assembly_.energy = system_.energy(trial, loading);
      if (acceptable(energy_of(trial))) system_.assemble(trial, loading, assembly_, recovery_);
    }
    if (alpha < 1) release_unreached(before, trial, loading.ramp);
    cut_short_ = alpha < 1;
    short_steps = alpha < 0.5 && comparable ? short_steps + 1 : 0;
    settled = settled && alpha == 1;
    last_move = dq.cwiseAbs().maxCoeff();
    state = std::move(trial);
  }
  return fail(shift_ > 0 ? Outcome::unstable : Outcome::too_many_iterations);
}

}  // namespace hoofload::solver
