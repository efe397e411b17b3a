// The deep flexor tendon's path from the foot's measurements, and the limb above it as a rigid chain.
//
// Landmarks of the reference foot relative to the coffin joint's centre (docs/reference-foot.md): insertion (9, -26.5),
// wrap centre of the navicular (-11.8, -7.6), radius of the tendon's centreline 14 mm; a line parallel to the pastern
// leaves the navicular with an arm of 27.9 mm. They turn with the bone (palmar angle) and scale with ddft_arm.
#pragma once

#include "scenarios/case.hpp"
#include "solver/interactions/cable.hpp"

namespace hoofload::scenarios {

/// Cable of the foot in the bone's frame, pastern as when standing; slack length not set.
[[nodiscard]] solver::Cable tendon_path(const mesh::Foot& foot, double stiffness);

/// Centre of the coffin joint in the bone's frame [mm].
[[nodiscard]] Eigen::Vector2d coffin_joint(const mesh::Foot& foot);

/// What a raised heel does to the limb above the foot, Eq. (94): nothing when the posture is held.
struct PostureShift {
  double extension = 0;        ///< turns the middle phalanx with the foot, as an extension of the coffin joint [rad]
  double pastern_flexion = 0;  ///< [rad]
  double fetlock_extension = 0;
  double slack = 0;  ///< added to the tendon's slack length: what pastern and fetlock let out of its path [mm]
};
[[nodiscard]] PostureShift posture_of(const Case& run);

/// Pastern and fetlock joint centres in the bone's frame when the pastern is at `extension` against a ground at pitch
/// theta. Lengths of middle and proximal phalanx 44 and 86 mm (grade M, from memory), both along the pastern axis.
/// `pastern_flexion` turns the proximal phalanx alone, in the sense that slopes it more.
struct LimbChain {
  Eigen::Vector2d pastern, fetlock;
};
[[nodiscard]] LimbChain limb_chain(const mesh::Foot& foot, double theta, double extension, double pastern_flexion = 0);

}  // namespace hoofload::scenarios
