// The side view of every option in one phase: core and shoe, capsule, bones, ground, forces.
#include <algorithm>
#include <cmath>
#include <set>

#include "mesh/side_view.hpp"
#include "scenarios/drawings.hpp"
#include "scenarios/fields.hpp"
#include "scenarios/picture_parts.hpp"
#include "scenarios/pictures.hpp"
#include "scenarios/tendon.hpp"
#include "solver/ground.hpp"

namespace hoofload::scenarios {

namespace {

using viz::Vec2;

const std::vector<std::string> kFacts{"sole_pressure_peak",
                                      "bone_share_lamellae",
                                      "bone_share_sole",
                                      "ddft_moment",
                                      "ddft_force",
                                      "navicular_force",
                                      "cop",
                                      "breakover_arm",
                                      "pivot",
                                      "palmar_angle_loaded",
                                      "bone_sink",
                                      "heel_spread",
                                      "swing_sole_pressure"};
constexpr double kStrandShown = 55;  ///< of the tendon above the navicular [mm]
constexpr double kMmPerNewton = 0.012;

std::set<int> nodes_of_faces(const mesh::SpaceMesh& mesh, const std::string& name) {
  std::set<int> nodes;
  if (const auto it = mesh.faces.find(name); it != mesh.faces.end())
    for (const auto& face : it->second) nodes.insert(face.begin(), face.end());
  return nodes;
}

/// Side view of a node of the capsule, displaced as the section is.
Vec2 seen(const mesh::CapsuleShell& shell, const std::vector<mesh::Vec3>& u, int node) {
  const auto i = static_cast<std::size_t>(node);
  return shell.mesh.X[i].head<2>() + kDeformationScale * u[i].head<2>();
}

/// Nodes that two sets share, ordered by a key of their unloaded place.
template <class Key>
std::vector<int> shared_nodes(const mesh::SpaceMesh& mesh, const std::set<int>& a, const std::set<int>& b, Key&& key) {
  std::vector<int> nodes;
  std::set_intersection(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(nodes));
  std::sort(nodes.begin(), nodes.end(), [&](int m, int n) {
    return key(mesh.X[static_cast<std::size_t>(m)]) < key(mesh.X[static_cast<std::size_t>(n)]);
  });
  return nodes;
}

/// Mid-plane section of the wall, and the coronet continued down the heel.
void add_capsule(const Drawn& drawn, viz::SideView& view) {
  const mesh::CapsuleShell& shell = drawn.built->capsule->shell;
  const auto u = capsule_displacements(*drawn.built, drawn.phase->solution);
  const auto& symmetry = shell.mesh.nodes.at("symmetry");
  const std::set<int> middle(symmetry.begin(), symmetry.end());
  const auto outer = nodes_of_faces(shell.mesh, "outer"), inner = nodes_of_faces(shell.mesh, "inner");
  const auto up = [](const mesh::Vec3& X) { return X.y(); };
  const auto back = [](const mesh::Vec3& X) { return -X.x(); };
  for (const int node : shared_nodes(shell.mesh, outer, middle, up)) view.outer_wall.push_back(seen(shell, u, node));
  for (const int node : shared_nodes(shell.mesh, inner, middle, up)) view.inner_wall.push_back(seen(shell, u, node));
  for (const int node : shared_nodes(shell.mesh, outer, nodes_of_faces(shell.mesh, "coronet"), back))
    view.coronet.push_back(seen(shell, u, node));
  const auto bearing = shared_nodes(shell.mesh, outer, nodes_of_faces(shell.mesh, "bearing"), back);
  if (!bearing.empty()) view.coronet.push_back(seen(shell, u, bearing.back()));
}

struct GroundPose {
  double d, theta;
};

/// The ground's pitch magnified as the displacements are, laid against the lowest drawn node, or as far above it as it sinks in.
GroundPose drawn_ground(const Drawn& drawn, const std::vector<Vec2>& x) {
  const auto& model = drawn.built->system->model();
  const double theta = drawn.phase->solution.state.q[solver::ground_dof(model, 2)];
  const double magnified = model.ground.bed ? 1 : kDeformationScale;  // the sinking of a foot is large enough as it is
  const double shown = drawn.built->rest_pitch + magnified * (theta - drawn.built->rest_pitch);
  const Vec2 n = solver::ground_normal(shown);
  double d = -1e30;
  for (const int node : model.ground.nodes)
    d = std::max(d, -(x[static_cast<std::size_t>(node)] - model.ground.joint).dot(n));
  return {d - indentation(drawn), shown};
}

void add_ground(const Drawn& drawn, const std::vector<Vec2>& x, viz::SideView& view) {
  const auto& loading = drawn.phase->solution.loading;
  if (loading.normal_force <= 0) return;
  const GroundPose pose = drawn_ground(drawn, x);
  const Vec2 n = solver::ground_normal(pose.theta), t = solver::ground_tangent(pose.theta);
  const Vec2 foot = *view.joint - pose.d * n;
  view.ground = viz::GroundLine{foot, t};
  const auto cop = drawn.phase->values.find("cop");
  if (cop == drawn.phase->values.end()) return;
  view.forces.push_back(
      {"ground force", foot + cop->second.value * t, loading.normal_force * n + loading.tangential_force * t});
}

/// From the insertion round the navicular to a stub of the strand above it.
void add_tendon(const Drawn& drawn, viz::SideView& view) {
  const auto& phase = drawn.phase->solution;
  const solver::Cable cable = phase.loading.cable.value_or(*drawn.built->tendon);
  const double theta = phase.state.q[solver::ground_dof(drawn.built->system->model(), 2)];
  const auto path = solver::cable_path(cable, theta);
  viz::CablePath drawn_path{"deep flexor tendon", {path.A, path.T1}, phase.cable_tension};
  const Vec2 from = path.T1 - cable.pulley, to = path.T2 - cable.pulley;
  const double turn = std::atan2(from.x() * to.y() - from.y() * to.x(), from.dot(to));
  for (int k = 1; k < 8; ++k) {
    const double a = std::atan2(from.y(), from.x()) + turn * k / 8;
    drawn_path.path.emplace_back(cable.pulley + cable.radius * Vec2(std::cos(a), std::sin(a)));
  }
  drawn_path.path.push_back(path.T2);
  drawn_path.path.emplace_back(path.T2 + kStrandShown * (path.B - path.T2).normalized());
  view.cables.push_back(std::move(drawn_path));
}

viz::SideView side_view_of(const Drawn& drawn) {
  viz::SideView view;
  view.heading = heading_of(drawn, "sagittal core in 3D capsule", kFacts);
  view.section = stress_section(drawn);
  view.joint = drawn.built->system->model().ground.joint;
  view.bones = {{"distal phalanx", mesh::phalanx_outline(drawn.result->run.foot)},
                {"navicular", mesh::navicular_outline(drawn.result->run.foot)}};
  view.sole = sole_ribbon(drawn, view.section);
  view.mm_per_newton = kMmPerNewton;
  add_capsule(drawn, view);
  add_ground(drawn, viz::drawn_positions(view.section), view);
  add_tendon(drawn, view);
  return view;
}

viz::Window shared_window(const std::vector<viz::SideView>& views) {
  std::vector<Vec2> points;
  const auto add = [&](const std::vector<Vec2>& more) { points.insert(points.end(), more.begin(), more.end()); };
  for (const auto& view : views) {
    add(viz::drawn_positions(view.section));
    add(view.outer_wall);
    add(view.coronet);
    for (const auto& bone : view.bones) add(bone.points);
    for (const auto& cable : view.cables) add(cable.path);
    for (const auto& force : view.forces) add({force.at, force.at + view.mm_per_newton * force.force});
  }
  viz::Window window = viz::window_of(points, 8);
  window.low.y() -= 12;  // the scale bar's place
  return window;
}

}  // namespace

std::vector<SideDrawing> drawn_together(const std::vector<Drawn>& all) {
  std::vector<SideDrawing> drawings;
  std::vector<viz::SideView> views;
  std::vector<viz::Section> sections;
  std::vector<viz::PressureRibbon> ribbons;
  for (const Drawn& drawn : all) {
    views.push_back(side_view_of(drawn));
    sections.push_back(views.back().section);
    ribbons.push_back(views.back().sole);
    drawings.push_back({drawn, {}});
  }
  if (drawings.empty()) return {};
  const viz::ColourScale scale = shared_scale(sections);
  const double mm_per_kpa = shared_ribbon_scale(ribbons);
  const viz::Window window = shared_window(views);
  for (std::size_t k = 0; k < views.size(); ++k) {
    views[k].scale = scale;
    views[k].window = window;
    views[k].mm_per_kpa = mm_per_kpa;
    drawings[k].view = std::move(views[k]);
  }
  return drawings;
}

std::vector<SideDrawing> side_drawings(const std::vector<RunResult>& results, Phase phase) {
  return drawn_together(drawn_runs(results, ModelKind::sagittal, phase));
}

std::vector<Picture> side_views(const std::vector<RunResult>& results, Phase phase) {
  std::vector<Picture> pictures;
  for (const SideDrawing& d : side_drawings(results, phase))
    pictures.push_back({picture_name(results, d.drawn, "side-view"), viz::side_view_figure(d.view)});
  return pictures;
}

}  // namespace hoofload::scenarios
