// Breakover in any direction: the arm of the ground force about the joint when the foot rolls over its shoe's ground outline
// towards an angle from straight ahead, for a turn or an uneven landing. Eq. (86).
#pragma once

#include <vector>

#include "scenarios/built_model.hpp"
#include "scenarios/phases.hpp"

namespace hoofload::scenarios {

struct DirectionArm {
  double angle;  ///< [rad] from straight ahead, medially or laterally
  double arm;    ///< [mm] moment about the joint over the size of the ground force
};

/// Arm towards one angle (0 to 90 degrees; left and right are alike). Straight ahead it is the roll-over arm that was solved;
/// elsewhere the outline is geometry, drawn in as far as the solved pivot lies behind it.
[[nodiscard]] double arm_towards(const BuiltModel& built, const PhaseSolution& breakover, double angle);

/// From 90 degrees laterally to 90 medially, every 5 degrees; empty without a roll-over.
[[nodiscard]] std::vector<DirectionArm> arms_by_direction(const BuiltModel& built, const PhaseSolution& breakover);

}  // namespace hoofload::scenarios
