#include "scenarios/quantities.hpp"

namespace hoofload::scenarios {

const std::vector<QuantityKey>& quantity_catalogue() {
  constexpr auto S = Given::sagittal;
  constexpr auto B = Given::both;
  static const std::vector<QuantityKey> catalogue{
      {"sole_pressure_peak", "kPa", "largest mean over 5 mm of the contact pressure on the sole's outer face", B, 1},
      {"sole_pressure_tip", "kPa", "mean over 5 mm of the same pressure under the tip of the distal phalanx", B, 1},
      {"sole_pressure_mean", "kPa", "contact force on the sole over the area of its outer face", B, 1},
      {"sole_contact_area", "cm^2", "area of the sole's outer face that carries more than 1 kPa", B, 0},
      {"swing_sole_pressure", "kPa", "mean contact pressure on the sole with the foot in the air, after fit-up", B, 1},
      {"corium_pressure_peak", "kPa", "largest mean over 5 mm of the pressure between bone and solar corium", B, 1},
      {"corium_pressure_tip", "kPa", "mean over 5 mm of the same pressure at the tip of the distal phalanx", B, 1},
      {"corium_pressure_mean", "kPa", "force from solar corium to bone over the bone's footprint", B, 1},
      {"bone_share_lamellae", "%", "part of the ground force that leaves the bone through the lamellae", B, 0},
      {"bone_share_sole", "%", "part that leaves the bone through the solar corium", B, 0},
      {"bone_share_frog", "%", "part that leaves the bone through digital cushion and frog", S, 0},
      {"bone_force_lamellae", "N", "the same parts of the ledger as forces: leaving the bone through the lamellae", B,
       0},
      {"bone_force_sole", "N", "through the solar corium", B, 0},
      {"bone_force_frog", "N", "through digital cushion and frog", S, 0},
      {"ground_share_shoe", "%", "part of the ground force that the shoe passes on", B, 0},
      {"ground_share_wall", "%", "part that the bare wall passes on", B, 0},
      {"ground_share_packing", "%",
       "part that reaches the ground through packing, pad or plate within the shoe's opening", B, 0},
      {"ground_share_frog", "%", "part that the bare frog passes on", S, 0},
      {"ground_share_sole", "%", "part that the bare sole passes on", B, 0},
      {"ground_force_shoe", "N", "the same as forces: what the shoe passes on", B, 0},
      {"ground_force_wall", "N", "what the bare wall passes on", B, 0},
      {"ground_force_packing", "N", "what packing, pad or plate within the shoe's opening pass on", B, 0},
      {"ground_force_frog", "N", "what the bare frog passes on", S, 0},
      {"ground_force_sole", "N", "what the bare sole passes on", B, 0},
      {"ddft_moment", "N m", "moment of the deep flexor tendon about the coffin joint", S, 1},
      {"ddft_moment_per_mass", "N m/kg", "the same per kg of body mass", S, 1},
      {"ddft_force", "N", "force in the deep flexor tendon", S, 1},
      {"navicular_force", "N", "resultant that the tendon presses on the navicular bone", S, 1},
      {"navicular_force_per_mass", "N/kg", "the same per kg of body mass", S, 1},
      {"ddft_peak_at", "%", "share of stance at which the tendon's moment is largest", S, 0},
      {"navicular_peak_at", "%", "share of stance at which the force on the navicular bone is largest", S, 0},
      {"tendon_taut_at", "%", "share of stance at which the tendon comes under tension", S, 0},
      {"heel_off_at", "%", "share of stance at which the rear 15 % of the bearing length carries 1 % of the load", S,
       0},
      {"cop", "mm", "centre of pressure ahead of the coffin joint's centre, along the ground", S, 0},
      {"coffin_moment", "N m", "moment of the ground force about the coffin joint, extending", S, 1},
      {"pip_moment", "N m", "moment of the ground force about the pastern joint, extending (rigid chain)", S, 1},
      {"mcp_moment", "N m", "moment of the ground force about the fetlock joint, extending (rigid chain)", S, 1},
      {"breakover_moment", "N m", "tendon moment at which the rear 15 % of the shoe carries 1 % of the load", S, 1},
      {"breakover_arm", "mm", "breakover moment over the size of the ground force", S, 1},
      {"pivot", "mm", "centre of pressure at breakover, behind the toe of the hoof", S, 0},
      {"rollover_moment", "N m",
       "moment of the ground force about the coffin joint with the heel raised, 5 degrees of pitch beyond the level "
       "shoe",
       S, 1},
      {"rollover_arm", "mm", "that moment over the size of the ground force", S, 1},
      {"rollover_pivot", "mm", "centre of pressure then, behind the toe of the hoof", S, 0},
      {"breakover_arm_45", "mm", "the same arm when the foot rolls over its shoe's outline at 45 degrees to a side", S,
       1},
      {"breakover_arm_90", "mm", "and straight to a side", S, 1},
      {"lamella_stress_dorsal", "kPa", "mean size of the lamellar traction over the dorsal 20 mm of the foot's breadth",
       B, 1},
      {"lamella_energy_dorsal", "mJ", "energy stored in the lamellae over the dorsal 20 mm of the foot's breadth", B,
       1},
      {"bone_sink", "mm", "descent of the joint centre towards the ground since first touch", B, 1},
      {"bone_rotation", "deg", "pitch of the bone against the level ground since first touch, toe down positive", S, 0},
      {"palmar_angle_loaded", "deg", "palmar angle against the ground under load", S, 0},
      {"wall_strain_dorsal", "ue", "strain along the dorsal wall's outer face, 30 mm above the bearing plane", S, 0},
      {"wall_strain_quarter", "ue",
       "strain along the wall's outer face at the widest point, 20 mm above the bearing plane", S, 0},
      {"heel_spread", "mm", "change of the distance between the heels at the coronet", S, 0},
      {"ground_pressure_toe", "kPa", "ground force on the front third of the shoe's ground face over its area", S, 0},
      {"ground_pressure_middle", "kPa", "the same, middle third", S, 0},
      {"ground_pressure_heel", "kPa", "the same, rear third", S, 1},
      {"nail_force_max", "N", "largest resultant of one nail", B, 1},
  };
  return catalogue;
}

const QuantityKey* find_quantity(std::string_view key) {
  for (const auto& q : quantity_catalogue())
    if (q.key == key) return &q;
  return nullptr;
}

}  // namespace hoofload::scenarios
