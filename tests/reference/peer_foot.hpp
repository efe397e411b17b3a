// The fixed shod-foot-like section of mesh/peer_section.hpp under 2500 N spread over the bone's top.
//
// Case a: linear, all bonded. b: finite strain, all bonded. c: finite strain, filling frictionless on sole and ground, still
// bonded to the shoe's inner face. The shoe's underside never moves.
#pragma once

#include <map>
#include <numbers>
#include <utility>

#include "mesh/peer_section.hpp"
#include "tests/reference/problem.hpp"
#include "tests/support/edge_loads.hpp"

namespace hoofload::reference {

struct PeerFoot {
  char variant = 'a';
  mesh::PeerSize size = mesh::PeerSize::k5;
  double kappa = 169;  ///< [MPa]
  Formulation filling = Formulation::mixed;
};

inline materials::Material stiff(double E, double nu, bool finite) {
  if (finite) return materials::SaintVenantKirchhoff{E, nu};
  return materials::LinearIsotropic{E, nu};
}

inline materials::Material soft(double mu, double kappa, bool finite) {
  if (finite) return materials::NeoHooke{mu, kappa};
  const double E = 9 * kappa * mu / (3 * kappa + mu);
  return materials::LinearIsotropic{E, E / (2 * mu) - 1};
}

inline void add_peer_solids(Problem& p, const PeerFoot& foot) {
  constexpr double mu = 0.56;
  const std::map<std::string, std::pair<double, double>> bodies{{"wall", {735, .35}}, {"lamella", {6, .4}},
                                                                {"bone", {3000, .3}}, {"corium", {1, .45}},
                                                                {"sole", {230, .38}}, {"shoe", {205000, .3}}};
  for (const auto& block : p.mesh.blocks) {
    const auto it = bodies.find(block.region);
    const bool body = it != bodies.end();
    const auto law = body ? stiff(it->second.first, it->second.second, p.finite) : soft(mu, foot.kappa, p.finite);
    p.model.solids.push_back(
        make_solid_block(p.mesh, block, p.model.symmetry, law, body ? Formulation::displacement : foot.filling));
  }
}

/// Pairs with the sole along its parabola's normal, ground under the filling.
inline void add_peer_contact(Problem& p, const std::set<int>& fixed) {
  solver::PairContact pair;
  pair.name = "itf";
  for (const auto& [slave, master] : p.mesh.pairs.at("itf")) {
    pair.slave.push_back(slave);
    pair.master.push_back(master);
    pair.normal.push_back(Vec2{-16 * p.mesh.X[static_cast<std::size_t>(slave)].x() / (53.0 * 53), -1}.normalized());
    pair.gap.push_back(0);
    pair.interference.push_back(0);
  }
  p.model.pairs.push_back(std::move(pair));
  for (int node : mesh::nodes_of(p.mesh.edges.at("pb")))
    if (fixed.count(node) == 0) p.model.ground.nodes.push_back(node);
  p.contact = {{p.mesh.edges.at("itf"), p.mesh.edges.at("itf_master")}, {p.mesh.edges.at("pb"), std::nullopt}};
}

/// On a mesh of mesh::peer_section, split along the filling's interface where the case has contact.
[[nodiscard]] inline Problem peer_foot(const PeerFoot& foot, mesh::PlaneMesh mesh) {
  const bool contact = foot.variant == 'c';
  Problem p;
  p.name = std::string("peer foot ") + foot.variant;
  p.mesh = std::move(mesh);
  p.finite = foot.variant != 'a';
  p.model.symmetry = solver::Symmetry::axisymmetric;
  p.model.X = p.mesh.X;
  add_peer_solids(p, foot);
  std::set<int> fixed;
  for (const char* set : {"sb", "pb"})
    if (std::string_view(set) == "sb" || !contact)
      for (int node : mesh::nodes_of(p.mesh.edges.at(set))) fixed.insert(node);
  for (int node : fixed)
    for (int c : {0, 1}) p.held.push_back({node, c, 0});
  if (contact) add_peer_contact(p, fixed);
  hold_axis(p);
  add_supports(p);
  double R = 0;
  for (int node : mesh::nodes_of(p.mesh.edges.at("b_t"))) R = std::max(R, p.mesh.X[static_cast<std::size_t>(node)].x());
  p.load = 2500;
  tests::add_pressure(p.model, p.mesh.edges.at("b_t"), p.load / (std::numbers::pi * R * R));
  for (std::size_t i = 0; i < p.mesh.X.size(); ++i)
    if (p.mesh.X[i].x() < 1e-9 && std::abs(p.mesh.X[i].y() - 90) < 1e-6) p.sink_node = static_cast<int>(i);
  p.filling = "packing";
  p.line = p.mesh.edges.at("itf");
  p.facing = p.mesh.edges.at(contact ? "itf_master" : "itf");
  // A corner on the axis has no area of its own, and in contact it holds what ccx's loosened tolerance leaves.
  p.from = contact ? 0.1 : 0;
  p.to = 36;  // the packing's edge lies at 41
  return p;
}

[[nodiscard]] inline Problem peer_foot(const PeerFoot& foot) {
  return peer_foot(foot, mesh::peer_section(foot.size, foot.variant == 'c'));
}

}  // namespace hoofload::reference
