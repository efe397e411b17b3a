// Out-of-plane breadths b(x) of the sagittal core: how broad, left to right, sole, corium, frog and shoe are at x.
// Both sides together. All in mm; continuous, C1 but for the blunt ends that are named; exactly 0 where the part is absent.
#pragma once

#include "mesh/plan_outline.hpp"
#include "mesh/shoeing.hpp"

namespace hoofload::mesh {

/// The outline once, then every breadth by a plain function of it.
struct Breadths {
  Foot foot;
  PlanOutline outline;
};

/// Throws what plan_outline throws.
[[nodiscard]] Breadths breadths(const Foot& foot);

/// Sole and frog together, inside the wall at the bearing plane: 2 W_i(x). Zero (round) ahead of the white line at the toe;
/// behind the heel buttress it keeps its end value (the capsule is open there).
[[nodiscard]] double b_sole(const Breadths& b, double x);

/// Frog: 0 ahead of its apex, frog_width from its base on.
[[nodiscard]] double w_frog(const Breadths& b, double x);
[[nodiscard]] double frog_apex_x(const Foot& foot);
[[nodiscard]] double frog_base_x(const Foot& foot);

/// Solar corium = the distal phalanx's footprint: round at its tip, two branches beside the frog behind
/// branch_start_x, rounded off at the palmar processes.
[[nodiscard]] double b_corium(const Breadths& b, double x);
[[nodiscard]] double bone_tip_x(const Foot& foot);      ///< -toe_to_tip
[[nodiscard]] double bone_end_x(const Foot& foot);      ///< of the palmar processes
[[nodiscard]] double branch_start_x(const Foot& foot);  ///< here the footprint's middle begins to open

/// Foremost and rearmost x of the shoe in plan. Bare: both 0.
[[nodiscard]] double shoe_front_x(const Breadths& b, const Shoe& shoe);
[[nodiscard]] double shoe_end_x(const Breadths& b, const Shoe& shoe);

/// Breadth within the shoe's outer edge: the bearing outline moved back by the setback, its ends carried on at constant
/// breadth over heel_extension; an egg bar's end is an oval. 0 outside (blunt at a branch's end).
[[nodiscard]] double shoe_outer_chord(const Breadths& b, const Shoe& shoe, double x);

/// Breadth between the branches: 0 over the toe's web and over a straight or egg bar (its edge ramps over 4 mm).
/// A full plate and a heart bar's frog plate lie in this opening and are not subtracted.
[[nodiscard]] double shoe_inner_chord(const Breadths& b, const Shoe& shoe, double x);

/// Iron (or polymer) of the ring and bar: outer minus inner chord.
[[nodiscard]] double shoe_breadth(const Breadths& b, const Shoe& shoe, double x);

/// What fills the opening at plate_thickness: full plate: the whole inner chord; heart bar: a frog plate of 0.8 frog
/// breadth from 15 mm behind the apex to the bar; else 0.
[[nodiscard]] double plate_breadth(const Breadths& b, const Shoe& shoe, double x);

/// Breadth of the wall's bearing ring that stands on the ring of the shoe at x (common part of both rings); 0 behind the heel
/// buttress.
[[nodiscard]] double wall_on_shoe_breadth(const Breadths& b, const Shoe& shoe, double x);

}  // namespace hoofload::mesh
