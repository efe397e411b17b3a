#include <algorithm>
#include <cmath>
#include <map>

#include "mesh/breadths.hpp"
#include "scenarios/build_ground.hpp"
#include "scenarios/build_model.hpp"
#include "scenarios/pressed_sole.hpp"
#include "scenarios/sagittal_springs.hpp"
#include "scenarios/tendon.hpp"
#include "solver/brick.hpp"

namespace hoofload::scenarios {

namespace {

using mesh::SagittalSection;

/// A bare foot stands on its own bearing border: the lowest 2 mm of the wall as a ring of wall horn, joined to it.
Case with_border_for_shoe(const Case& run) {
  Case bare = run;
  auto& shoe = bare.shoeing.shoe;
  shoe.type = mesh::ShoeType::open;
  shoe.attachment = mesh::Attachment::glued;
  shoe.thickness = 2;
  shoe.web = run.foot.wall_thickness_toe / std::sin(run.foot.toe_angle) + 6;  // the wall and its white line
  shoe.heel_extension = 0;
  shoe.breakover = 4;
  bare.material.shoe = "wall";
  return bare;
}

constexpr double kRearZone = 0.15;  ///< of the bearing length, for heel-off

struct RegionMaterial {
  std::string id;
  std::optional<double> hardness;
};

RegionMaterial material_id(const Case& run, const std::string& region) {
  static const std::map<std::string, std::string> tissues{{"sole", "sole horn"},
                                                          {"frog_plate", "frog horn"},
                                                          {"frog", "frog horn"},
                                                          {"corium", "sole corium"},
                                                          {"cushion", "digital cushion palmar"}};
  if (const auto it = tissues.find(region); it != tissues.end()) return {it->second, {}};
  if (region == "pad" || region == "pad_toe") return {run.material.pad, run.material.pad_hardness};
  if (region == "shoe_layer") return {run.material.layer, {}};
  return {run.material.shoe, {}};
}

void add_core(solver::Model& model, const SagittalSection& section, const Case& run, const CaseMaterials& materials) {
  for (const auto& block : section.mesh.blocks) {
    const RegionMaterial id = material_id(run, block.region);
    const bool filling = block.region == "packing" || block.region == "packing_frog";
    const ChosenMaterial chosen = filling ? materials.packing() : materials.material(id.id, id.hardness);
    model.solids.push_back(
        solver::make_solid_block(section.mesh, block, model.symmetry, chosen.law, chosen.formulation));
  }
  std::set<int> clamped;
  for (const char* line : {"bone_corium", "bone_cushion"})
    if (const auto it = section.mesh.edges.find(line); it != section.mesh.edges.end())
      for (int node : mesh::nodes_of(it->second)) clamped.insert(node);
  for (int node : clamped)
    for (int c = 0; c < 2; ++c) model.supports.push_back({solver::plane_dof(node, c)});
}

/// The wall's bricks and the lamellae under it; the half shell counts twice, Eq. (29).
void add_capsule(solver::Model& model, const mesh::CapsuleShell& shell, const Case& run,
                 const CaseMaterials& materials) {
  model.X_space.assign(shell.mesh.X.begin(), shell.mesh.X.end());
  const solver::Matrix6 C =
      solver::isotropic_elasticity(materials.parameter("wall", "E"), materials.parameter("wall", "nu"));
  solver::ConstantBlock wall{"wall", 60, {}, {}};
  for (const auto& hex : shell.mesh.hex) {
    solver::BrickNodes X;
    std::vector<int> dofs;
    for (int a = 0; a < 20; ++a) {
      const int node = hex[static_cast<std::size_t>(a)];
      X.col(a) = shell.mesh.X[static_cast<std::size_t>(node)];
      for (int c = 0; c < 3; ++c) dofs.push_back(solver::space_dof(model, node, c));
    }
    wall.dofs.push_back(std::move(dofs));
    wall.K.push_back(2.0 * solver::brick_stiffness(X, C));
  }
  model.constants.push_back(std::move(wall));
  for (int node : shell.mesh.nodes.at("symmetry")) model.supports.push_back({solver::space_dof(model, node, 2)});
  solver::LayerBlock layer{"lamellae", materials.material("lamellae").law, run.foot.lamella_thickness, {}, {}};
  std::map<mesh::Face, std::size_t> face_index;
  for (const auto& point : shell.lamella) {
    if (point.area <= 0) continue;
    const auto [it, fresh] = face_index.emplace(point.at.nodes, layer.nodes.size());
    if (fresh) {
      layer.nodes.push_back(point.at.nodes);
      layer.points.emplace_back();
    }
    layer.points[it->second].push_back({point.at.shape, point.normal, 2 * point.area, point.at.X});
  }
  model.layers.push_back(std::move(layer));
}

struct PairPlan {
  PairRequest request;
  bool filled_after = false;
};

std::vector<PairPlan> pair_plans(const Case& run, const CaseMaterials& materials) {
  const auto& packing = run.shoeing.packing;
  const bool tied = packing.bond == mesh::PackingBond::bonded;
  const bool after = packing.order == mesh::PackingOrder::after_nailing;
  const bool backed = has_backing(run);
  const double mu = packing.bond == mesh::PackingBond::frictional ? materials.friction("horn", "rubber", 0.5) : 0;
  const double squeeze = backed && !after ? packing.proud : 0;
  // Without a backing the filling has only the sole to hold on to.
  const solver::Bond top = tied || !backed ? solver::Bond::tied : solver::Bond::contact;
  const solver::Bond bottom = tied ? solver::Bond::tied : solver::Bond::contact;
  const bool late = after && backed;
  // Glue holds every joint of the stack: wall, pad, shoe.
  const solver::Bond seat =
      run.shoeing.shoe.attachment == mesh::Attachment::glued ? solver::Bond::tied : solver::Bond::contact;
  return {{{"sole_packing", top, mu, squeeze, false}, late},
          {{"frog_packing", top, mu, squeeze, false}, late},
          {{"packing_plate", bottom, mu, 0, false}, false},
          {{"packing_pad", bottom, mu, 0, false}, false},
          {{"packing_frog_plate", bottom, mu, 0, false}, false},
          {{"packing_frog_pad", bottom, mu, 0, false}, false},
          {{"pad_shoe", seat, materials.friction(run.material.shoe, "leather", 0.4), 0, false}, false},
          {{"pad_plate", solver::Bond::contact, 0, 0, false}, false},
          {{"sole_plate", solver::Bond::contact, 0, 0, false}, false},
          {{"sole_pad", solver::Bond::contact, 0, 0, false}, false},
          {{"frog_over_plate", solver::Bond::contact, 0, 0, false}, false},
          {{"frog_over_pad", solver::Bond::contact, 0, 0, false}, false}};
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

const std::vector<std::pair<std::string, std::vector<std::string>>>& ground_faces() {
  static const std::vector<std::pair<std::string, std::vector<std::string>>> faces{
      {"shoe", {"ground_shoe"}},
      {"packing", {"ground_plate", "ground_packing", "ground_packing_frog"}},
      {"frog", {"frog_surface"}},
      {"sole", {"sole_surface"}}};
  return faces;
}

/// Keeps of the ground's nodes those that have a column of the bed.
void add_bed(solver::Model& model, const BuiltModel& built, const Case& run, const CaseMaterials& materials,
             const std::set<int>& taken) {
  model.ground.bed = ground_bed(run, materials);
  const mesh::Breadths b = mesh::breadths(run.foot);
  std::vector<std::string> faces;
  for (const auto& [name, lines] : ground_faces()) faces.insert(faces.end(), lines.begin(), lines.end());
  const auto columns = column_areas(built.mesh, faces, model.symmetry, taken,
                                    [&](const std::string& face, double x) { return open_share(run, b, face, x); });
  const solver::Ground all = model.ground;
  model.ground.nodes.clear();
  model.ground.friction.clear();
  for (std::size_t k = 0; k < all.nodes.size(); ++k) {
    const auto column = columns.find(all.nodes[k]);
    if (column == columns.end() || column->second <= 0) continue;
    model.ground.nodes.push_back(all.nodes[k]);
    model.ground.friction.push_back(all.friction[k]);
    model.ground.area.push_back(column->second);
  }
}

void add_ground(solver::Model& model, const BuiltModel& built, const Case& run, const CaseMaterials& materials) {
  std::set<int> taken;
  for (const auto& pair : model.pairs) {
    taken.insert(pair.slave.begin(), pair.slave.end());
    // Horn that something presses on cannot reach the ground itself.
    if (pair.name == "sole_packing" || pair.name == "frog_packing")
      taken.insert(pair.master.begin(), pair.master.end());
  }
  const std::set<int> covered = taken;
  const std::string ground = ground_surface(run);
  for (const auto& [name, lines] : ground_faces()) {
    if ((name == "frog" || name == "sole") && has_backing(run)) continue;
    const std::string material = name == "shoe"                                               ? run.material.shoe
                                 : name == "packing" && has_packing(run) && !has_backing(run) ? run.material.packing
                                 : name == "packing"                                          ? run.material.shoe
                                                                                              : "horn";
    const double mu = run.ground.friction.value_or(materials.friction(material, ground, 0.5));
    for (const auto& line : lines) {
      const auto edges = built.mesh.edges.find(line);
      if (edges == built.mesh.edges.end()) continue;
      for (int node : mesh::nodes_of(edges->second)) {
        if (!taken.insert(node).second) continue;
        model.ground.nodes.push_back(node);
        model.ground.friction.push_back(mu);
      }
    }
  }
  if (on_bed(run)) add_bed(model, built, run, materials, covered);
}

void add_ground_readings(BuiltModel& built, const SagittalSection& section, const mesh::Foot& foot, bool bare) {
  const solver::Model& model = built.system->model();
  std::map<int, int> contact_of;
  for (std::size_t k = 0; k < model.ground.nodes.size(); ++k)
    contact_of[model.ground.nodes[k]] = built.system->first_ground_contact() + static_cast<int>(k);
  for (const auto& [name, lines] : ground_faces()) {
    GroundPart part{bare && name == "shoe" ? "wall" : name, {}};
    for (const auto& line : lines) {
      const auto edges = built.mesh.edges.find(line);
      if (edges == built.mesh.edges.end()) continue;
      for (int node : mesh::nodes_of(edges->second)) {
        const auto it = contact_of.find(node);
        if (it == contact_of.end()) continue;
        part.contacts.push_back(it->second);
        if (name == "sole") built.sole.contacts.push_back({it->second, node});
        if (name == "frog") built.frog.contacts.push_back({it->second, node});
      }
    }
    built.ground.push_back(std::move(part));
  }
  const double length = section.breakover - section.shoe_end;
  built.zones = {{"heel", {}, 0}, {"middle", {}, 0}, {"toe", {}, 0}};
  const auto& face = built.mesh.edges.at("ground_shoe");
  for (std::size_t i = 0; i < face.edges.size(); ++i) {
    const auto& e = face.edges[i];
    const double a = model.X[static_cast<std::size_t>(e.a)].x(), b = model.X[static_cast<std::size_t>(e.b)].x();
    const auto& w = face.breadth[i];
    const double third = std::clamp(3 * (0.5 * (a + b) - section.shoe_end) / length, 0.0, 2.999);
    built.zones[static_cast<std::size_t>(third)].area += std::abs(b - a) * (w[0] + w[1] + 4 * w[2]) / 6;
  }
  // A node counts by the part of its own length that lies in the zone, so that no node is in or out by a hair.
  // By the hoof's length, not the shoe's: what sticks out behind the heel carries little, and a setback only makes more of it.
  const double rear_end = -(1 - kRearZone) * foot.bearing_length;
  for (const auto& [name, lines] : ground_faces())
    for (const auto& line : lines) {
      const auto edges = built.mesh.edges.find(line);
      if (edges == built.mesh.edges.end()) continue;
      for (const auto& [node, own] : lengths_along_x(model, edges->second)) {
        const auto it = contact_of.find(node);
        const double behind = rear_end - model.X[static_cast<std::size_t>(node)].x();
        const double part = own > 0 ? std::clamp(0.5 + behind / own, 0.0, 1.0) : 0.0;
        if (it != contact_of.end() && part > 0) built.rear_contacts.push_back({it->second, part});
      }
    }
  for (int node : mesh::nodes_of(face)) {
    const auto it = contact_of.find(node);
    if (it == contact_of.end()) continue;
    const double along = (model.X[static_cast<std::size_t>(node)].x() - section.shoe_end) / length;
    built.zones[static_cast<std::size_t>(std::clamp(3 * along, 0.0, 2.999))].contacts.push_back(it->second);
  }
}

void add_horn_readings(BuiltModel& built, const Case& run, const std::vector<int>& web_nodes) {
  const solver::Model& model = built.system->model();
  built.sole.edges = pressed_sole(built.mesh, run);
  if (const auto it = built.mesh.edges.find("frog_surface"); it != built.mesh.edges.end())
    built.frog.edges = it->second;
  for (std::size_t p = 0; p < model.pairs.size(); ++p) {
    const auto& pair = model.pairs[p];
    const bool sole = pair.name.rfind("sole_", 0) == 0, frog = pair.name.rfind("frog_", 0) == 0;
    if (!sole && !frog) continue;
    const auto [first, last] = built.system->contacts_of_pair(p);
    for (int k = first; k < last; ++k) {
      const auto at = static_cast<std::size_t>(k - first);
      const bool horn_is_master = pair.name == "sole_packing" || pair.name == "frog_packing";
      (sole ? built.sole : built.frog).contacts.push_back({k, horn_is_master ? pair.master[at] : pair.slave[at]});
    }
  }
  for (std::size_t g = 0; g < model.springs.size(); ++g)
    if (model.springs[g].name == "sole on web")
      for (std::size_t k = 0; k < web_nodes.size(); ++k) built.sole.springs.push_back({g, k, web_nodes[k]});
  built.bone = {{"sole", {"corium"}, built.mesh.edges.at("bone_corium")}};
  if (const auto it = built.mesh.edges.find("bone_cushion"); it != built.mesh.edges.end())
    built.bone.push_back({"frog", {"cushion"}, it->second});
}

/// Every mm along x; the foremost line is the breakover's, as wide as the shoe there.
std::vector<solver::Vec2> ground_outline(const Case& run, const SagittalSection& section) {
  const mesh::Breadths b = mesh::breadths(run.foot);
  std::vector<solver::Vec2> outline;
  constexpr int stations = 150;
  for (int i = 0; i <= stations; ++i) {
    const double x = std::lerp(section.shoe_end, section.breakover, static_cast<double>(i) / stations);
    outline.emplace_back(x, 0.5 * mesh::shoe_outer_chord(b, run.shoeing.shoe, x));
  }
  return outline;
}

CapsuleReadings capsule_readings(const mesh::CapsuleShell& shell) {
  CapsuleReadings r;
  r.shell = shell;
  r.dorsal_height = 30;
  r.quarter_height = 20;
  r.dorsal = mesh::outer_surface_point(shell, 0, r.dorsal_height);
  r.quarter = mesh::outer_surface_point(shell, 1, r.quarter_height);
  for (std::size_t i = 0; i < shell.mesh.X.size(); ++i)
    if (r.heel_node < 0 || shell.mesh.X[i].x() < shell.mesh.X[static_cast<std::size_t>(r.heel_node)].x())
      r.heel_node = static_cast<int>(i);
  return r;
}

}  // namespace

BuiltModel build_sagittal(const Case& given, const materials::Catalogue& catalogue, double density,
                          double white_line_constant) {
  const bool bare = given.shoeing.shoe.type == mesh::ShoeType::bare;
  const Case run = bare ? with_border_for_shoe(given) : given;
  const CaseMaterials materials(catalogue, run);
  const SagittalSection section = mesh::sagittal_section(run.foot, run.shoeing, density);
  const mesh::CapsuleShell shell = mesh::capsule_shell(run.foot);
  const SagittalParts parts{run, materials, section, shell, white_line_constant};
  BuiltModel built;
  built.kind = ModelKind::sagittal;
  built.mesh = section.mesh;
  built.rest_pitch = run.shoeing.shoe.elevation;
  built.notes = section.notes;
  add_rest_note(run, built.notes);
  if (bare) built.notes.push_back("the bare wall stands on its lowest 2 mm as a ring of horn below the bearing plane");
  solver::Model model;
  model.symmetry = solver::Symmetry::plane_strain;
  model.X = section.mesh.X;
  model.ground.joint = coffin_joint(run.foot);
  model.ground.mobilised = true;
  add_core(model, section, run, materials);
  add_capsule(model, shell, run, materials);
  add_pairs(model, built, pair_plans(run, materials));
  add_ground(model, built, run, materials);
  std::vector<int> web_nodes;
  for (auto group : {white_line(model, parts), bearing(model, parts), nails(model, parts), plate_in_shoe(model, parts),
                     pad_in_shoe(model, parts), sole_on_web(model, parts, web_nodes), packing_front(model, parts),
                     packing_hold(model, parts)})
    if (!group.springs.empty()) model.springs.push_back(std::move(group));
  built.system = std::make_unique<solver::System>(std::move(model));
  built.newton = std::make_unique<solver::Newton>(*built.system);
  built.tendon = tendon_path(run.foot, run.load.tendon_stiffness);
  built.tip_x = section.bone_tip;
  built.front_x = section.breakover;
  built.ground_outline = ground_outline(run, section);
  add_ground_readings(built, section, run.foot, bare);
  add_horn_readings(built, run, web_nodes);
  built.capsule = capsule_readings(shell);
  const auto& groups = built.system->model().springs;
  for (std::size_t g = 0; g < groups.size(); ++g)
    if (groups[g].name == "nails")
      for (int k = 0; k + 2 < static_cast<int>(groups[g].springs.size()); k += 3)
        built.nails.push_back({g, {k, k + 1, k + 2}});
  return built;
}

}  // namespace hoofload::scenarios
