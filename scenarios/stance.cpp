#include "scenarios/stance.hpp"

#include <algorithm>
#include <cmath>

#include "scenarios/stance_events.hpp"
#include "scenarios/stance_smooth.hpp"
#include "scenarios/stance_solver.hpp"

namespace hoofload::scenarios {

double share_of_step(int k, int n) { return kFirstShare + (kLastShare - kFirstShare) * k / (n - 1); }

PhaseSolution solve_stance(const std::shared_ptr<BuiltModel>& built, const Case& run, const PhaseSolution& fit,
                           TendonSlack& slack, bool baseline) {
  auto series = std::make_shared<StanceSeries>();
  // The baseline's solver outlives its phase: options ask it for slack lengths at shares of their own events.
  const SlackByShare none_found = [](double) { return std::optional<double>(); };
  const auto solver = std::make_shared<StanceSolver>(built, run, fit,
                                                     baseline         ? SlackByShare()
                                                     : slack.at_share ? slack.at_share
                                                                      : none_found);
  if (baseline) slack.at_share = [solver](double share) { return solver->slack_at(share); };
  for (int k = 0; k < run.load.steps; ++k) {
    const double share = share_of_step(k, run.load.steps);
    if (!solver->add_regular(share)) {
      series->ended = solver->why();
      find_end(*solver, *series, share);
      break;
    }
    series->steps.push_back(*solver->at(share));
  }
  PhaseSolution whole = solver->largest();
  find_events(*solver, *series);
  refine_peaks(*solver, *series);
  whole.phase = Phase::stance;
  whole.solved = series->ended.empty() || has_event(*series, kHeelOff);
  (whole.solved ? whole.remark : whole.why) = series->ended;
  whole.series = std::move(series);
  return whole;
}

const std::vector<std::string>& series_keys() {
  static const std::vector<std::string> keys{"ddft_moment",
                                             "ddft_moment_per_mass",
                                             "ddft_force",
                                             "navicular_force",
                                             "navicular_force_per_mass",
                                             "cop",
                                             "coffin_moment",
                                             "pip_moment",
                                             "mcp_moment",
                                             "ground_pressure_toe",
                                             "ground_pressure_middle",
                                             "ground_pressure_heel",
                                             "sole_pressure_peak",
                                             "sole_pressure_mean",
                                             "sole_contact_area",
                                             "corium_pressure_peak",
                                             "corium_pressure_mean",
                                             "lamella_stress_dorsal",
                                             "lamella_energy_dorsal",
                                             "bone_sink",
                                             "bone_rotation"};
  return keys;
}

std::vector<double> shares_of(const StanceSeries& series) {
  std::vector<double> shares;
  for (const StanceStep& step : series.steps) shares.push_back(step.share);
  return shares;
}

std::vector<double> values_of(const StanceSeries& series, std::string_view key) {
  std::vector<double> values;
  for (const StanceStep& step : series.steps) {
    const auto it = step.values.find(key);
    if (it == step.values.end()) return {};
    values.push_back(it->second);
  }
  return values;
}

Quantities stance_peaks(const StanceSeries& series) {
  Quantities peaks;
  const std::vector<double> shares = shares_of(series);
  for (const std::string& key : series_keys()) {
    const std::vector<double> values = values_of(series, key);
    if (values.empty()) continue;
    const Peak peak = peak_of(shares, values);
    peaks[key] = peak.y;
    if (key == "ddft_moment") peaks["ddft_peak_at"] = 100 * peak.x;
    if (key == "navicular_force") peaks["navicular_peak_at"] = 100 * peak.x;
  }
  for (const StanceEvent& event : series.events) {
    if (event.name == kHeelOff) peaks["heel_off_at"] = 100 * event.share;
    if (event.name == kTaut) peaks["tendon_taut_at"] = 100 * event.share;
  }
  return peaks;
}

BalanceCheck worst_balance(const StanceSeries& series) {
  BalanceCheck worst;
  for (const StanceStep& step : series.steps) {
    worst.force = std::max(worst.force, step.balance.force);
    worst.moment = std::max(worst.moment, step.balance.moment);
    worst.bone_ledger = std::max(worst.bone_ledger, step.balance.bone_ledger);
    worst.ground_ledger = std::max(worst.ground_ledger, step.balance.ground_ledger);
  }
  return worst;
}

}  // namespace hoofload::scenarios
