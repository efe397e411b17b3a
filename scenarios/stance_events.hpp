// Events and peaks of a stance, solved for: steps are added where a reading crosses a threshold or is largest, so that neither
// depends on the regular steps (docs/theory.md, Eqs. (91) to (93)).
#pragma once

#include <string_view>

#include "scenarios/stance_solver.hpp"

namespace hoofload::scenarios {

inline constexpr std::string_view kTaut = "tendon taut", kSlack = "tendon slack", kHeelOff = "heel-off",
                                  kWrapEnd = "tendon leaves navicular", kSoleCloses = "sole contact closes",
                                  kSoleOpens = "sole contact opens", kTopples = "no balance beyond";

/// Between the last regular step and a share without equilibrium: adds the last balance there is, and its event.
void find_end(StanceSolver& solver, StanceSeries& series, double beyond);

/// Fills `events`, in the order of their shares, and adds the steps that were solved on the way.
void find_events(StanceSolver& solver, StanceSeries& series);

/// Adds steps near the largest size of every key.
void refine_peaks(StanceSolver& solver, StanceSeries& series);

[[nodiscard]] bool has_event(const StanceSeries& series, std::string_view name);

}  // namespace hoofload::scenarios
