// Solved states as fields: displacements by node for pictures, and VTU files with names and units.
#pragma once

#include <string>
#include <vector>

#include "scenarios/phases.hpp"

namespace hoofload::scenarios {

/// Displacement of every plane node, and of every node of the capsule, in the bone's frame [mm].
[[nodiscard]] std::vector<mesh::Vec2> plane_displacements(const BuiltModel& built, const PhaseSolution& phase);
[[nodiscard]] std::vector<mesh::Vec3> capsule_displacements(const BuiltModel& built, const PhaseSolution& phase);

/// The plane mesh with displacement_mm and sole_pressure_kPa at nodes; stress (xx, yy, zz, xy), pressure and von Mises stress
/// in cells [MPa].
[[nodiscard]] std::string plane_vtu(const BuiltModel& built, const PhaseSolution& phase);

/// The capsule's bricks with displacement_mm. Only for a model that has one.
[[nodiscard]] std::string capsule_vtu(const BuiltModel& built, const PhaseSolution& phase);

/// Corner nodes of the sole's outer face in the order of sole_pressure_profile.
[[nodiscard]] std::vector<int> sole_nodes(const BuiltModel& built);

}  // namespace hoofload::scenarios
