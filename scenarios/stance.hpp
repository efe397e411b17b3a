// The whole stance in quasi-static steps: each from the state of the last, the tendon's slack length of every step found on
// the baseline and frozen for the options (docs/theory.md, section 19).
#pragma once

#include "scenarios/quantities.hpp"

namespace hoofload::scenarios {

/// One balanced step.
struct StanceStep {
  double share = 0;  ///< of stance, 0 to 1
  Quantities values;
  BalanceCheck balance;
  double stretch = 0;     ///< tendon's path over its slack length, negative when slack [mm]
  double wrap = 0;        ///< angle of the tendon on the navicular [rad]
  double heel_share = 0;  ///< of the load, on the rear 15 % of the bearing length
};

struct StanceEvent {
  std::string name;
  double share = 0;  ///< of stance
};

struct StanceSeries {
  std::vector<StanceStep> steps;    ///< in the order of their shares; closer where an event or a peak was sought
  std::vector<StanceEvent> events;  ///< in the order of their shares
  std::string ended;                ///< why it ends before its last step; empty if it does not
};

inline constexpr double kFirstShare = 0.05, kLastShare = 0.95;  ///< no load is left at 0 and 1

/// Share of step k of n.
[[nodiscard]] double share_of_step(int k, int n);

/// Keys of the catalogue that a series holds.
[[nodiscard]] const std::vector<std::string>& series_keys();

/// The steps' values of one key; empty when the model does not give it.
[[nodiscard]] std::vector<double> values_of(const StanceSeries& series, std::string_view key);
[[nodiscard]] std::vector<double> shares_of(const StanceSeries& series);

/// Of every key of the series the value of the largest size, and when the main ones come.
[[nodiscard]] Quantities stance_peaks(const StanceSeries& series);

/// The worst over the steps.
[[nodiscard]] BalanceCheck worst_balance(const StanceSeries& series);

/// Solves the stance of one run from the fitted foot. The solution's state is that of the step with the largest tendon force
/// (axisymmetric: load). Solved when every step is, or all until past heel-off.
[[nodiscard]] PhaseSolution solve_stance(const std::shared_ptr<BuiltModel>& built, const Case& run,
                                         const PhaseSolution& fit, TendonSlack& slack, bool baseline);

}  // namespace hoofload::scenarios
