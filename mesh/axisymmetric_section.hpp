// The axisymmetric section (x = r >= 0, y = z up, bearing plane y = 0) of a foot and what it is shod with.
//
//   sole underside   z = cup (1 - (r/r_w)^2), meeting the bearing plane at the wall's inner edge r_w (no cup behind the toe,
//                    no frog: the dome alone)
//   sole horn and corium of constant height above it; wall a cone that leans in 18 mm over 80 mm, as in the peer section;
//   lamella (and, at the sole's level, the white line) a strip of lamella_thickness inside the wall. The lamella ends where
//   its outer face has the given area; the bone ends there too, the wall runs on to the mean height of the coronet.
//   wall thickness: mean of toe, quarter (twice) and heel. R = bearing_width / 2.
//
// What has no counterpart here and is left out, said in `notes`: setback, breakover and toe shape, elevation, heel extension,
// bars and frog plate (treated as an open shoe). Partial packings keep their share of the void's area: palmar two thirds
// is a disc, dorsal half a ring along the shoe, the rear of the frog a disc of 3/4 of the frog's plan area (its rear half).
//
// Regions: wall white_line sole corium lamella bone; shoe shoe_layer plate; pad; packing.
// Edge sets (body on the left): sole_surface (outer face of sole and white line), bone_corium, bone_lamella, bone_top (bone on
// the left), axis, wall_outer, wall_top; bare: ground_wall, ground_sole; shod: ground_shoe, ground_plate, shoe_top; packing
// without a backing: ground_packing. Each pair list has an edge set of its name (slave side) and name + "_master".
// Pairs: sole_packing, packing_shoe, packing_pad (rim pad's edge), packing_backing, wall_shoe, pad_shoe; with an initial gap
// (same r, different z): sole_shoe (sole over the web or over the pad above it), sole_plate, sole_pad, pad_plate, and
// sole_packing where the filling is thinner than the void. A node is slave in one list only.
#pragma once

#include <string>
#include <vector>

#include "mesh/plane_mesh.hpp"
#include "mesh/section_facts.hpp"
#include "mesh/shoeing.hpp"

namespace hoofload::mesh {

struct AxisymmetricSection {
  PlaneMesh mesh;
  SectionQuality quality;
  double radius, shoe_inner;        ///< bearing radius; inner radius of the shoe (0 bare)
  double packing_from, packing_to;  ///< radii of the packing (both 0: none)
  double void_from, void_to;  ///< heights of the void's floor (backing or ground face) and of the sole at the axis
  double lamella_from, lamella_to;  ///< heights of the lamella's outer face
  double coronet;                   ///< height of the wall's top
  std::vector<std::string> notes;   ///< what was asked for and has no counterpart here
};

/// `lamella_area` [mm^2] of the whole foot; `density` 1 is the default mesh, 0.5 its coarse twin, 2 the fine one.
/// Throws std::invalid_argument naming the measurements when they cannot make a section.
[[nodiscard]] AxisymmetricSection axisymmetric_section(const Foot& foot, const Shoeing& shoeing,
                                                       double lamella_area = 8100, double density = 1);

}  // namespace hoofload::mesh
