// The sagittal section: side-view sheets (x forward, y up) with out-of-plane breadth, of a foot and what it is shod with.
//
// Sheets that overlap in the side view do not share nodes: core (sole, frog, corium, cushion), shoe, plate, pad, packing beside
// the frog and packing under it. The horn behind the frog's apex is one set of triangles with two blocks: "sole" with the
// breadth beside the frog and "frog_plate" with the frog's. "cushion" shares the nodes of the horn's top.
// The bone is not meshed (outlines: side_view.hpp); the wall is the capsule shell.
//
// Regions: sole frog_plate frog corium cushion; shoe shoe_layer plate pad pad_toe (of a full pad, what lies on the toe's web);
// packing packing_frog.
// Edge sets (body on the left): sole_surface, sole_mid (horn's middle line), sole_front, frog_surface, bone_corium (corium's
// top), bone_cushion (cushion's top in front of the palmar process), cushion_back; ground_shoe, shoe_top, shoe_mid, ground_plate,
// plate_top, plate_rim (plate's middle line), pad_top; ground_packing and ground_packing_frog where nothing holds the
// packing. Each pair list has edge sets of its name (slave) and name + "_master".
// Pairs (same x): sole_packing, frog_packing, packing_plate or packing_pad, packing_frog_plate or packing_frog_pad, pad_shoe
// (full pad: over the toe), pad_span (its underside between the branches over the shoe's top: no contact, a strip hangs there);
// plate_shoe (plate_rim to shoe_mid: a tie at different heights; heart bar: only where its frog plate joins the branches); with
// an initial gap: pad_plate, and where no packing lies between sole_plate or sole_pad, frog_over_plate or frog_over_pad.
#pragma once

#include <string>
#include <vector>

#include "mesh/plane_mesh.hpp"
#include "mesh/section_facts.hpp"
#include "mesh/shoeing.hpp"

namespace hoofload::mesh {

struct SagittalSection {
  PlaneMesh mesh;
  SectionQuality quality;
  double shoe_front, shoe_end, inner_toe;  ///< x [mm]; 0 when bare
  double breakover;                        ///< x of the foremost ground contact, unloaded
  double packing_from, packing_to;         ///< x of the packing beside the frog (both 0: none)
  double frog_packing_from, frog_packing_to;
  double bone_tip, bone_process, frog_apex;
  double shoe_ground_area;         ///< breadth integral of ground_shoe [mm^2]
  double packing_ground_area;      ///< the same of the packing's lower faces
  std::vector<std::string> notes;  ///< stations that had to be moved, and what has no counterpart
};

/// `density` 1 is the default mesh, 0.5 its coarse twin, 2 the fine one; where a coarse one would fold, the next finer that does
/// not is made, and a note says so. Throws std::invalid_argument naming the
/// measurements when they cannot make a section.
[[nodiscard]] SagittalSection sagittal_section(const Foot& foot, const Shoeing& shoeing, double density = 1);

/// Integral of the breadth along an edge set [mm^2].
[[nodiscard]] double breadth_area(const PlaneMesh& mesh, const EdgeSet& set);

}  // namespace hoofload::mesh
