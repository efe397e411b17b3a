// Breakover: the heel's lift-off as an event, and the roll over the toe behind it.
#pragma once

#include "scenarios/phases_balance.hpp"

namespace hoofload::scenarios {

/// Lifts the heel of the loaded, level foot under a held pitch: the moment at the event is what the tendon must hold.
void lift_heel(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand);

/// The same from another event close by: `s` holds its state on this model and its loading. `rolled`: the state rolled on
/// over the toe there, if there was one; without it the roll starts from the event.
void find_heel_off(BuiltModel& built, const Case& run, PhaseSolution& s, const Demand& demand,
                   const solver::State* rolled);

/// Where a foot at heel-off stands once it has rolled on over the toe, and under what.
struct RolledFoot {
  solver::State state;
  solver::Loading loading;
  solver::PathReport path;
};
[[nodiscard]] RolledFoot roll_on(BuiltModel& built, const Case& run, const PhaseSolution& at_heel_off);
/// Reads moment, pivot and centre of pressure there; the rolled foot is what the model's Newton solved last.
void read_rolled(const BuiltModel& built, const solver::State& rolled, PhaseSolution& s);

}  // namespace hoofload::scenarios
