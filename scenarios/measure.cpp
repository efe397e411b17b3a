// How each quantity is read from a solved phase.
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "scenarios/direction_arms.hpp"
#include "scenarios/quantities.hpp"
#include "scenarios/tendon.hpp"
#include "solver/brick.hpp"
#include "solver/contact_pressure.hpp"
#include "solver/ground.hpp"
#include "solver/layer.hpp"

namespace hoofload::scenarios {

namespace {

using solver::Vec2;

constexpr double kPatch = 5;            ///< mm, Eq. (70)
constexpr double kTouchesAbove = 1e-3;  ///< MPa
constexpr double kDorsalHalfBreadth = 10;
constexpr double kLeastArm = 10;  ///< mm: moments are checked against at least the load at this arm

/// What several quantities share.
struct View {
  const BuiltModel& built;
  const Case& run;
  const PhaseSolution& phase;
  const solver::Model& model;
  Eigen::VectorXd x;  ///< displacements of all full dofs
  double d, s, theta;
  Vec2 n, t;
  double load;  ///< F_n

  View(const BuiltModel& b, const Case& c, const PhaseSolution& p)
      : built(b), run(c), phase(p), model(b.system->model()), x(b.system->displacements(p.state)) {
    const int g = solver::ground_dof(model, 0);
    d = p.state.q[g], s = p.state.q[g + 1], theta = p.state.q[g + 2];
    n = solver::ground_normal(theta), t = solver::ground_tangent(theta);
    load = p.loading.normal_force;
  }
};

double normal_reaction(const View& v, int contact) {
  return v.phase.reactions[v.built.system->contact_points()[static_cast<std::size_t>(contact)].normal];
}

/// Forces pressing on the nodes of a horn line [N], by plane node.
std::vector<double> line_forces(const View& v, const PressureLine& line) {
  std::vector<double> force(v.model.X.size(), 0.0);
  for (const auto& c : line.contacts) force[static_cast<std::size_t>(c.node)] += normal_reaction(v, c.contact);
  for (const auto& h : line.springs) {
    const auto& spring = v.model.springs[h.group].springs[h.spring];
    force[static_cast<std::size_t>(h.node)] -= solver::evaluate(spring, solver::elongation(spring, v.x), 1).force;
  }
  return force;
}

/// Tissue's force on the bone, per plane node, from the named regions: minus what the clamp needs.
Eigen::VectorXd force_on_bone(const View& v, const BoneFace& face) {
  Eigen::VectorXd f = Eigen::VectorXd::Zero(v.x.size());
  for (const auto& region : face.regions) f -= v.built.system->region_forces(v.phase.state, region);
  return f;
}

/// Sum over a bone face of the tissue's force along the ground normal.
double share_of(const View& v, const BoneFace& face) {
  const Eigen::VectorXd f = force_on_bone(v, face);
  double sum = 0;
  for (int node : mesh::nodes_of(face.edges)) sum += f.segment<2>(2 * node).dot(v.n);
  return sum;
}

struct LayerSums {
  double normal = 0;              ///< on the bone along the ground normal [N]
  double stress = 0, energy = 0;  ///< dorsal mean [MPa], dorsal sum [N mm]
};

/// Foundation of the capsule (sagittal).
LayerSums layer_sums(const View& v) {
  LayerSums sums;
  double area = 0;
  for (const auto& block : v.model.layers) {
    for (std::size_t e = 0; e < block.nodes.size(); ++e) {
      Eigen::Matrix<double, 3, 8> u;
      for (int a = 0; a < 8; ++a)
        u.col(a) = v.x.segment<3>(solver::space_dof(v.model, block.nodes[e][static_cast<std::size_t>(a)], 0));
      for (const auto& p : block.points[e]) {
        const solver::LayerResponse r = std::visit(
            [&](const auto& law) { return solver::layer_response(law, u * p.shape, p.normal, block.thickness); },
            block.material);
        sums.normal += p.weight * (r.traction.x() * v.n.x() + r.traction.y() * v.n.y());
        if (std::abs(p.place.z()) > kDorsalHalfBreadth || p.normal.x() < 0.5) continue;
        area += p.weight;
        sums.stress += p.weight * r.traction.norm();
        sums.energy += p.weight * r.energy;
      }
    }
  }
  if (area > 0) sums.stress /= area;
  return sums;
}

/// Meshed lamellae (axisymmetric): every meridian is alike, so the dorsal 20 mm are that part of the circle.
LayerSums ring_sums(const View& v) {
  LayerSums sums;
  double area = 0, force = 0, radius = 0;
  for (const auto& face : v.built.bone) {
    if (face.share != "lamellae") continue;
    const Eigen::VectorXd f = force_on_bone(v, face);
    for (int node : mesh::nodes_of(face.edges)) {
      sums.normal += f.segment<2>(2 * node).dot(v.n);
    }
    for (std::size_t i = 0; i < face.edges.edges.size(); ++i) {
      const auto w = solver::edge_weights(v.model.X, face.edges.edges[i], face.edges.breadth[i], v.model.symmetry);
      area += w[0] + w[1] + w[2];
      radius = std::max(radius, v.model.X[static_cast<std::size_t>(face.edges.edges[i].a)].x());
    }
    Vec2 total = Vec2::Zero();
    for (int node : mesh::nodes_of(face.edges)) total += Vec2{0, f[2 * node + 1]};
    force = total.norm();
  }
  sums.stress = area > 0 ? force / area : 0;
  for (const auto& block : v.model.solids)
    if (block.region == "lamella")
      for (int e = 0; e < static_cast<int>(block.nodes.size()); ++e) {
        Eigen::Matrix<double, 12, 1> u;
        for (int a = 0; a < 6; ++a)
          u.segment<2>(2 * a) =
              v.x.segment<2>(2 * block.nodes[static_cast<std::size_t>(e)][static_cast<std::size_t>(a)]);
        sums.energy += solver::solid_energy(block, e, u, nullptr);
      }
  if (radius > 0) sums.energy *= 2 * kDorsalHalfBreadth / (2 * std::numbers::pi * radius);
  return sums;
}

/// Arc length of the profile's point nearest to the given x.
double arc_at(const solver::PressureProfile& profile, const std::vector<Vec2>& X, double x) {
  double best = 0, distance = 1e30;
  for (std::size_t k = 0; k < profile.node.size(); ++k) {
    const double here = std::abs(X[static_cast<std::size_t>(profile.node[k])].x() - x);
    if (here < distance) distance = here, best = profile.s[k];
  }
  return best;
}

void sole_quantities(const View& v, Quantities& q) {
  const auto profile =
      solver::pressure_profile(v.model.X, v.built.sole.edges, v.model.symmetry, line_forces(v, v.built.sole));
  double area = 0;
  for (double w : profile.weight) area += w;
  const double mean = area > 0 ? 1000 * solver::resultant(profile) / area : 0;
  if (v.phase.phase == Phase::swing) {
    q["swing_sole_pressure"] = mean;
  }
  q["sole_pressure_peak"] = 1000 * solver::peak_patch_mean(profile, kPatch).mean;
  q["sole_pressure_tip"] = 1000 * solver::patch_mean(profile, arc_at(profile, v.model.X, v.built.tip_x), kPatch);
  q["sole_pressure_mean"] = mean;
  q["sole_contact_area"] = solver::loaded_area(profile, kTouchesAbove) / 100;
}

void corium_quantities(const View& v, Quantities& q) {
  for (const auto& face : v.built.bone) {
    if (face.share != "sole") continue;
    const Eigen::VectorXd f = force_on_bone(v, face);
    std::vector<double> pressing(v.model.X.size(), 0.0);
    double sum = 0;
    // Pressure is the component along the bone's surface normal; the footprint is near level, so n serves.
    for (int node : mesh::nodes_of(face.edges)) {
      pressing[static_cast<std::size_t>(node)] = f.segment<2>(2 * node).dot(v.n);
      sum += pressing[static_cast<std::size_t>(node)];
    }
    const auto profile = solver::pressure_profile(v.model.X, face.edges, v.model.symmetry, pressing);
    double area = 0;
    for (double w : profile.weight) area += w;
    q["corium_pressure_peak"] = 1000 * solver::peak_patch_mean(profile, kPatch).mean;
    q["corium_pressure_tip"] = 1000 * solver::patch_mean(profile, arc_at(profile, v.model.X, v.built.tip_x), kPatch);
    q["corium_pressure_mean"] = area > 0 ? 1000 * sum / area : 0;
  }
}

void ledgers(const View& v, const LayerSums& layer, Quantities& q) {
  for (const auto& face : v.built.bone)
    if (face.share != "lamellae") q["bone_share_" + face.share] = 100 * share_of(v, face) / v.load;
  q["bone_share_lamellae"] = 100 * layer.normal / v.load;
  for (const auto& part : v.built.ground) {
    double sum = 0;
    for (int k : part.contacts) sum += normal_reaction(v, k);
    q["ground_share_" + part.name] += 100 * sum / v.load;
  }
  Quantities forces;
  for (const char* ledger : {"bone_", "ground_"})
    for (const auto& [key, percent] : q)
      if (const std::string share = std::string(ledger) + "share_"; key.starts_with(share))
        forces[std::string(ledger) + "force_" + key.substr(share.size())] = percent / 100 * v.load;
  q.merge(forces);
}

double centre_of_pressure(const View& v) {
  double force = 0, moment = 0;
  const auto& points = v.built.system->contact_points();
  for (std::size_t k = static_cast<std::size_t>(v.built.system->first_ground_contact()); k < points.size(); ++k) {
    const double f = v.phase.reactions[points[k].normal];
    force += f;
    moment += f * (v.phase.state.q[points[k].tangent] - v.s);
  }
  return moment / force;
}

/// Distance of the joint from the level at which the ground's force acts, Eq. (100).
double force_distance(const View& v) {
  return v.d + solver::mean_depth(*v.built.system, v.phase.state, v.phase.reactions);
}

/// Extending moment of the ground force about a joint at P: force at the centre of pressure on the ground.
double ground_moment(const View& v, const Vec2& joint, double cop) {
  const Vec2 at = v.model.ground.joint - force_distance(v) * v.n + cop * v.t;
  const Vec2 force = v.load * v.n + v.phase.loading.tangential_force * v.t;
  const Vec2 r = at - joint;
  return r.x() * force.y() - r.y() * force.x();
}

void joint_quantities(const View& v, Quantities& q) {
  const double cop = centre_of_pressure(v);
  const double extension = v.phase.loading.cable ? v.phase.loading.cable->extension : 0;
  const LimbChain chain = limb_chain(v.run.foot, v.theta, extension, posture_of(v.run).pastern_flexion);
  q["cop"] = cop;
  q["coffin_moment"] = ground_moment(v, v.model.ground.joint, cop) / 1000;
  q["pip_moment"] = ground_moment(v, chain.pastern, cop) / 1000;
  q["mcp_moment"] = ground_moment(v, chain.fetlock, cop) / 1000;
  q["ddft_moment"] = v.phase.moment / 1000;
  q["ddft_moment_per_mass"] = v.phase.moment / 1000 / v.run.horse.mass;
  q["ddft_force"] = v.phase.cable_tension;
  if (v.phase.loading.cable) {
    const auto path = solver::cable_path(*v.phase.loading.cable, v.theta);
    q["navicular_force"] = solver::pulley_force(path, v.phase.cable_tension).norm();
    q["navicular_force_per_mass"] = q["navicular_force"] / v.run.horse.mass;
  }
  if (v.phase.phase != Phase::breakover) return;
  q["breakover_moment"] = q["ddft_moment"];
  q["breakover_arm"] = v.phase.moment / std::hypot(v.load, v.phase.loading.tangential_force);
  const Vec2 pivot = v.model.ground.joint - force_distance(v) * v.n + cop * v.t;
  q["pivot"] = -pivot.x();
  if (v.phase.rolled_moment == 0) return;
  q["rollover_moment"] = v.phase.rolled_moment / 1000;
  q["rollover_arm"] = v.phase.rolled_moment / std::hypot(v.load, v.phase.loading.tangential_force);
  q["rollover_pivot"] = -v.phase.rolled_pivot.x();
  q["breakover_arm_45"] = arm_towards(v.built, v.phase, 45 * mesh::degree);
  q["breakover_arm_90"] = arm_towards(v.built, v.phase, 90 * mesh::degree);
}

double gauge_strain(const View& v, const mesh::GaugePoint& gauge) {
  const auto& hex = v.built.capsule->shell.mesh.hex[static_cast<std::size_t>(gauge.brick)];
  solver::BrickNodes X, u;
  for (int a = 0; a < 20; ++a) {
    const int node = hex[static_cast<std::size_t>(a)];
    X.col(a) = v.model.X_space[static_cast<std::size_t>(node)];
    u.col(a) = v.x.segment<3>(solver::space_dof(v.model, node, 0));
  }
  return 1e6 * solver::strain_along(solver::brick_strain(X, u, gauge.xi), gauge.direction);
}

void capsule_quantities(const View& v, Quantities& q) {
  const CapsuleReadings& r = *v.built.capsule;
  q["wall_strain_dorsal"] = gauge_strain(v, r.dorsal);
  q["wall_strain_quarter"] = gauge_strain(v, r.quarter);
  q["heel_spread"] = 2 * v.x[solver::space_dof(v.model, r.heel_node, 2)];
}

void nail_quantities(const View& v, Quantities& q) {
  double most = 0;
  // A station of the sagittal model is one nail left and one right; the ring of the axisymmetric model is all of them.
  const double nails = v.built.kind == ModelKind::sagittal ? 2 : v.run.shoeing.nails.count;
  for (const auto& nail : v.built.nails) {
    double square = 0;
    for (int k : nail.springs) {
      const auto& spring = v.model.springs[nail.group].springs[static_cast<std::size_t>(k)];
      const double f = solver::evaluate(spring, solver::elongation(spring, v.x), v.phase.loading.ramp).force;
      square += f * f;
    }
    most = std::max(most, std::sqrt(square) / nails);
  }
  if (!v.built.nails.empty()) q["nail_force_max"] = most;
}

}  // namespace

Quantities measure(const BuiltModel& built, const Case& run, const PhaseSolution& phase) {
  const View v(built, run, phase);
  Quantities q;
  sole_quantities(v, q);
  corium_quantities(v, q);
  nail_quantities(v, q);
  const LayerSums layer = built.kind == ModelKind::sagittal ? layer_sums(v) : ring_sums(v);
  q["lamella_stress_dorsal"] = 1000 * layer.stress;
  q["lamella_energy_dorsal"] = layer.energy;
  if (built.capsule) capsule_quantities(v, q);
  if (v.load <= 0) return q;
  ledgers(v, layer, q);
  q["bone_sink"] = phase.touching - v.d;
  if (built.kind == ModelKind::axisymmetric) return q;
  q["bone_rotation"] = (v.theta - built.rest_pitch) / mesh::degree;
  q["palmar_angle_loaded"] = (run.foot.palmar_angle + v.theta) / mesh::degree;
  joint_quantities(v, q);
  for (const auto& zone : built.zones) {
    double sum = 0;
    for (int k : zone.contacts) sum += normal_reaction(v, k);
    if (zone.area > 0) q["ground_pressure_" + zone.name] = 1000 * sum / zone.area;
  }
  return q;
}

std::vector<PressureSample> sole_pressure_profile(const BuiltModel& built, const PhaseSolution& phase) {
  const Case none;
  const View v(built, none, phase);
  const auto profile =
      solver::pressure_profile(v.model.X, built.sole.edges, v.model.symmetry, line_forces(v, built.sole));
  std::vector<PressureSample> samples;
  for (std::size_t k = 0; k < profile.node.size(); ++k)
    samples.push_back({v.model.X[static_cast<std::size_t>(profile.node[k])], 1000 * profile.pressure[k]});
  return samples;
}

BalanceCheck check_balance(const BuiltModel& built, const PhaseSolution& phase) {
  const Case none;
  const View v(built, none, phase);
  BalanceCheck check;
  if (v.load <= 0) return check;
  double ground = 0;
  for (const auto& part : built.ground)
    for (int k : part.contacts) ground += normal_reaction(v, k);
  check.ground_ledger = std::abs(ground / v.load - 1);
  double tangential = 0;
  for (std::size_t k = static_cast<std::size_t>(built.system->first_ground_contact()); k < phase.state.contact.size();
       ++k)
    tangential += phase.state.contact[k].traction;
  if (!v.model.ground.mobilised) tangential = phase.loading.tangential_force;  // there the ground's row holds it
  check.force = std::max(check.ground_ledger, std::abs(tangential - phase.loading.tangential_force) / v.load);
  const LayerSums layer = built.kind == ModelKind::sagittal ? layer_sums(v) : ring_sums(v);
  double bone = layer.normal;
  for (const auto& face : built.bone)
    if (face.share != "lamellae") bone += share_of(v, face);
  check.bone_ledger = std::abs(bone / v.load - 1);
  if (built.kind == ModelKind::sagittal && phase.moment != 0)
    check.moment = std::abs(ground_moment(v, v.model.ground.joint, centre_of_pressure(v)) - phase.moment) /
                   std::max(std::abs(phase.moment), kLeastArm * v.load);
  return check;
}

}  // namespace hoofload::scenarios
