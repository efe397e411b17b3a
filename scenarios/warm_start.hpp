// A changed run from the solution of a fixed anchor run, instead of from the unloaded foot: for sliders and sweeps.
//
// The anchor is only where Newton starts: equilibrium is tested as in a cold solve. What a warm start cannot know is the
// changed run's own history: points that stick do so where the anchor's stuck, so with friction the answer may differ from
// the cold one by what the history is worth. Always from the same anchor, so that results do not depend on the order of runs.
#pragma once

#include "scenarios/phases.hpp"

namespace hoofload::scenarios {

/// The anchor's state on another model: the same displacements, jumps, element internals and contacts, the ground moved and
/// turned as the unloaded shoe is. Nothing if the two models differ in their numbers of nodes, contacts, mixed elements or
/// springs that remember.
[[nodiscard]] std::optional<solver::State> carried_over(const BuiltModel& anchor, const solver::State& state,
                                                        const BuiltModel& built);

/// Solves one phase of `run` from the same phase of the anchor; slack length as in solve_phases: frozen for an option, found
/// (and put into `slack`) for a baseline. Nothing where only a cold solve will do: other topology, an anchor that is not
/// solved, a filling after nailing in the air, a whole stance, a press, or no equilibrium on this way.
[[nodiscard]] std::optional<PhaseSolution> solve_warm(const BuiltModel& anchor, const PhaseSolution& solution,
                                                      BuiltModel& built, const Case& run, TendonSlack& slack,
                                                      bool baseline = false);

}  // namespace hoofload::scenarios
