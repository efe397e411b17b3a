// The stance as a row of solved states, for moving pictures: where solve_stance keeps the readings of its steps, here the
// states are kept.
#pragma once

#include "scenarios/run.hpp"

namespace hoofload::scenarios {

/// One run's stance. Every place is balanced from the place before it, the baseline's tendon set at each and frozen for the
/// options, as in the phase "stance".
struct StanceFrames {
  Case run;
  std::shared_ptr<BuiltModel> built;  ///< null when it could not be built
  std::vector<double> shares;         ///< of stance, 0 to 1
  std::vector<PhaseSolution> states;  ///< one a share
  std::string ended;                  ///< why it ends before the last place; empty if it does not
};

/// Of all runs in the sagittal model at `places` evenly spaced shares from kFirstShare to kLastShare (stance.hpp); baseline
/// first. `report` gets solved places and may throw to break off. Never throws for what cannot be built or solved.
[[nodiscard]] std::vector<StanceFrames> stance_frames(const std::vector<Case>& runs,
                                                      const materials::Catalogue& catalogue, int places,
                                                      const std::function<void(const RunProgress&)>& report = {});

/// The runs at one place as results whose only phase is Phase::stance, so that everything that draws or measures a phase can
/// be used. A run whose stance has ended before has none.
[[nodiscard]] std::vector<RunResult> results_at(const std::vector<StanceFrames>& all, std::size_t place);

}  // namespace hoofload::scenarios
