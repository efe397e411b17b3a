// Ground force, centre of pressure and coffin-joint extension over a stance, per kg of body mass.
//
// Synthesised so that the peaks meet published ones (Merkens 1993, Rogers & Back 2007, Eliashar 2002; grade D): the curves
// themselves were not measured. Between the points: monotone cubic, Eq. (88) (Fritsch & Carlson 1980). A table of the case
// (load.curve) replaces forces and pastern; the reference centre of pressure stays that of the gait, at the same share.
#pragma once

#include "scenarios/case.hpp"
#include "scenarios/stance_smooth.hpp"

namespace hoofload::scenarios {

struct LoadPoint {
  double normal = 0;      ///< F_n per kg, on the foot, along the ground normal [N/kg]
  double tangential = 0;  ///< F_t per kg, forward (propulsive) positive [N/kg]
  double cop = 0;         ///< baseline's centre of pressure ahead of the joint centre [mm]
  double extension = 0;   ///< of the coffin joint against standing [rad]
};

/// The same four over the share of stance, 0 to 1.
struct LoadCurve {
  SmoothCurve normal, tangential, cop, extension;
};

/// Curve of the run: its own table, or the gait's.
[[nodiscard]] LoadCurve load_curve(const Case& run);

/// Point of the run's stance at `share` of it, clamped to [0, 1].
[[nodiscard]] LoadPoint stance_point(const Case& run, double share);

/// Point of the walk's or trot's built-in stance.
[[nodiscard]] LoadPoint stance_point(Gait gait, double share);

/// Fraction of stance at which the heel leaves the ground (walk 85 %, trot 86 %: Rogers & Back 2007, Eliashar 2004).
[[nodiscard]] double heel_off_fraction(Gait gait);

}  // namespace hoofload::scenarios
