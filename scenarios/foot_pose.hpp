// Measurements of a foot that were left out but are not free: they follow from the ones given, because the bone of the
// reference foot is moved as one rigid piece to where the given measurements put it.
#pragma once

#include "mesh/foot.hpp"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace hoofload::scenarios {

using IsGiven = std::function<bool(std::string_view key)>;

/// Completes the foot; returns the keys ("foot.sole_horn", ...) whose value changed from the reference foot's because
/// it follows from others, sorted. The reference foot itself is left unchanged.
///   toe_angle or palmar_angle, if only the other is given: wall and bone parallel, or as the two horn-lamellar distances say
///   hl_distal or hl_proximal = the other -+ dorsal_length sin(bone's dorsal face - toe_angle)
///   sole_horn        = what leaves 5 mm of corium below the tip, at least half of sole_depth_tip
///   toe_to_tip       = (sole_depth_tip + cup at the tip) / tan(toe_angle) + hl_distal / sin(toe_angle)
///   toe_to_cor, cor_height: the joint centre carried along with the bone
///   sole_depth_wing  = the reference's, plus what tip and palmar angle raise the wing
/// What follows is stated to a thousandth of a millimetre or degree, so that it has a short text, and the reference's own where
/// it is near; exactly only where a slope is wanted.
enum class Stated { thousandths, exactly };
[[nodiscard]] std::vector<std::string> complete_foot(mesh::Foot& foot, const IsGiven& is_given,
                                                     Stated stated = Stated::thousandths);

/// The horizontal distance toe to tip, and the distal horn-lamellar distance, that the other measurements imply [mm].
[[nodiscard]] double implied_toe_to_tip(const mesh::Foot& foot);
[[nodiscard]] double implied_hl_distal(const mesh::Foot& foot);
[[nodiscard]] double implied_sole_depth_wing(const mesh::Foot& foot);

/// Height of the tip of the bone above the bearing plane [mm].
[[nodiscard]] double tip_height(const mesh::Foot& foot);

/// Height of the bone above its tip [mm]: the dorsal face's rise.
[[nodiscard]] double bone_height(const mesh::Foot& foot);

}  // namespace hoofload::scenarios
