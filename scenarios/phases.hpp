// Order of work and loads: fit-up, then each phase from the fitted foot (swing, standing, midstance, breakover, stance, press).
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "scenarios/built_model.hpp"
#include "solver/load_path.hpp"

namespace hoofload::scenarios {

struct StanceSeries;

/// One solved phase: where the model is, under what, and how well it got there.
struct PhaseSolution {
  Phase phase = Phase::swing;
  solver::State state;
  solver::Loading loading;
  solver::PathReport path;
  Eigen::VectorXd reactions;  ///< dPi/dq
  double touching = 0;        ///< distance d at first touch of the fitted foot
  double cable_tension = 0;   ///< tendon force [N]
  double moment = 0;          ///< of the tendon about the coffin joint [N mm]
  double rolled_moment = 0;   ///< breakover: the same 5 degrees of pitch beyond the level shoe [N mm]
  double rolled_cop = 0;      ///< breakover: centre of pressure then, ahead of the joint [mm]
  solver::Vec2 rolled_pivot = solver::Vec2::Zero();  ///< breakover: its place in the bone's frame [mm]
  std::shared_ptr<const solver::State> rolled;       ///< breakover: where it stands then; a warm start's
  std::shared_ptr<const StanceSeries> series;        ///< stance only: its steps; the state is that of one of them
  bool solved = false;
  std::string remark;  ///< solved, but something is missing from it
  std::string why;     ///< when not solved
};

/// Slack length by share of stance; nothing where the baseline has none.
using SlackByShare = std::function<std::optional<double>(double share)>;

/// Slack length of the tendon per phase, and through the stance by its share, found on the baseline and then frozen.
struct TendonSlack {
  std::vector<std::pair<Phase, double>> length;
  SlackByShare at_share;  ///< solves the baseline there if it has not been
  [[nodiscard]] std::optional<double> of(Phase phase) const;
};

/// The fitted foot in the air, and where a filling that goes in after nailing found it.
struct FittedFoot {
  PhaseSolution solution;
  std::optional<solver::State> unfilled;  ///< before the filling's contacts wake
};

/// Nails the shoe, squeezes what was packed before, then lets a later filling take its place.
[[nodiscard]] FittedFoot fit_foot(BuiltModel& built, const Case& run);

/// One phase but the stance from the fitted foot; `slack` as in solve_phases.
[[nodiscard]] PhaseSolution solve_phase(BuiltModel& built, const Case& run, const PhaseSolution& fit, Phase phase,
                                        TendonSlack& slack, bool baseline);

/// Solves the asked phases of one run. `slack`: empty on the baseline (filled here), given on an option.
[[nodiscard]] std::vector<PhaseSolution> solve_phases(const std::shared_ptr<BuiltModel>& built, const Case& run,
                                                      TendonSlack& slack, bool baseline);

}  // namespace hoofload::scenarios
