#include "scenarios/sagittal_springs.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "mesh/breadths.hpp"
#include "mesh/brick_shapes.hpp"
#include "mesh/tri_shapes.hpp"

namespace hoofload::scenarios {

namespace {

using solver::Coefficient;
using solver::Spring;

constexpr double kBearingStiffness = 1000;  ///< MPa/mm: 1 MPa closes the joint by 1 um
constexpr double kBearingStick = 300;       ///< MPa/mm
constexpr double kTapedLateral =
    2000;  ///< N/mm: the band, and the friction of a loaded wall that it need not carry (assumed)
// N/mm of a whole filling, along and upright: what keeps its place determined while little touches it, felt by nothing.
constexpr double kFillingHold = 0.2, kFillingLift = 0.02;
constexpr double kWebStiffness = 200;  ///< MPa/mm

void add_face(Spring& spring, const solver::Model& model, const mesh::FacePoint& at, int component, double sign) {
  for (int a = 0; a < 8; ++a)
    spring.measure.push_back(
        {solver::space_dof(model, at.nodes[static_cast<std::size_t>(a)], component), sign * at.shape[a]});
}

void add_scaled(Spring& spring, const std::vector<Coefficient>& c, double scale) {
  for (const auto& [dof, v] : c) spring.measure.push_back({dof, scale * v});
}

bool has_full_pad(const SagittalParts& parts) { return parts.run.shoeing.pad.type == mesh::PadType::full; }

/// The face under the sole at the toe: pad if there is one, else shoe.
const mesh::EdgeSet& seat(const SagittalParts& parts) {
  const auto pad = parts.section.mesh.edges.find("pad_top");
  return pad != parts.section.mesh.edges.end() ? pad->second : parts.section.mesh.edges.at("shoe_top");
}

/// The face that the wall stands on. Of a full pad only the span is a sheet: its rim is a compliance in the joint, Eq. (87).
const mesh::EdgeSet& wall_seat(const SagittalParts& parts) {
  return has_full_pad(parts) ? parts.section.mesh.edges.at("shoe_top") : seat(parts);
}

/// Stiffness of the joint per area [MPa/mm]; through a full pad's rim, a bonded strip as wide as the web (Gent & Lindley
/// 1959), it is a series, Eq. (87).
double joint_stiffness(const SagittalParts& parts) {
  if (!has_full_pad(parts)) return kBearingStiffness;
  const double t = parts.run.shoeing.pad.thickness, S = parts.run.shoeing.shoe.web / (2 * t);
  const double E = parts.materials.small_strain(parts.run.material.pad, parts.run.material.pad_hardness).E;
  return 1 / (1 / kBearingStiffness + t / (4.0 / 3 * E * (1 + S * S)));
}

/// Part of a bearing point that stands on iron: 1 inside the shoe's web, 0 beyond, smooth over 2 mm so that setback acts
/// smoothly.
double covered(const SagittalParts& parts, const mesh::Breadths& b, const mesh::Vec3& X) {
  const auto& shoe = parts.run.shoeing.shoe;
  const auto smooth = [](double d) {
    const double t = std::clamp(0.5 + d / 2, 0.0, 1.0);
    return t * t * (3 - 2 * t);
  };
  const double front = smooth(mesh::shoe_front_x(b, shoe) - X.x()), rear = smooth(X.x() - mesh::shoe_end_x(b, shoe));
  const double inner = 0.5 * mesh::shoe_inner_chord(b, shoe, X.x());
  return front * rear * (inner > 0 ? smooth(std::abs(X.z()) - inner) : 1.0);
}

/// Point of the bearing face at (x, z), or the nearest by its face's own coordinates.
mesh::FacePoint bearing_point_at(const mesh::CapsuleShell& shell, double x, double z) {
  mesh::FacePoint best{};
  double best_distance = 1e30;
  for (const auto& face : shell.mesh.faces.at("bearing")) {
    Eigen::Vector2d xi = Eigen::Vector2d::Zero();
    mesh::FacePoint p{};
    p.nodes = face;
    for (int i = 0; i < 12; ++i) {
      const auto N = mesh::Quad8::N(xi.x(), xi.y());
      const auto dN = mesh::Quad8::dN(xi.x(), xi.y());
      Eigen::Vector2d at = Eigen::Vector2d::Zero();
      Eigen::Matrix2d J = Eigen::Matrix2d::Zero();
      for (int a = 0; a < 8; ++a) {
        const auto& X = shell.mesh.X[static_cast<std::size_t>(face[static_cast<std::size_t>(a)])];
        const Eigen::Vector2d plan{X.x(), X.z()};
        at += N[a] * plan;
        J += plan * dN.row(a);
      }
      p.shape = N;
      p.X = {at.x(), 0, at.y()};
      const Eigen::Vector2d step = J.inverse() * (Eigen::Vector2d{x, z} - at);
      xi = (xi + step).cwiseMax(-1).cwiseMin(1);
    }
    const double distance = std::hypot(p.X.x() - x, p.X.z() - z);
    if (distance < best_distance) best_distance = distance, best = p;
  }
  return best;
}

}  // namespace

std::map<int, double> lengths_along_x(const solver::Model& model, const mesh::EdgeSet& chain) {
  std::map<int, double> length;
  for (const auto& e : chain.edges) {
    const double l = std::abs(model.X[static_cast<std::size_t>(e.a)].x() - model.X[static_cast<std::size_t>(e.b)].x());
    length[e.a] += l / 6;
    length[e.b] += l / 6;
    length[e.mid] += 2 * l / 3;
  }
  return length;
}

solver::SpringGroup white_line(const solver::Model& model, const SagittalParts& parts) {
  solver::SpringGroup group{"white line", {}};
  const mesh::Breadths b = mesh::breadths(parts.run.foot);
  const double E = parts.materials.parameter("sole horn", "E"), nu = parts.materials.parameter("sole horn", "nu");
  const double t = parts.run.foot.sole_horn, E_strip = E / (1 - nu * nu), G = E / (2 * (1 + nu));
  for (const auto& [node, l] : lengths_along_x(model, parts.section.mesh.edges.at("sole_mid"))) {
    const auto& X = model.X[static_cast<std::size_t>(node)];
    const double W = std::max(20.0, mesh::b_sole(b, X.x()));
    const mesh::FacePoint wall = mesh::inner_surface_point(parts.shell, X.x(), X.y());
    const std::array<double, 3> k{12 * G * t / W, parts.white_line_constant * E_strip * t * t * t / 12 / (W * W * W),
                                  4 * E_strip * t / W};
    for (int c = 0; c < 3; ++c) {
      Spring spring;
      spring.law = solver::TwoSided{k[static_cast<std::size_t>(c)] * l, 0};
      spring.place = wall.X;
      if (c < 2) spring.measure.push_back({solver::plane_dof(node, c), 1.0});
      add_face(spring, model, wall, c, c < 2 ? -1.0 : 1.0);
      group.springs.push_back(std::move(spring));
    }
  }
  return group;
}

solver::SpringGroup bearing(const solver::Model& model, const SagittalParts& parts) {
  solver::SpringGroup group{"bearing", {}};
  const mesh::Breadths b = mesh::breadths(parts.run.foot);
  const bool glued = parts.run.shoeing.shoe.attachment == mesh::Attachment::glued;
  const double stiffness = joint_stiffness(parts);
  for (const auto& point : mesh::face_quadrature(parts.shell.mesh, parts.shell.mesh.faces.at("bearing"))) {
    const double area = 2 * point.area * covered(parts, b, point.at.X);  // both halves of the foot
    const auto below = chain_at(model, wall_seat(parts), point.at.X.x(), 1);
    if (area < 1e-6 || below.empty()) continue;
    Spring normal;
    add_face(normal, model, point.at, 1, 1.0);
    add_scaled(normal, below, -1.0);
    normal.place = point.at.X;
    if (glued)
      normal.law = solver::TwoSided{stiffness * area, 0};
    else
      normal.law = solver::OneSided{stiffness * area};
    group.springs.push_back(std::move(normal));
    if (!glued)
      continue;  // a nailed or taped wall is held sideways by its nails or band: the joint itself is frictionless
    for (int c : {0, 2}) {  // the shoe does not move across the foot
      Spring tangential;
      add_face(tangential, model, point.at, c, 1.0);
      if (c == 0) add_scaled(tangential, chain_at(model, wall_seat(parts), point.at.X.x(), 0), -1.0);
      tangential.place = point.at.X;
      tangential.law = solver::TwoSided{kBearingStick * area, 0};
      group.springs.push_back(std::move(tangential));
    }
  }
  return group;
}

solver::SpringGroup nails(const solver::Model& model, const SagittalParts& parts) {
  solver::SpringGroup group{"nails", {}};
  const auto& shoeing = parts.run.shoeing;
  if (shoeing.shoe.attachment == mesh::Attachment::glued) return group;
  const bool taped = shoeing.shoe.attachment == mesh::Attachment::taped;
  const NailStiffness one =
      nail_stiffness(parts.materials.parameter("nail steel", "E"), parts.materials.parameter("wall", "E"));
  const int stations = std::max(1, shoeing.nails.count / 2);
  const auto& top = parts.section.mesh.edges.at("shoe_top");
  for (int i = 0; i < stations; ++i) {
    const double share = stations == 1 ? 0.5 : static_cast<double>(i) / (stations - 1);
    const double x =
        parts.section.shoe_front - (shoeing.nails.first + share * (shoeing.nails.last - shoeing.nails.first));
    const double outer = mesh::outer_half_width(parts.shell.outline, x),
                 inner = mesh::inner_half_width(parts.shell.outline, x);
    const mesh::FacePoint wall = bearing_point_at(parts.shell, x, inner + 0.4 * (outer - inner));
    // Two nails a station. A tape's band: 60 N/mm and 40 N over all stations (assumed, grade D).
    const double axial = taped ? 60.0 / stations : 2 * one.axial,
                 lateral = taped ? kTapedLateral / stations : 2 * one.lateral;
    for (int c : {1, 0, 2}) {
      Spring spring;
      add_face(spring, model, wall, c, 1.0);
      if (c < 2) add_scaled(spring, patch_mean(model, top, x, shoeing.nails.patch, c), -1.0);
      spring.law = solver::TwoSided{c == 1 ? axial : lateral, 0};
      spring.ramped_preload = c == 1 ? (taped ? 40.0 / stations : 2 * shoeing.nails.preload) : 0;
      spring.place = wall.X;
      group.springs.push_back(std::move(spring));
    }
  }
  return group;
}

namespace {

/// A strip clamped to both branches across the shoe's opening: one spring up and one along x per node of the strip's line.
struct Strip {
  std::string name, pairs, line;
  double E, nu, thickness;
};

solver::SpringGroup hung_on_branches(const solver::Model& model, const SagittalParts& parts, const Strip& strip) {
  solver::SpringGroup group{strip.name, {}};
  const auto pairs = parts.section.mesh.pairs.find(strip.pairs);
  if (pairs == parts.section.mesh.pairs.end()) return group;
  const mesh::Breadths b = mesh::breadths(parts.run.foot);
  const auto length = lengths_along_x(model, parts.section.mesh.edges.at(strip.line));
  const double t = strip.thickness, E_strip = strip.E / (1 - strip.nu * strip.nu), G = strip.E / (2 * (1 + strip.nu));
  for (const auto& [hung, shoe] : pairs->second) {
    const auto l = length.find(hung);
    if (l == length.end()) continue;
    const double x = model.X[static_cast<std::size_t>(hung)].x();
    const double W = std::max(10.0, mesh::shoe_inner_chord(b, parts.run.shoeing.shoe, x));
    const std::array<double, 2> k{12 * G * t / W, 720 * E_strip * t * t * t / 12 / (W * W * W)};
    for (int c = 0; c < 2; ++c) {
      Spring spring;
      spring.measure = {{solver::plane_dof(hung, c), 1.0}, {solver::plane_dof(shoe, c), -1.0}};
      spring.law = solver::TwoSided{k[static_cast<std::size_t>(c)] * l->second, 0};
      spring.place = {x, 0, 0};
      group.springs.push_back(std::move(spring));
    }
  }
  return group;
}

}  // namespace

solver::SpringGroup plate_in_shoe(const solver::Model& model, const SagittalParts& parts) {
  const auto [E, nu] = parts.materials.small_strain(parts.run.material.shoe);
  return hung_on_branches(model, parts,
                          {"plate in shoe", "plate_shoe", "plate_rim", E, nu, parts.run.shoeing.shoe.plate_thickness});
}

solver::SpringGroup pad_in_shoe(const solver::Model& model, const SagittalParts& parts) {
  if (!has_full_pad(parts)) return {"pad in shoe", {}};
  const auto [E, nu] = parts.materials.small_strain(parts.run.material.pad, parts.run.material.pad_hardness);
  return hung_on_branches(model, parts,
                          {"pad in shoe", "pad_span", "pad_span", E, nu, parts.run.shoeing.pad.thickness});
}

solver::SpringGroup sole_on_web(const solver::Model& model, const SagittalParts& parts, std::vector<int>& nodes) {
  solver::SpringGroup group{"sole on web", {}};
  const auto& chain = parts.section.mesh.edges.at("sole_surface");
  for (std::size_t i = 0; i < chain.edges.size(); ++i) {
    const auto& e = chain.edges[i];
    const std::array<int, 3> ids{e.a, e.b, e.mid};
    const double l = (model.X[static_cast<std::size_t>(e.a)] - model.X[static_cast<std::size_t>(e.b)]).norm();
    for (std::size_t a = 0; a < 3; ++a) {
      const auto& X = model.X[static_cast<std::size_t>(ids[a])];
      if (X.x() < parts.section.inner_toe) continue;
      const auto below = chain_at(model, seat(parts), X.x(), 1);
      const double area = (a == 2 ? 2.0 / 3 : 1.0 / 6) * l * chain.breadth[i][a];
      if (below.empty() || area <= 0) continue;
      Spring spring;
      spring.measure.push_back({solver::plane_dof(ids[a], 1), 1.0});
      add_scaled(spring, below, -1.0);
      spring.offset = std::max(0.0, X.y());
      spring.law = solver::OneSided{kWebStiffness * area};
      spring.place = {X.x(), X.y(), 0};
      group.springs.push_back(std::move(spring));
      nodes.push_back(ids[a]);
    }
  }
  return group;
}

solver::SpringGroup packing_front(const solver::Model& model, const SagittalParts& parts) {
  solver::SpringGroup group{"packing front", {}};
  if (!has_packing(parts.run) || parts.section.packing_to < parts.section.inner_toe - 1) return group;
  const auto shoe = parts.section.mesh.edges.find("shoe_mid");
  if (shoe == parts.section.mesh.edges.end()) return group;
  std::set<int> front;
  for (const auto& block : parts.section.mesh.blocks)
    if (block.region == "packing")
      for (const auto& tri : block.tri)
        for (int node : tri)
          if (std::abs(model.X[static_cast<std::size_t>(node)].x() - parts.section.packing_to) < 1e-6)
            front.insert(node);
  const double width = 0.5 * parts.run.foot.bearing_width;  // of the toe's inner edge that the filling meets
  const double height = std::max(1.0, parts.run.shoeing.shoe.thickness);
  for (int node : front) {
    const auto toe = chain_at(model, shoe->second, parts.section.inner_toe + 0.5, 0);
    if (toe.empty()) continue;
    Spring spring;
    add_scaled(spring, toe, 1.0);
    spring.measure.push_back({solver::plane_dof(node, 0), -1.0});
    spring.law = solver::OneSided{kWebStiffness * width * height / static_cast<double>(front.size())};
    group.springs.push_back(std::move(spring));
  }
  return group;
}

solver::SpringGroup packing_hold(const solver::Model&, const SagittalParts& parts) {
  solver::SpringGroup group{"packing hold", {}};
  if (!has_packing(parts.run) || parts.run.shoeing.packing.bond == mesh::PackingBond::bonded) return group;
  for (const char* region : {"packing", "packing_frog"}) {  // beside the frog and under it: two bodies
    std::set<int> nodes;
    for (const auto& block : parts.section.mesh.blocks)
      if (block.region == region)
        for (const auto& tri : block.tri) nodes.insert(tri.begin(), tri.end());
    for (int node : nodes)
      for (const auto& [component, k] : {std::pair{0, kFillingHold}, std::pair{1, kFillingLift}}) {
        Spring spring;
        spring.measure.push_back({solver::plane_dof(node, component), 1.0});
        spring.law = solver::TwoSided{k / static_cast<double>(nodes.size())};
        group.springs.push_back(std::move(spring));
      }
  }
  return group;
}

}  // namespace hoofload::scenarios
