// The balance of one load on the fitted foot: ground under it, load, then the pitch freed against the tendon. What phases and
// the steps of a stance share.
#pragma once

#include "scenarios/phases.hpp"

namespace hoofload::scenarios {

[[nodiscard]] int pitch_dof(const BuiltModel& built);
[[nodiscard]] int distance_dof(const BuiltModel& built);

/// Distance of the joint from the level at which the ground's force acts: d, and on a bed the mean depth as well, Eq. (100).
[[nodiscard]] double force_distance(const BuiltModel& built, const solver::State& state);

[[nodiscard]] solver::PathReport follow(BuiltModel& built, const Case& run, solver::State& state,
                                        const solver::Loading& from, const solver::Loading& to);
/// What a run asks of every way from one equilibrium to another.
[[nodiscard]] solver::PathOptions path_options(const Case& run);
[[nodiscard]] bool good(const solver::PathReport& path);

/// Share of the ground's force on the rear contacts at which the heel counts as lifted, Eq. (66).
inline constexpr double kLiftedShare = 0.01;

/// What the ground is to carry [N], the reference centre of pressure [mm] and the pastern's rotation [rad].
struct Demand {
  double normal = 0, tangential = 0, cop = 0, extension = 0;
};
[[nodiscard]] Demand demand_of(const Case& run, Phase phase);
/// At a share of stance.
[[nodiscard]] Demand demand_at(const Case& run, double share);

/// Slack length of one balance: found on the baseline, or frozen and given to an option.
struct SlackLength {
  bool is_frozen = false;
  std::optional<double> length;
};

/// Ground under the fitted foot, then the load, pitch held at the level ground's.
[[nodiscard]] PhaseSolution press_level(BuiltModel& built, const Case& run, const PhaseSolution& fit, Phase phase,
                                        const Demand& demand);

/// Frees the pitch against the tendon: at its reference tension on the baseline, at its frozen slack length on an option,
/// at a given force in the press.
void balance_on_tendon(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand, SlackLength& slack);

/// From one balance to the next, pitch free: `s` is balanced under another demand.
void balance_on_next(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand, SlackLength& slack);

/// Reactions, tendon force and moment of the state reached.
void finish(const BuiltModel& built, PhaseSolution& s);

/// "not converged at 40 % of the load".
[[nodiscard]] std::string why_not(const PhaseSolution& s);

}  // namespace hoofload::scenarios
