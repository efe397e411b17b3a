#include "scenarios/stance.hpp"

#include <algorithm>
#include <cmath>

#include "scenarios/phases_balance.hpp"
#include "scenarios/stance_events.hpp"
#include "scenarios/stance_smooth.hpp"
#include "scenarios/tendon.hpp"

namespace hoofload::scenarios {

namespace {

StanceStep measured(const BuiltModel& built, const Case& run, const PhaseSolution& s, double share,
                    const std::optional<double>& slack) {
  StanceStep step{share, measure(built, run, s), check_balance(built, s), 0, 0, 0};
  std::erase_if(step.values, [](const auto& entry) {
    const auto& keys = series_keys();
    return std::find(keys.begin(), keys.end(), entry.first) == keys.end();
  });
  if (!s.loading.cable) return step;
  const auto path = solver::cable_path(*s.loading.cable, s.state.q[pitch_dof(built)]);
  step.stretch = path.length - (slack.value_or(0) + posture_of(run).slack);
  step.wrap = path.wrap;
  step.heel_share = solver::contact_share(*built.newton, built.rear_contacts, s.loading.normal_force);
  return step;
}

/// One step: from the last one's state, or afresh from the fitted foot where there is none or the way is barred.
PhaseSolution next_step(BuiltModel& built, const Case& run, const PhaseSolution& fit, const PhaseSolution* last,
                        double share, SlackLength& slack) {
  const Demand demand = demand_at(run, share);
  PhaseSolution s;
  if (last != nullptr) {
    s = *last;
    balance_on_next(built, run, s, demand, slack);
    if (good(s.path)) {
      finish(built, s);
      return s;
    }
  }
  s = press_level(built, run, fit, Phase::stance, demand);
  if (s.solved && built.kind == ModelKind::sagittal) balance_on_tendon(built, run, s, demand, slack);
  finish(built, s);
  if (!s.solved && s.why.empty()) s.why = why_not(s);
  return s;
}

double size_of(const PhaseSolution& s) { return s.loading.cable ? s.cable_tension : s.loading.normal_force; }

std::string at_share(double share) { return "at " + std::to_string(std::lround(100 * share)) + " % of stance: "; }

}  // namespace

double share_of_step(int k, int n) { return kFirstShare + (kLastShare - kFirstShare) * k / (n - 1); }

PhaseSolution solve_stance(BuiltModel& built, const Case& run, const PhaseSolution& fit, TendonSlack& slack,
                           bool baseline) {
  auto series = std::make_shared<StanceSeries>();
  PhaseSolution last, most;
  for (int k = 0; k < run.load.steps; ++k) {
    const double share = share_of_step(k, run.load.steps);
    SlackLength length{!baseline, baseline ? std::nullopt : slack.at(share)};
    PhaseSolution s = next_step(built, run, fit, k == 0 ? nullptr : &last, share, length);
    if (!s.solved) {
      series->ended = at_share(share) + s.why;
      break;
    }
    if (baseline && length.length) slack.stance.emplace_back(share, *length.length);
    series->steps.push_back(measured(built, run, s, share, length.length));
    if (k == 0 || size_of(s) > size_of(most)) most = s;
    last = std::move(s);
  }
  add_events(*series);
  PhaseSolution whole = series->steps.empty() ? fit : most;
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
