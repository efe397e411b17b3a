#include <algorithm>
#include <map>
#include <numbers>

#include "mesh/axisymmetric_section.hpp"
#include "scenarios/build_common.hpp"
#include "scenarios/build_ground.hpp"
#include "scenarios/build_model.hpp"
#include "scenarios/tendon.hpp"

namespace hoofload::scenarios {

namespace {

using mesh::AxisymmetricSection;

/// The region's catalogue id and, where the case names a hardness, that hardness.
struct RegionMaterial {
  std::string id;
  std::optional<double> hardness;
};

RegionMaterial material_id(const Case& run, const std::string& region) {
  static const std::map<std::string, std::string> tissues{{"wall", "wall"},        {"white_line", "white line"},
                                                          {"sole", "sole horn"},   {"corium", "sole corium"},
                                                          {"lamella", "lamellae"}, {"bone", "distal phalanx"}};
  if (const auto it = tissues.find(region); it != tissues.end()) return {it->second, {}};
  if (region == "pad") return {run.material.pad, run.material.pad_hardness};
  if (region == "shoe_layer") return {run.material.layer, {}};
  return {run.material.shoe, {}};  // shoe and plate
}

void add_solids(solver::Model& model, const AxisymmetricSection& section, const Case& run,
                const CaseMaterials& materials) {
  for (const auto& block : section.mesh.blocks) {
    if (block.region == "bone" && run.study.bone == Bone::rigid) continue;
    const RegionMaterial id = material_id(run, block.region);
    const ChosenMaterial chosen =
        block.region == "packing" ? materials.packing() : materials.material(id.id, id.hardness);
    model.solids.push_back(
        solver::make_solid_block(section.mesh, block, model.symmetry, chosen.law, chosen.formulation));
  }
}

/// The bone holds the frame: all of it when rigid, its top when elastic; the axis stays on the axis.
void add_supports(solver::Model& model, const AxisymmetricSection& section, const Case& run) {
  std::set<int> held;
  if (run.study.bone == Bone::rigid) {
    for (const auto& block : section.mesh.blocks)
      if (block.region == "bone")
        for (const auto& tri : block.tri) held.insert(tri.begin(), tri.end());
  } else {
    for (int node : mesh::nodes_of(section.mesh.edges.at("bone_top"))) held.insert(node);
  }
  for (int node : held)
    for (int c = 0; c < 2; ++c) model.supports.push_back({solver::plane_dof(node, c)});
  // On the axis nothing moves sideways. A contact node's sideways unknown is its tangential one, the second.
  std::set<int> contact(model.ground.nodes.begin(), model.ground.nodes.end());
  for (const auto& pair : model.pairs) contact.insert(pair.slave.begin(), pair.slave.end());
  for (int node = 0; node < static_cast<int>(model.X.size()); ++node)
    if (model.X[static_cast<std::size_t>(node)].x() < 1e-9 && held.count(node) == 0)
      model.supports.push_back({solver::plane_dof(node, contact.count(node) != 0 ? 1 : 0)});
}

struct PairPlan {
  PairRequest request;
  bool filled_after = false;
};

std::vector<PairPlan> pair_plans(const Case& run, const CaseMaterials& materials) {
  const auto& packing = run.shoeing.packing;
  const bool tied = packing.bond == mesh::PackingBond::bonded;
  const bool after = packing.order == mesh::PackingOrder::after_nailing;
  const solver::Bond bond = tied ? solver::Bond::tied : solver::Bond::contact;
  const double mu = packing.bond == mesh::PackingBond::frictional ? materials.friction("horn", "rubber", 0.5) : 0;
  const double squeeze = has_backing(run) && !after ? packing.proud : 0;
  // Without a backing the filling has only sole and shoe to hold on to: it adheres to the shoe's inner edge.
  const solver::Bond side = tied || !has_backing(run) ? solver::Bond::tied : solver::Bond::contact;
  const std::string shoe = run.material.shoe;
  const double mu_shoe = materials.friction("horn", shoe, 0.4);
  // Glue holds every joint of the stack: wall, pad, shoe.
  const solver::Bond seat =
      run.shoeing.shoe.attachment == mesh::Attachment::glued ? solver::Bond::tied : solver::Bond::contact;
  return {{{"sole_packing", bond, mu, squeeze, false}, after},
          {{"packing_backing", bond, mu, 0, false}, false},
          {{"packing_shoe", side, mu, 0, false}, false},
          {{"packing_pad", side, mu, 0, false}, false},
          {{"wall_shoe", seat, mu_shoe, 0, false}, false},
          {{"pad_shoe", seat, materials.friction(shoe, "leather", 0.4), 0, false}, false},
          {{"sole_shoe", solver::Bond::contact, mu_shoe, 0, false}, false},
          {{"sole_plate", solver::Bond::contact, 0, 0, false}, false},
          {{"sole_pad", solver::Bond::contact, 0, 0, false}, false},
          {{"pad_plate", solver::Bond::contact, 0, 0, false}, false}};
}

void add_pairs(solver::Model& model, BuiltModel& built, const std::vector<PairPlan>& plans) {
  std::set<int> slaves, masters;
  for (const auto& plan : plans) {
    solver::PairContact pair = make_pair(built.mesh, plan.request, slaves, masters);
    if (pair.slave.empty()) continue;
    if (plan.filled_after) built.filled_after.push_back(model.pairs.size());
    model.pairs.push_back(std::move(pair));
  }
}

void add_ground(solver::Model& model, const BuiltModel& built, const Case& run, const CaseMaterials& materials) {
  std::set<int> slaves;
  for (const auto& pair : model.pairs) slaves.insert(pair.slave.begin(), pair.slave.end());
  std::set<int> seen;
  const std::string ground = ground_surface(run);
  std::map<std::string, std::string> faces{
      {"ground_shoe", run.material.layer.empty() ? run.material.shoe : run.material.layer},
      {"ground_plate", run.material.shoe},
      {"ground_packing", run.material.packing},
      {"ground_wall", "horn"},
      {"ground_sole", "horn"}};
  std::map<int, double> columns;
  if (on_bed(run)) {
    model.ground.bed = ground_bed(run, materials);
    if (!has_backing(run)) faces.emplace("sole_surface", "horn");  // it can sink in between the branches
    std::set<int> covered = slaves;
    for (const auto& pair : model.pairs)
      if (pair.name == "sole_packing") covered.insert(pair.master.begin(), pair.master.end());
    std::vector<std::string> names;
    for (const auto& [face, material] : faces)
      if (face != "ground_sole") names.push_back(face);  // bare, that is the sole's surface itself
    columns = column_areas(built.mesh, names, model.symmetry, covered, [](const auto&, double) { return 1.0; });
  }
  for (const auto& [face, material] : faces) {
    const auto edges = built.mesh.edges.find(face);
    if (edges == built.mesh.edges.end()) continue;
    const double mu = run.ground.friction.value_or(materials.friction(material, ground, 0.5));
    for (int node : mesh::nodes_of(edges->second)) {
      if (slaves.count(node) != 0 || !seen.insert(node).second) continue;
      if (on_bed(run)) {  // a node on the axis has no area of its own
        const auto column = columns.find(node);
        if (column == columns.end() || column->second <= 0) continue;
        model.ground.area.push_back(column->second);
      }
      model.ground.nodes.push_back(node);
      model.ground.friction.push_back(mu);
    }
  }
}

/// Nails as a ring: their stiffness summed, between the means of a strip of the wall's bearing face and of the shoe's top.
void add_nails(solver::Model& model, const AxisymmetricSection& section, const Case& run,
               const CaseMaterials& materials) {
  const mesh::PlaneMesh& mesh = section.mesh;
  if (mesh.edges.count("wall_shoe") == 0 || run.shoeing.shoe.attachment == mesh::Attachment::glued) return;
  const auto& nails = run.shoeing.nails;
  const bool taped = run.shoeing.shoe.attachment == mesh::Attachment::taped;
  const NailStiffness one = nail_stiffness(materials.parameter("nail steel", "E"), materials.parameter("wall", "E"));
  const double count = nails.count;
  // A tape is a soft band round the whole foot, without clinch: 60 N/mm, 40 N (assumed, grade D).
  const double axial = taped ? 60 : count * one.axial, lateral = taped ? 60 : count * one.lateral;
  const double preload = taped ? 40 : count * nails.preload;
  const double line = section.radius - 0.6 * run.foot.wall_thickness_quarter;
  const auto &above = mesh.edges.at("wall_shoe"), &below = mesh.edges.at("shoe_top");
  solver::SpringGroup group{"nails", {}};
  for (int c : {1, 0}) {
    solver::Spring spring;
    spring.measure = patch_mean(model, above, line, nails.patch, c);
    for (const auto& [dof, part] : patch_mean(model, below, line, nails.patch, c))
      spring.measure.push_back({dof, -part});
    if (spring.measure.empty()) return;
    spring.law = solver::TwoSided{c == 1 ? axial : lateral, 0};
    spring.ramped_preload = c == 1 ? preload : 0;
    spring.place = {line, 0, 0};
    group.springs.push_back(std::move(spring));
  }
  model.springs.push_back(std::move(group));
}

void add_readings(BuiltModel& built, const AxisymmetricSection& section, const Case& run) {
  const solver::Model& model = built.system->model();
  std::map<int, int> contact_of;
  for (std::size_t k = 0; k < model.ground.nodes.size(); ++k)
    contact_of[model.ground.nodes[k]] = built.system->first_ground_contact() + static_cast<int>(k);
  std::set<int> used;
  for (const auto& [name, faces] :
       std::map<std::string, std::vector<std::string>>{{"shoe", {"ground_shoe"}},
                                                       {"wall", {"ground_wall"}},
                                                       {"packing", {"ground_packing", "ground_plate"}},
                                                       {"sole", {"ground_sole", "sole_surface"}}}) {
    GroundPart part{name, {}};
    for (const auto& face : faces) {
      const auto edges = built.mesh.edges.find(face);
      if (edges == built.mesh.edges.end()) continue;
      for (int node : mesh::nodes_of(edges->second))
        if (const auto it = contact_of.find(node); it != contact_of.end() && used.insert(it->second).second)
          part.contacts.push_back(it->second);
    }
    built.ground.push_back(std::move(part));
  }
  built.sole.edges = built.mesh.edges.at("sole_surface");
  for (std::size_t p = 0; p < model.pairs.size(); ++p) {
    const auto& pair = model.pairs[p];
    if (pair.name.rfind("sole_", 0) != 0) continue;
    const auto [first, last] = built.system->contacts_of_pair(p);
    for (int k = first; k < last; ++k) {
      const auto at = static_cast<std::size_t>(k - first);
      built.sole.contacts.push_back({k, pair.name == "sole_packing" ? pair.master[at] : pair.slave[at]});
    }
  }
  if (built.mesh.edges.count("ground_sole") != 0 || on_bed(run))
    for (int node : mesh::nodes_of(built.sole.edges))
      if (const auto it = contact_of.find(node); it != contact_of.end())
        built.sole.contacts.push_back({it->second, node});
  built.bone = {{"sole", {"corium"}, built.mesh.edges.at("bone_corium")},
                {"lamellae", {"lamella", "white_line"}, built.mesh.edges.at("bone_lamella")}};
  built.tip_x = std::max(0.0, section.radius - run.foot.toe_to_tip);
  for (std::size_t g = 0; g < model.springs.size(); ++g)
    if (model.springs[g].name == "nails") built.nails.push_back({g, {0, 1}});
  built.notes = section.notes;
  add_rest_note(run, built.notes);
}

}  // namespace

BuiltModel build_axisymmetric(const Case& run, const materials::Catalogue& catalogue, double density) {
  const CaseMaterials materials(catalogue, run);
  const AxisymmetricSection section = mesh::axisymmetric_section(run.foot, run.shoeing, 8100, density);
  BuiltModel built;
  built.kind = ModelKind::axisymmetric;
  built.mesh = section.mesh;
  solver::Model model;
  model.symmetry = solver::Symmetry::axisymmetric;
  model.X = section.mesh.X;
  model.ground.joint = {0, run.foot.cor_height};
  add_solids(model, section, run, materials);
  add_pairs(model, built, pair_plans(run, materials));
  add_ground(model, built, run, materials);
  add_supports(model, section, run);
  add_nails(model, section, run, materials);
  built.system = std::make_unique<solver::System>(std::move(model));
  built.newton = std::make_unique<solver::Newton>(*built.system);
  add_readings(built, section, run);
  return built;
}

}  // namespace hoofload::scenarios
