// Pictures of a comparison: for each option and phase the side view and the axisymmetric section, and for each phase and model
// the sole's pressure of all options in one plot.
//
// Every picture of one phase and model shares window, colour scale, force scale and pressure scale, so options can be laid
// side by side. Displacements are magnified by kDeformationScale, the ground's descent and pitch with them (on a bed both are to scale). Field: vertical
// compressive stress -sigma_yy of the soft parts [kPa].
#pragma once

#include <string>
#include <vector>

#include "scenarios/comparison.hpp"

namespace hoofload::scenarios {

inline constexpr double kDeformationScale = 3;

struct Picture {
  std::string file;  ///< name without folder
  std::string svg;
};

[[nodiscard]] std::vector<Picture> all_pictures(const std::vector<RunResult>& results);

/// The parts, one phase at a time; empty when the model was not asked for or nothing was solved.
[[nodiscard]] std::vector<Picture> side_views(const std::vector<RunResult>& results, Phase phase);
[[nodiscard]] std::vector<Picture> axisymmetric_sections(const std::vector<RunResult>& results, Phase phase);
[[nodiscard]] std::vector<Picture> pressure_profiles(const std::vector<RunResult>& results, Phase phase);
/// Breakover only: the arm over direction of all options in one plot.
[[nodiscard]] std::vector<Picture> direction_plots(const std::vector<RunResult>& results, Phase phase);
/// Stance only: tendon moment, navicular force and centre of pressure of all options over the share of stance.
[[nodiscard]] std::vector<Picture> stance_curves(const std::vector<RunResult>& results, Phase phase);

}  // namespace hoofload::scenarios
