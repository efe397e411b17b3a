// What the side view and the axisymmetric section have in common: field, pressure ribbon, heading, shared scales.
#pragma once

#include <string>
#include <vector>

#include "scenarios/comparison.hpp"
#include "viz/marks.hpp"
#include "viz/section.hpp"

namespace hoofload::scenarios {

/// A solved phase of one run that is to be drawn.
struct Drawn {
  std::size_t run;
  const RunResult* result;
  const BuiltModel* built;
  const PhaseResult* phase;
};

[[nodiscard]] std::vector<Drawn> drawn_runs(const std::vector<RunResult>& results, ModelKind model, Phase phase);

/// The mesh displaced and coloured by -sigma_yy [kPa] in the soft regions that it has.
[[nodiscard]] viz::Section stress_section(const Drawn& drawn);

/// Pressure on the sole at the places where the section is drawn.
[[nodiscard]] viz::PressureRibbon sole_ribbon(const Drawn& drawn, const viz::Section& section);

/// Option, phase, model and the listed quantities that the run has, as facts.
[[nodiscard]] viz::Heading heading_of(const Drawn& drawn, const std::string& model,
                                      const std::vector<std::string>& quantities);

/// From zero to what 98 % of the field's nodes stay below in every section, rounded.
[[nodiscard]] viz::ColourScale shared_scale(const std::vector<viz::Section>& sections);

/// Millimetres a kPa, so that the largest pressure of all ribbons stands 14 mm off the sole.
[[nodiscard]] double shared_ribbon_scale(const std::vector<viz::PressureRibbon>& ribbons);

[[nodiscard]] std::string picture_name(const std::vector<RunResult>& results, const Drawn& drawn,
                                       const std::string& kind);

/// How far the foot has sunk into a bed at its deepest [mm], to scale; 0 on rigid ground.
[[nodiscard]] double indentation(const Drawn& drawn);

}  // namespace hoofload::scenarios
