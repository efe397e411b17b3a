// Numbers of the published effects, read from solved cases. All throw std::runtime_error when the phase was not solved or does
// not give the quantity.
#pragma once

#include "scenarios/effects.hpp"

namespace hoofload::scenarios {

/// Where a quantity is read: case, run, phase.
struct EffectPlace {
  std::string_view case_name, run;
  Phase phase = Phase::standing;
  ModelKind model = ModelKind::sagittal;
};

[[nodiscard]] double reading(const EffectCases& cases, const EffectPlace& at, std::string_view key);

using AmountOf = std::function<Amount(const EffectCases&)>;

[[nodiscard]] AmountOf value_of(EffectPlace at, std::string_view key);
/// Sum of two quantities.
[[nodiscard]] AmountOf sum_of(EffectPlace at, std::string_view key, std::string_view other);
/// Other run less baseline, in the quantity's unit; size S: the larger of the two.
[[nodiscard]] AmountOf change_of(EffectPlace baseline, std::string_view run, std::string_view key);
/// The same in percent of the baseline.
[[nodiscard]] AmountOf percent_of(EffectPlace baseline, std::string_view run, std::string_view key);

/// Change of the largest zone mean of the ground pressure, of three [%].
[[nodiscard]] AmountOf peak_ground_pressure_change(EffectPlace baseline, std::string_view run);

/// Turn of the coffin joint, flexion positive, per degree of elevation: the foot's turn less the pastern's [deg/deg].
[[nodiscard]] AmountOf coffin_turn_per_degree(EffectPlace baseline, std::string_view run);

/// Slope of the navicular force over palmar angle between feet each of which is a baseline of its own [%/deg].
[[nodiscard]] AmountOf navicular_slope_between_feet(std::string_view flatter, std::string_view steeper);

/// Change of the mean pressure in the digital cushion (volume mean of -tr(sigma)/3) between two phases of one run [kPa].
[[nodiscard]] AmountOf cushion_pressure_change(EffectPlace from, Phase to);

/// The dorsal wall's outer face at the mid-line: strain along the wall or across it (z) at a height above the bearing plane
/// [ue]. `cop` given: interpolated linearly between the runs of the case at that centre of pressure [mm].
enum class GaugeAxis { along, across };
[[nodiscard]] AmountOf dorsal_strain(std::string_view case_name, GaugeAxis axis, double height, double cop);

/// Centre of pressure at which the dorsal strain along the wall has a value [mm ahead of the joint], by the same interpolation.
[[nodiscard]] AmountOf cop_of_dorsal_strain(std::string_view case_name, double height, double strain);

}  // namespace hoofload::scenarios
