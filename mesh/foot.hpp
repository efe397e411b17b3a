// The foot as its measurements describe it. Lengths in mm, angles in rad. Defaults are the reference foot
// (docs/reference-foot.md gives source and grade of each). Origin: most dorsal point of the hoof at its bearing plane;
// x forward, y up; palmar is -x; z lateral.
#pragma once

#include <numbers>

namespace hoofload::mesh {

inline constexpr double degree = std::numbers::pi / 180.0;

struct Foot {
  // side view: capsule
  double toe_angle = 50 * degree;   ///< dorsal wall against the bearing plane
  double heel_angle = 45 * degree;  ///< heel tubules against the bearing plane
  double toe_length = 85;           ///< dorsal wall, bearing edge to coronet
  double heel_length = 38;          ///< heel wall, bearing edge to coronet
  double bearing_length = 128;      ///< toe to heel buttress
  double bearing_width = 126;       ///< widest part of the bearing outline
  // horn
  double wall_thickness_toe = 10;  ///< normal to the wall
  double wall_thickness_quarter = 8;
  double wall_thickness_heel = 6;
  double lamella_thickness = 3;
  double lamella_end = 16;  ///< the lamellae end this far in front of the heel buttress
  double sole_horn = 10;    ///< thickness of the sole's horn
  double sole_cup = 9;      ///< deepest concavity of the sole above the bearing plane
  // distal phalanx
  double palmar_angle = 4 * degree;
  double sole_depth_tip = 15;   ///< below the bone's tip: horn + corium
  double sole_depth_wing = 18;  ///< below the palmar process
  double hl_proximal = 16;      ///< horn-lamellar distance, normal to the wall, at the top
  double hl_distal = 16;        ///< the same near the tip
  double dorsal_length = 56;    ///< tip to extensor process
  double palmar_length = 75;    ///< tip to palmar process
  double toe_to_tip = 36;       ///< horizontal, toe to bone tip
  double toe_to_cor = 85;       ///< horizontal, toe to the coffin joint's centre of rotation
  double cor_height = 50;       ///< the same centre above the bearing plane
  // frog
  double frog_width = 52;  ///< at its base
  double frog_length = 78;
  // tendon
  double ddft_arm = 28;                ///< about the coffin joint
  double pastern_angle = 50 * degree;  ///< middle phalanx against the ground when standing
};

}  // namespace hoofload::mesh
