// The core of hoofload's default sagittal foot as a sheet of constant breadth, which other programs can solve as plane strain:
// sole, corium and the packing beside the frog. The bone sinks by a given amount, the sole's front end is held by the wall, the
// packing stands bonded on a rigid floor. Laws and variants a and b as in own_foot.hpp.
#pragma once

#include "mesh/sagittal_section.hpp"
#include "tests/reference/own_foot.hpp"

namespace hoofload::reference {

struct SheetOptions {
  char variant = 'a';
  double density = 1;
  double sink = 0.4;     ///< [mm]
  double breadth = 100;  ///< [mm]
  bool displacement_only = false;
};

[[nodiscard]] inline Problem sheet(const SheetOptions& options, const materials::Catalogue& catalogue) {
  const scenarios::Case run = packed_plate();
  const scenarios::CaseMaterials materials(catalogue, run);
  const auto section = mesh::sagittal_section(run.foot, run.shoeing, options.density);
  Problem p;
  p.name = std::string("sheet ") + options.variant;
  p.mesh = section.mesh;
  p.finite = options.variant != 'a';
  p.model.symmetry = solver::Symmetry::plane_strain;
  p.model.X = p.mesh.X;
  std::erase_if(p.mesh.blocks,
                [](const auto& b) { return b.region != "sole" && b.region != "corium" && b.region != "packing"; });
  for (auto& block : p.mesh.blocks) {
    for (auto& breadth : block.breadth) breadth.fill(options.breadth);
    add_common_solid(p, block, material_of(block.region, run, materials, p.finite), options.displacement_only);
  }
  for (auto& [name, edges] : p.mesh.edges)
    for (auto& breadth : edges.breadth) breadth.fill(options.breadth);
  add_pairs(p, {{"sole_packing", solver::Bond::tied}});
  p.sinking = mesh::nodes_of(p.mesh.edges.at("bone_corium"));
  for (int node : p.sinking) p.held.push_back({node, 0, 0}), p.held.push_back({node, 1, -options.sink});
  for (const char* face : {"sole_front", "packing_plate"})
    for (int node : mesh::nodes_of(p.mesh.edges.at(face)))
      for (int c : {0, 1}) p.held.push_back({node, c, 0});
  hold_unused(p);
  add_supports(p);
  p.filling = "packing";
  p.line = p.mesh.edges.at("sole_packing");
  p.facing = p.mesh.edges.at("sole_packing_master");
  p.from = section.packing_from + 5;
  p.to = section.packing_to - 5;
  return p;
}

}  // namespace hoofload::reference
