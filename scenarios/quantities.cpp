#include "scenarios/quantities.hpp"

namespace hoofload::scenarios {

const std::vector<QuantityKey>& quantity_catalogue() {
  constexpr auto S = Given::sagittal;
  constexpr auto B = Given::both;
  static const std::vector<QuantityKey> catalogue{
      {"sole_pressure_peak", "sole pressure, peak", "kPa",
       "largest mean over 5 mm of the contact pressure on the sole's outer face", B, 1},
      {"sole_pressure_tip", "sole under bone tip", "kPa",
       "mean over 5 mm of the same pressure under the tip of the distal phalanx", B, 1},
      {"sole_pressure_mean", "sole pressure, mean", "kPa",
       "contact force on the sole over the area of its outer face that lies in the shoe's opening", B, 1},
      {"sole_contact_area", "sole in contact", "cm^2", "area of the sole's outer face that carries more than 1 kPa", B,
       0},
      {"swing_sole_pressure", "sole, foot in the air", "kPa",
       "mean contact pressure on the sole with the foot in the air, after fit-up", B, 1},
      {"corium_pressure_peak", "corium, peak", "kPa",
       "largest mean over 5 mm of the pressure between bone and solar corium", B, 1},
      {"corium_pressure_tip", "corium at bone tip", "kPa",
       "mean over 5 mm of the same pressure at the tip of the distal phalanx", B, 1},
      {"corium_pressure_mean", "corium, mean", "kPa", "force from solar corium to bone over the bone's footprint", B,
       1},
      {"bone_share_lamellae", "load on the lamellae", "%",
       "part of the ground force that leaves the bone through the lamellae", B, 0},
      {"bone_share_sole", "load on the sole", "%", "part that leaves the bone through the solar corium", B, 0},
      {"bone_share_frog", "load on the frog", "%", "part that leaves the bone through digital cushion and frog", S, 0},
      {"bone_force_lamellae", "force on the lamellae", "N",
       "the same parts of the ledger as forces: leaving the bone through the lamellae", B, 0},
      {"bone_force_sole", "force on the sole", "N", "through the solar corium", B, 0},
      {"bone_force_frog", "force on the frog", "N", "through digital cushion and frog", S, 0},
      {"ground_share_shoe", "ground load, shoe", "%", "part of the ground force that the shoe passes on", B, 0},
      {"ground_share_wall", "ground load, wall", "%", "part that the bare wall passes on", B, 0},
      {"ground_share_packing", "ground load, packing", "%",
       "part that reaches the ground through packing, pad or plate within the shoe's opening", B, 0},
      {"ground_share_frog", "ground load, frog", "%", "part that the bare frog passes on", S, 0},
      {"ground_share_sole", "ground load, sole", "%", "part that the bare sole passes on", B, 0},
      {"ground_force_shoe", "ground force, shoe", "N", "the same as forces: what the shoe passes on", B, 0},
      {"ground_force_wall", "ground force, wall", "N", "what the bare wall passes on", B, 0},
      {"ground_force_packing", "ground force, packing", "N",
       "what packing, pad or plate within the shoe's opening pass on", B, 0},
      {"ground_force_frog", "ground force, frog", "N", "what the bare frog passes on", S, 0},
      {"ground_force_sole", "ground force, sole", "N", "what the bare sole passes on", B, 0},
      {"ddft_moment", "tendon moment", "N m", "moment of the deep flexor tendon about the coffin joint", S, 1},
      {"ddft_moment_per_mass", "tendon moment per kg", "N m/kg", "the same per kg of body mass", S, 1},
      {"ddft_force", "tendon force", "N", "force in the deep flexor tendon", S, 1},
      {"navicular_force", "navicular force", "N", "resultant that the tendon presses on the navicular bone", S, 1},
      {"navicular_force_per_mass", "navicular force per kg", "N/kg", "the same per kg of body mass", S, 1},
      {"ddft_peak_at", "tendon peak, when", "%", "share of stance at which the tendon's moment is largest", S, 0},
      {"navicular_peak_at", "navicular peak, when", "%",
       "share of stance at which the force on the navicular bone is largest", S, 0},
      {"tendon_taut_at", "tendon taut, when", "%", "share of stance at which the tendon comes under tension", S, 0},
      {"heel_off_at", "heel-off, when", "%",
       "share of stance at which the rear 15 % of the bearing length carries 1 % of the load", S, 0},
      {"cop", "force ahead of joint", "mm", "centre of pressure ahead of the coffin joint's centre, along the ground", S,
       0},
      {"coffin_moment", "coffin joint moment", "N m", "moment of the ground force about the coffin joint, extending", S,
       1},
      {"pip_moment", "pastern joint moment", "N m",
       "moment of the ground force about the pastern joint, extending (rigid chain)", S, 1},
      {"mcp_moment", "fetlock joint moment", "N m",
       "moment of the ground force about the fetlock joint, extending (rigid chain)", S, 1},
      {"breakover_moment", "moment at heel-off", "N m",
       "tendon moment at which the rear 15 % of the hoof carries 1 % of the load", S, 1},
      {"breakover_arm", "arm at heel-off", "mm", "breakover moment over the size of the ground force", S, 1},
      {"pivot", "pivot behind toe", "mm", "centre of pressure at breakover, behind the toe of the hoof", S, 0},
      {"rollover_moment", "moment, rolled over", "N m",
       "moment of the ground force about the coffin joint with the heel raised, 5 degrees of pitch beyond the level "
       "shoe",
       S, 1},
      {"rollover_arm", "arm, rolled over", "mm", "that moment over the size of the ground force", S, 1},
      {"rollover_pivot", "pivot, rolled over", "mm", "centre of pressure then, behind the toe of the hoof", S, 0},
      {"breakover_arm_45", "arm, 45 deg to a side", "mm",
       "the same arm when the foot rolls over its shoe's outline at 45 degrees to a side", S, 1},
      {"breakover_arm_90", "arm, to the side", "mm", "and straight to a side", S, 1},
      {"lamella_stress_dorsal", "lamellae at toe, stress", "kPa",
       "mean size of the lamellar traction over the dorsal 20 mm of the foot's breadth", B, 1},
      {"lamella_energy_dorsal", "lamellae at toe, energy", "mJ",
       "energy stored in the lamellae over the dorsal 20 mm of the foot's breadth", B, 1},
      {"bone_sink", "sinking of the bone", "mm", "descent of the joint centre towards the ground since first touch", B,
       1},
      {"bone_rotation", "rotation of the bone", "deg",
       "pitch of the bone against the level ground since first touch, toe down positive", S, 0},
      {"palmar_angle_loaded", "palmar angle, loaded", "deg", "palmar angle against the ground under load", S, 0},
      {"wall_strain_dorsal", "wall strain, toe", "ue",
       "strain along the dorsal wall's outer face, 30 mm above the bearing plane", S, 0},
      {"wall_strain_quarter", "wall strain, quarter", "ue",
       "strain along the wall's outer face at the widest point, 20 mm above the bearing plane", S, 0},
      {"heel_spread", "heel spread", "mm", "change of the distance between the heels at the coronet", S, 0},
      {"ground_pressure_toe", "ground pressure, toe", "kPa",
       "ground force on the front third of the shoe's ground face over its area", S, 0},
      {"ground_pressure_middle", "ground pressure, mid", "kPa", "the same, middle third", S, 0},
      {"ground_pressure_heel", "ground pressure, heel", "kPa", "the same, rear third", S, 1},
      {"nail_force_max", "nail force, largest", "N", "largest resultant of one nail", B, 1},
  };
  return catalogue;
}

const QuantityKey* find_quantity(std::string_view key) {
  for (const auto& q : quantity_catalogue())
    if (q.key == key) return &q;
  return nullptr;
}

std::string words_of(std::string_view key) {
  const QuantityKey* quantity = find_quantity(key);
  return std::string(quantity == nullptr ? key : quantity->words);
}

std::string words_and_unit_of(std::string_view key) {
  const QuantityKey* quantity = find_quantity(key);
  return words_of(key) + (quantity == nullptr ? "" : ", " + std::string(quantity->unit));
}

}  // namespace hoofload::scenarios
