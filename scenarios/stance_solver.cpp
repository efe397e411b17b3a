#include "scenarios/stance_solver.hpp"

#include <algorithm>

#include "scenarios/phases_balance.hpp"
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

double size_of(const PhaseSolution& s) { return s.loading.cable ? s.cable_tension : s.loading.normal_force; }

}  // namespace

StanceSolver::StanceSolver(std::shared_ptr<BuiltModel> built, Case run, PhaseSolution fit, SlackByShare frozen)
    : built_(std::move(built)), run_(std::move(run)), fit_(std::move(fit)), frozen_(std::move(frozen)) {}

/// From the last balance's state, or afresh from the fitted foot where there is none or the way is barred.
PhaseSolution StanceSolver::solve(double share, const PhaseSolution* last, Balance& balance) {
  SlackLength slack{bool(frozen_), frozen_ ? frozen_(share) : std::nullopt};
  const Demand demand = demand_at(run_, share);
  PhaseSolution s;
  if (last != nullptr) {
    s = *last;
    s.why.clear();
    balance_on_next(*built_, run_, s, demand, slack);
  }
  if (last == nullptr || !good(s.path)) {
    s = press_level(*built_, run_, fit_, Phase::stance, demand);
    if (s.solved && built_->kind == ModelKind::sagittal) balance_on_tendon(*built_, run_, s, demand, slack);
  }
  finish(*built_, s);
  if (!s.solved) {
    why_ = s.why.empty() ? why_not(s) : s.why;
    return s;
  }
  balance.slack = slack.length;
  balance.step = measured(*built_, run_, s, share, slack.length);
  return s;
}

bool StanceSolver::add_regular(double share) {
  Balance balance;
  PhaseSolution s = solve(share, regular_.empty() ? nullptr : &regular_.back().solution, balance);
  if (!balance.step) return false;
  balances_[share] = std::move(balance);
  regular_.push_back({share, std::move(s)});
  return true;
}

const StanceSolver::Balance& StanceSolver::balance_at(double share) {
  static const Balance none;
  if (const auto it = balances_.find(share); it != balances_.end()) return it->second;
  const auto after = std::find_if(regular_.begin(), regular_.end(), [&](const Regular& r) { return r.share > share; });
  if (after == regular_.begin()) return none;
  Balance balance;
  (void)solve(share, &std::prev(after)->solution, balance);
  return balances_[share] = std::move(balance);
}

const StanceStep* StanceSolver::at(double share) {
  const Balance& balance = balance_at(share);
  return balance.step ? &*balance.step : nullptr;
}

std::optional<double> StanceSolver::slack_at(double share) { return balance_at(share).slack; }

const PhaseSolution& StanceSolver::largest() const {
  const auto it = std::max_element(regular_.begin(), regular_.end(), [](const Regular& a, const Regular& b) {
    return size_of(a.solution) < size_of(b.solution);
  });
  return it == regular_.end() ? fit_ : it->solution;
}

}  // namespace hoofload::scenarios
