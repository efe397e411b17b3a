#include "scenarios/neighbour.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "scenarios/phases_balance.hpp"
#include "scenarios/phases_breakover.hpp"
#include "scenarios/tendon.hpp"
#include "scenarios/warm_start.hpp"

namespace hoofload::scenarios {

namespace {

using solver::Loading;
using solver::State;

constexpr int kMostPasses = 40;
constexpr double kPitchStep = 1e-5;  ///< [rad]

std::shared_ptr<const Anchor> anchored(const BuiltModel& built, const State& state, const Loading& loading,
                                       AnchoredRun& run) {
  auto anchor = std::make_shared<Anchor>(Anchor{*built.newton, state, loading});
  ++run.factorisations;
  if (!anchor->newton.anchor(state, loading)) return nullptr;
  return anchor;
}

AnchoredPhase anchored_phase(AnchoredRun& run, PhaseSolution solution) {
  AnchoredPhase phase;
  BuiltModel& built = *run.built;
  phase.why = solution.why;
  if (solution.solved) {
    phase.values = measure(built, run.run, solution);
    Loading loading = solution.loading;
    if (solution.phase == Phase::breakover) loading.cable.reset();  // there the pitch is held
    phase.anchor = anchored(built, solution.state, loading, run);
    if (!phase.anchor) phase.why = "its stiffness is not positive";
    if (phase.anchor && solution.rolled_moment != 0) {
      const RolledFoot rolled = roll_on(built, run.run, solution);
      if (good(rolled.path)) phase.rolled = anchored(built, rolled.state, rolled.loading, run);
    }
  }
  phase.solution = std::move(solution);
  return phase;
}

void add_changes(const solver::StatusChanges& c, const std::string& where, std::set<std::string>& changes) {
  const auto add = [&](int count, const char* what) {
    if (count > 0) changes.insert(where + std::to_string(count) + " " + what);
  };
  add(c.opens, "contact points would open");
  add(c.closes, "contact points would close");
  add(c.slips, "contact points would begin to slide");
  add(c.sticks, "contact points would stick again");
  add(c.springs, "springs between wall, shoe and sole would act otherwise");
}

/// One neighbour while it is being found.
struct Search {
  const AnchoredRun& anchored;
  const Case& run;
  BuiltModel& built;
  solver::NewtonOptions options;

  /// The anchor's state on the neighbour's model, in equilibrium under `loading` or nothing.
  [[nodiscard]] bool settle(const Anchor& a, State& state, const Loading& loading) const {
    const auto report = built.newton->settle_near(a.newton, a.state, state, loading, options);
    return report.outcome == solver::Outcome::converged;
  }
  void say_changes(const Anchor& a, const State& state, const Loading& loading, const std::string& where,
                   std::set<std::string>& changes) const {
    add_changes(built.newton->status_changes(a.newton, a.state, state, loading, options), where, changes);
  }
};

/// Where the filling's contacts wake on the neighbour: offsets that the fitted state takes over.
bool take_offsets(const Search& s, State& fitted) {
  if (!s.anchored.unfilled) return true;
  auto state = carried_over(*s.anchored.built, s.anchored.unfilled->state, s.built);
  if (!state || !s.settle(*s.anchored.unfilled, *state, s.anchored.unfilled->loading)) return false;
  for (std::size_t pair : s.built.filled_after) s.built.system->wake(*state, pair);
  for (std::size_t k = 0; k < fitted.contact.size(); ++k) {
    fitted.contact[k].offset_normal = state->contact[k].offset_normal;
    fitted.contact[k].offset_tangent = state->contact[k].offset_tangent;
  }
  return true;
}

/// The fitted foot in the air.
std::optional<PhaseSolution> neighbour_fit(const Search& s, NeighbourPhase& said) {
  auto state = carried_over(*s.anchored.built, s.anchored.fitted->state, s.built);
  if (!state || !take_offsets(s, *state)) return {};
  PhaseSolution fit;
  fit.loading = s.anchored.fitted->loading;
  fit.loading.hold_pitch = s.built.rest_pitch;
  if (!s.settle(*s.anchored.fitted, *state, fit.loading)) return {};
  s.say_changes(*s.anchored.fitted, *state, fit.loading, "fit-up: ", said.changes);
  fit.touching = s.built.system->touching_distance(*state, s.built.rest_pitch);
  fit.reactions = s.built.newton->reactions();
  fit.state = std::move(*state);
  fit.solved = true;
  return fit;
}

/// The baseline's tendon follows the reference centre of pressure, as in balance_on_reference.
bool balance_reference(const Search& s, const Anchor& a, const Demand& demand, PhaseSolution& n, TendonSlack& slack) {
  double wanted = 0;
  for (int pass = 0; pass < kMostPasses; ++pass) {
    const auto path = solver::cable_path(*n.loading.cable, n.state.q[pitch_dof(s.built)]);
    wanted = (demand.normal * demand.cop + demand.tangential * force_distance(s.built, n.state)) / -path.dL;
    const double tension = std::max(0.0, wanted);
    const bool stands = std::abs(tension - *n.loading.cable->tension) <= 1e-12 * std::max(1.0, tension);
    if (pass > 1 && stands) break;
    n.loading.cable->tension = tension;
    if (!s.settle(a, n.state, n.loading)) return false;
  }
  const auto path = solver::cable_path(*n.loading.cable, n.state.q[pitch_dof(s.built)]);
  slack.length.emplace_back(n.phase, path.length - wanted / n.loading.cable->stiffness - posture_of(s.run).slack);
  return true;
}

/// The pitch at which the heel lifts, by secants; the moment that holds it there.
bool lift_heel(const Search& s, const Anchor& a, PhaseSolution& n) {
  const auto excess_at = [&](double pitch) -> std::optional<double> {
    n.loading.hold_pitch = pitch;
    if (!s.settle(a, n.state, n.loading)) return {};
    return solver::contact_share(*s.built.newton, s.built.rear_contacts, n.loading.normal_force) - kLiftedShare;
  };
  double before = *a.loading.hold_pitch, now = before + kPitchStep;
  auto e_before = excess_at(before), e_now = excess_at(now);
  for (int i = 0; i < kMostPasses && e_before && e_now; ++i) {
    if (std::abs(*e_now) <= 1e-12 || *e_now == *e_before) break;
    const double next = now - *e_now * (now - before) / (*e_now - *e_before);
    before = now, e_before = e_now;
    now = next, e_now = excess_at(next);
  }
  if (!e_now || std::abs(*e_now) > 1e-9) return false;
  n.moment = s.built.newton->reactions()[pitch_dof(s.built)];
  return true;
}

bool roll_near(const Search& s, const Anchor& rolled, PhaseSolution& n, std::set<std::string>& changes) {
  auto state = carried_over(*s.anchored.built, rolled.state, s.built);
  if (!state) return false;
  Loading loading = n.loading;
  loading.cable.reset();
  const bool is_beyond = *rolled.loading.hold_pitch > *n.loading.hold_pitch;
  loading.hold_pitch = is_beyond ? *rolled.loading.hold_pitch - s.anchored.built->rest_pitch + s.built.rest_pitch
                                 : *n.loading.hold_pitch;
  if (!s.settle(rolled, *state, loading)) return false;
  s.say_changes(rolled, *state, loading, "rolled over: ", changes);
  read_rolled(s.built, *state, n);
  return true;
}

bool neighbour_breakover(const Search& s, const AnchoredPhase& at, const Demand& demand, PhaseSolution& n,
                         std::set<std::string>& changes) {
  n.loading.cable.reset();
  if (!lift_heel(s, *at.anchor, n)) return false;
  n.reactions = s.built.newton->reactions();
  s.say_changes(*at.anchor, n.state, n.loading, "", changes);
  solver::Cable tendon = *s.built.tendon;
  tendon.extension = demand.extension;
  const auto path = solver::cable_path(tendon, *n.loading.hold_pitch);
  n.cable_tension = n.moment / -path.dL;
  tendon.tension = n.cable_tension;
  n.loading.cable = tendon;
  return !at.rolled || roll_near(s, *at.rolled, n, changes);
}

/// The anchor's loading with the neighbour's own demand, tendon and slack.
Loading neighbour_loading(const Search& s, const AnchoredPhase& at, const Demand& demand, const TendonSlack& slack) {
  Loading loading = at.solution.loading;
  loading.normal_force = demand.normal;
  loading.tangential_force = demand.tangential;
  if (loading.hold_pitch && at.solution.phase != Phase::breakover) loading.hold_pitch = s.built.rest_pitch;
  if (!loading.cable) return loading;
  solver::Cable tendon = *s.built.tendon;
  tendon.extension = demand.extension;
  tendon.tension = loading.cable->tension;
  if (at.solution.phase == Phase::press) tendon.tension = s.run.load.tendon_force;
  if (const auto length = slack.of(at.solution.phase); length && !tendon.tension)
    tendon.slack_length = *length + posture_of(s.run).slack;
  loading.cable = tendon;
  return loading;
}

NeighbourPhase neighbour_phase(const Search& s, const AnchoredPhase& at, const PhaseSolution& fit,
                               const TendonSlack& given, TendonSlack& found) {
  NeighbourPhase said;
  PhaseSolution n = fit;
  n.phase = at.solution.phase;
  if (n.phase != Phase::swing) {
    auto state = carried_over(*s.anchored.built, at.anchor->state, s.built);
    if (!state) {
      said.why = "the mesh has other points";
      return said;
    }
    n.state = std::move(*state);
    for (std::size_t k = 0; k < n.state.contact.size(); ++k) {
      n.state.contact[k].offset_normal = fit.state.contact[k].offset_normal;
      n.state.contact[k].offset_tangent = fit.state.contact[k].offset_tangent;
    }
    const Demand demand = demand_of(s.run, n.phase);
    n.loading = neighbour_loading(s, at, demand, given);
    bool found_it = true;
    if (n.phase == Phase::breakover) {
      found_it = neighbour_breakover(s, at, demand, n, said.changes);
    } else {
      found_it = s.settle(*at.anchor, n.state, n.loading);
      const bool sets = s.anchored.is_baseline && s.built.kind == ModelKind::sagittal && n.phase != Phase::press;
      if (found_it && sets) found_it = balance_reference(s, *at.anchor, demand, n, found);
      if (found_it) s.say_changes(*at.anchor, n.state, n.loading, "", said.changes);
      n.path = {};
      const double moment = n.moment;
      finish(s.built, n);
      n.moment = n.loading.cable ? n.moment : moment;
    }
    if (!found_it) {
      said.why = "no equilibrium near this one with the same contacts";
      return said;
    }
  }
  said.values = measure(s.built, s.run, n);
  return said;
}

}  // namespace

AnchoredRun anchored_run(const Case& run, ModelKind kind, const materials::Catalogue& catalogue,
                         const TendonSlack& slack, bool is_baseline) {
  AnchoredRun anchor;
  anchor.run = run;
  anchor.slack = slack;
  anchor.is_baseline = is_baseline;
  ModelResult built = build_run(run, kind, catalogue, run.study.density);
  anchor.built = built.built;
  anchor.why = built.why;
  if (!anchor.built) return anchor;
  const FittedFoot fit = fit_foot(*anchor.built, run);
  anchor.fit = fit.solution;
  if (!fit.solution.solved) {
    anchor.why = fit.solution.why;
    return anchor;
  }
  if (fit.unfilled) anchor.unfilled = anchored(*anchor.built, *fit.unfilled, fit.solution.loading, anchor);
  anchor.fitted = anchored(*anchor.built, fit.solution.state, fit.solution.loading, anchor);
  for (const Phase phase : run.load.phases) {
    if (phase == Phase::stance || (kind == ModelKind::axisymmetric && phase == Phase::breakover)) continue;
    PhaseSolution solution = fit.solution;
    solution.phase = phase;
    if (phase != Phase::swing)
      solution = solve_phase(*anchor.built, run, fit.solution, phase, anchor.slack, is_baseline);
    anchor.phases.push_back(anchored_phase(anchor, std::move(solution)));
  }
  return anchor;
}

Neighbour neighbour_of(const AnchoredRun& anchored, const Case& shifted, const materials::Catalogue& catalogue,
                       const TendonSlack& slack) {
  Neighbour neighbour;
  const ModelResult built = build_run(shifted, anchored.built->kind, catalogue, shifted.study.density);
  if (!built.built) {
    neighbour.why = built.why;
    return neighbour;
  }
  const Search search{anchored, shifted, *built.built, path_options(shifted).newton};
  NeighbourPhase in_air;
  const auto fit = neighbour_fit(search, in_air);
  if (!fit) {
    neighbour.why = "the mesh has other points, or no fitted foot near this one";
    return neighbour;
  }
  for (const AnchoredPhase& phase : anchored.phases) {
    NeighbourPhase said;
    said.why = phase.why;
    if (phase.anchor) said = neighbour_phase(search, phase, *fit, slack, neighbour.slack);
    said.changes.insert(in_air.changes.begin(), in_air.changes.end());
    neighbour.phases.push_back(std::move(said));
  }
  return neighbour;
}

}  // namespace hoofload::scenarios
