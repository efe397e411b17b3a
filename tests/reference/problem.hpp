// One boundary-value problem that hoofload and other programs solve alike: what is solved, and how it is read.
//
// Loads are dead nodal forces or a prescribed sinking of some nodes; contact is frictionless. The readings are taken from
// the filling's consistent nodal forces, so that no program's averaging of stresses enters.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

#include "solver/contact_pressure.hpp"
#include "solver/newton.hpp"

namespace hoofload::reference {

using solver::Formulation;
using solver::Model;
using solver::Vec2;

/// A prescribed displacement of a node, in the plane's directions [mm].
struct Held {
  int node, component;
  double value = 0;
};

/// A line of the filling that may touch: the body it meets, or (no master) rigid ground at height y = 0.
struct Touching {
  mesh::EdgeSet slave;
  std::optional<mesh::EdgeSet> master;
};

struct Problem {
  std::string name;
  mesh::PlaneMesh mesh;
  Model model;
  bool finite = true;      ///< false: linear
  std::vector<Held> held;  ///< what the model's supports say, in the plane's directions
  std::vector<Touching> contact;
  std::string filling;       ///< region whose force on `line` is read
  mesh::EdgeSet line;        ///< the filling's side
  mesh::EdgeSet facing;      ///< the other body's side
  double from = 0, to = 0;   ///< x between which the peak is read [mm]: a bonded edge is singular
  std::vector<int> sinking;  ///< nodes whose sinking is given; empty: `load` is given and `sink_node` is read
  int sink_node = -1;
  double load = 0;  ///< [N]
};

struct Reading {
  double sink = 0;   ///< [mm]
  double load = 0;   ///< [N]
  double share = 0;  ///< of the load that the filling hands to what lies on it [%]
  double mean = 0;   ///< that force over the line's present projected area [MPa]
  double peak = 0;   ///< largest hat projection of it within [from, to] [MPa]
};

struct Effort {
  int iterations = 0, factorisations = 0;
};

struct Solution {
  Reading reading;
  Effort effort;
};

[[nodiscard]] inline std::set<int> contact_nodes(const Model& model) {
  std::set<int> nodes(model.ground.nodes.begin(), model.ground.nodes.end());
  for (const auto& pair : model.pairs) nodes.insert(pair.slave.begin(), pair.slave.end());
  return nodes;
}

/// Nodes without freedom of their own in any body (those of a rigid part that is left out) are held too.
inline void hold_unused(Problem& p) {
  std::vector<char> used(p.model.X.size(), 0);
  for (const auto& block : p.model.solids)
    for (const auto& nodes : block.nodes)
      for (int node : nodes) used[static_cast<std::size_t>(node)] = 1;
  for (int node = 0; node < static_cast<int>(p.model.X.size()); ++node)
    if (used[static_cast<std::size_t>(node)] == 0)
      for (int c : {0, 1}) p.held.push_back({node, c, 0});
}

/// Supports of the model from what is held. The sideways unknown of a contact node on the axis is its tangential one.
inline void add_supports(Problem& p) {
  const std::set<int> touching = contact_nodes(p.model);
  std::set<int> done;
  for (const Held& h : p.held) {
    const bool contact = touching.count(h.node) != 0;
    if (contact && (h.component != 0 || h.value != 0)) throw std::invalid_argument("a contact node is held");
    const int dof = solver::plane_dof(h.node, contact ? 1 : h.component);
    if (done.insert(dof).second) p.model.supports.push_back({dof, h.value});
  }
}

/// u_x = 0 on the axis of an axisymmetric problem, but for nodes held already.
inline void hold_axis(Problem& p) {
  std::set<int> held;
  for (const Held& h : p.held)
    if (h.component == 0) held.insert(h.node);
  for (int node = 0; node < static_cast<int>(p.model.X.size()); ++node)
    if (p.model.X[static_cast<std::size_t>(node)].x() < 1e-9 && held.count(node) == 0) p.held.push_back({node, 0, 0});
}

/// Force on the body above, by node of the line, upwards [N].
[[nodiscard]] inline std::vector<double> pressing(const Problem& p, const solver::System& system,
                                                  const solver::State& state) {
  const Eigen::VectorXd f = system.region_forces(state, p.filling);
  std::vector<double> up(p.mesh.X.size(), 0.0);
  for (int node : mesh::nodes_of(p.line)) up[static_cast<std::size_t>(node)] = -f[solver::plane_dof(node, 1)];
  return up;
}

[[nodiscard]] inline Reading read(const Problem& p, const solver::System& system, const solver::State& state,
                                  const solver::Loading& loading) {
  const Eigen::VectorXd x = system.displacements(state);
  Reading r;
  r.load = p.load;
  if (p.sinking.empty()) {
    r.sink = -x[solver::plane_dof(p.sink_node, 1)];
  } else {
    const Eigen::VectorXd f = system.internal_forces(state, loading);
    for (int node : p.sinking) r.load -= f[solver::plane_dof(node, 1)];
    r.sink = -x[solver::plane_dof(p.sinking.front(), 1)];
  }
  const std::vector<double> up = pressing(p, system, state);
  std::vector<Vec2> flat = p.mesh.X;  // levelled and moved sideways: force over horizontal area
  double force = 0, area = 0;
  for (int node : mesh::nodes_of(p.line)) {
    force += up[static_cast<std::size_t>(node)];
    auto& X = flat[static_cast<std::size_t>(node)];
    X = {X.x() + (p.finite ? x[solver::plane_dof(node, 0)] : 0.0), 0};
  }
  const auto profile = solver::pressure_profile(flat, p.line, p.model.symmetry, up);
  for (double weight : profile.weight) area += std::abs(weight);
  r.share = 100 * force / r.load;
  r.mean = force / area;
  r.peak = -std::numeric_limits<double>::infinity();
  for (std::size_t k = 0; k < profile.node.size(); ++k) {
    const double at = p.mesh.X[static_cast<std::size_t>(profile.node[k])].x();
    if (at >= p.from && at <= p.to) r.peak = std::max(r.peak, profile.pressure[k]);
  }
  return r;
}

/// One equilibrium in one step from rest. Throws with the reason when there is none.
[[nodiscard]] inline Solution solve(Problem p) {
  constexpr double far = 50;  // the ground plane starts at y = 0 and is held there
  p.model.ground.joint = {0, far};
  solver::Loading hold;
  hold.hold_distance = far;
  hold.hold_offset = hold.hold_pitch = 0;
  const solver::System system(std::move(p.model));
  solver::State state = system.rest_state(far, 0);
  solver::Newton newton(system);
  const solver::SolveReport report = newton.solve(state, hold);
  if (report.outcome != solver::Outcome::converged)
    throw std::runtime_error(p.name + ": " + solver::describe(report.outcome));
  return {read(p, system, state, hold), {report.iterations, report.factorisations}};
}

}  // namespace hoofload::reference
