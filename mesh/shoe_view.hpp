// Curves of what is put on the foot, in the side view: ground face, plate, pad, packing. x forward, y up, mm.
//
//   ground face  y = -(thickness + pad) - (x_f - x) tan(elevation) + rise(x),  x_f = -setback the shoe's front edge
//   worn or square toe   rise = e (d/breakover)^2 over the last `breakover` mm, e = min(2 mm, thickness / 4)
//   rolled toe           rise = R - sqrt(R^2 - d^2); it starts where it takes half the thickness at the edge (or at `breakover`)
//   rocker               rise = tan(angle) d behind a rounding of 8 mm about rocker_start
//
// The rise never takes more than 3/4 of the thickness. A square toe differs from a worn one in plan only.
#pragma once

#include "mesh/shoeing.hpp"
#include "mesh/side_view.hpp"

namespace hoofload::mesh {

struct ShoeView {
  Shoe shoe;
  double front, end;  ///< x of front edge and of the branches' ends
  double inner_toe;   ///< x of the inner edge of the toe
  double breakover;   ///< x of the foremost ground contact
  double top;         ///< y of the shoe's upper face (0, or below the pad)
  double proud;       ///< packing below the ground face
};

/// Throws std::invalid_argument naming the measurements when the shoe cannot exist.
[[nodiscard]] ShoeView shoe_view(const Foot& foot, const Shoeing& shoeing);

[[nodiscard]] double ground_face(const ShoeView& v, double x);
[[nodiscard]] double shoe_middle(const ShoeView& v, double x);  ///< top of the lower layer, or half height
[[nodiscard]] double plate_bottom(const ShoeView& v, double x);
[[nodiscard]] double plate_top(const ShoeView& v, double x);

}  // namespace hoofload::mesh
