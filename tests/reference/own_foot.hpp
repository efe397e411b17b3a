// hoofload's default axisymmetric foot under a full plate with silicone packing, simplified so that other programs can solve
// it: what differs from the program's own road is said here, and holds for every program alike.
//
//   bone      rigid, sinks by a given amount without tilting; plate and shoe stand bonded on rigid ground
//   laws      isotropic, with the catalogue's moduli: its own Yeoh law for the lamellae, neo-Hooke (law A) where its law is
//             another one of rubber elasticity, Saint-Venant-Kirchhoff else (the wall with its modulus along the tubules);
//             all linear in variant a, the lamellae then with the catalogue's linear stand-in
//   contacts  wall on shoe and packing on the shoe's inner face bonded (its lower corner too); no nails, no preload, no interference; where bodies
//             start apart (sole over the shoe's web) they may not meet
//   variants  a linear, b finite strain, packing bonded; c finite strain, packing frictionless on sole and plate
#pragma once

#include <map>

#include "mesh/axisymmetric_section.hpp"
#include "scenarios/build_common.hpp"
#include "scenarios/case_materials.hpp"
#include "tests/reference/problem.hpp"

namespace hoofload::reference {

struct OwnFoot {
  char variant = 'a';
  double density = 1;
  double sink = 0.4;               ///< [mm]
  bool displacement_only = false;  ///< every part of displacement triangles, as other programs have them
};

/// Shear and bulk modulus at small strain [MPa]; rubber says which of the two finite laws stands in.
struct Isotropic {
  double mu, kappa;
  bool rubber;
};

[[nodiscard]] inline Isotropic isotropic(const materials::Material& law) {
  return std::visit(
      [](const auto& m) -> Isotropic {
        using Law = std::decay_t<decltype(m)>;
        if constexpr (requires { m.E_L; }) {
          return {m.E_L / (2 * (1 + m.nu_LT)), m.E_L / (3 * (1 - 2 * m.nu_LT)), false};
        } else {
          constexpr bool solid =
              std::is_same_v<Law, materials::SaintVenantKirchhoff> || std::is_same_v<Law, materials::LinearIsotropic>;
          return {mu0(m), kappa0(m), !solid};
        }
      },
      law);
}

[[nodiscard]] inline materials::Material common_law(const materials::Material& law, bool finite) {
  if (finite && std::holds_alternative<materials::Yeoh>(law)) return law;
  const Isotropic m = isotropic(law);
  const double E = 9 * m.kappa * m.mu / (3 * m.kappa + m.mu), nu = E / (2 * m.mu) - 1;
  if (!finite) return materials::LinearIsotropic{E, nu};
  if (m.rubber) return materials::NeoHooke{m.mu, m.kappa};
  return materials::SaintVenantKirchhoff{E, nu};
}

[[nodiscard]] inline scenarios::Case packed_plate() {
  scenarios::Case run;
  run.shoeing.shoe.type = mesh::ShoeType::full_plate;
  run.material.shoe = "polyurethane A90";
  run.shoeing.packing.region = mesh::PackingRegion::full_sole;
  run.material.packing = "silicone A30";
  return run;
}

[[nodiscard]] inline scenarios::ChosenMaterial material_of(const std::string& region, const scenarios::Case& run,
                                                           const scenarios::CaseMaterials& materials, bool finite) {
  static const std::map<std::string, std::string> tissues{{"wall", "wall"},
                                                          {"white_line", "white line"},
                                                          {"sole", "sole horn"},
                                                          {"corium", "sole corium"},
                                                          {"lamella", "lamellae"},
                                                          {"shoe", ""},
                                                          {"plate", ""}};
  if (region == "packing") return materials.packing();
  if (region == "lamella" && !finite) return materials.material("lamellae linear");
  const std::string& id = tissues.at(region);
  return materials.material(id.empty() ? run.material.shoe : id);
}

inline void add_common_solid(Problem& p, const mesh::Block& block, const scenarios::ChosenMaterial& chosen,
                             bool displacement_only) {
  const auto law = common_law(chosen.law, p.finite);
  const bool can =
      std::visit([](const auto& m) { return materials::HasVolumetricSplit<std::decay_t<decltype(m)>>; }, law);
  const bool mixed = !displacement_only && can && chosen.formulation == Formulation::mixed;
  p.model.solids.push_back(
      make_solid_block(p.mesh, block, p.model.symmetry, law, mixed ? Formulation::mixed : Formulation::displacement));
}

/// The pairs that touch from the start; a node is a slave in the first that has it.
inline void add_pairs(Problem& p, const std::vector<std::pair<std::string, solver::Bond>>& names) {
  std::set<int> slaves, masters;
  for (const auto& [name, bond] : names) {
    auto pair = scenarios::make_pair(p.mesh, {name, bond, 0, 0, false}, slaves, masters);
    if (pair.bond != bond || pair.slave.empty()) throw std::invalid_argument(name + " does not touch everywhere");
    p.model.pairs.push_back(std::move(pair));
    if (bond == solver::Bond::contact) p.contact.push_back({p.mesh.edges.at(name), p.mesh.edges.at(name + "_master")});
  }
}

[[nodiscard]] inline std::set<int> nodes_of_regions(const mesh::PlaneMesh& mesh, const std::set<std::string>& regions) {
  std::set<int> nodes;
  for (const auto& block : mesh.blocks)
    if (regions.count(block.region) != 0)
      for (const auto& tri : block.tri) nodes.insert(tri.begin(), tri.end());
  return nodes;
}

[[nodiscard]] inline Problem own_foot(const OwnFoot& foot, const materials::Catalogue& catalogue) {
  const scenarios::Case run = packed_plate();
  const scenarios::CaseMaterials materials(catalogue, run);
  const auto section = mesh::axisymmetric_section(run.foot, run.shoeing, 8100, foot.density);
  Problem p;
  p.name = std::string("own foot ") + foot.variant;
  p.mesh = section.mesh;
  p.finite = foot.variant != 'a';
  p.model.symmetry = solver::Symmetry::axisymmetric;
  p.model.X = p.mesh.X;
  std::erase_if(p.mesh.blocks, [](const auto& block) { return block.region == "bone"; });
  for (const auto& block : p.mesh.blocks)
    add_common_solid(p, block, material_of(block.region, run, materials, p.finite), foot.displacement_only);
  const auto bond = foot.variant == 'c' ? solver::Bond::contact : solver::Bond::tied;
  add_pairs(p, {{"sole_packing", bond},
                {"packing_shoe", solver::Bond::tied},
                {"packing_backing", bond},
                {"wall_shoe", solver::Bond::tied}});
  const auto bone = nodes_of_regions(section.mesh, {"bone"});
  for (int node : nodes_of_regions(p.mesh, {"corium", "lamella"}))
    if (bone.count(node) != 0) p.sinking.push_back(node);
  for (int node : p.sinking) p.held.push_back({node, 0, 0}), p.held.push_back({node, 1, -foot.sink});
  for (const char* face : {"ground_shoe", "ground_plate"})
    for (int node : mesh::nodes_of(p.mesh.edges.at(face)))
      for (int c : {0, 1}) p.held.push_back({node, c, 0});
  hold_unused(p);
  hold_axis(p);
  add_supports(p);
  p.filling = "packing";
  p.line = p.mesh.edges.at("sole_packing");
  p.facing = p.mesh.edges.at("sole_packing_master");
  p.to = section.packing_to - 5;
  return p;
}

}  // namespace hoofload::reference
