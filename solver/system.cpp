#include "solver/system.hpp"

#include <Eigen/Dense>
#include <cmath>
#include <limits>

#include "solver/ground.hpp"
#include "solver/layer.hpp"

namespace hoofload::solver {

namespace {

LayerResponse layer_response_of(const LayerBlock& block, const Eigen::Vector3d& u, const Eigen::Vector3d& N) {
  return std::visit([&](const auto& law) { return layer_response(law, u, N, block.thickness); }, block.material);
}

double layer_energy_of(const LayerBlock& block, const Eigen::Vector3d& u, const Eigen::Vector3d& N) {
  return std::visit([&](const auto& law) { return layer_energy(law, u, N, block.thickness); }, block.material);
}

LawValue spring_value(const Spring& spring, double q, double ramp, double bound) {
  if (std::holds_alternative<StickSlip>(spring.law))
    return value(StickSlip{std::get<StickSlip>(spring.law).k, bound}, q);
  return evaluate(spring, q, ramp);
}

}  // namespace

State System::rest_state(double d, double theta) const {
  State state;
  state.q = Eigen::VectorXd::Zero(dof_count(model_));
  state.mixed.assign(static_cast<std::size_t>(mixed_count_), {});
  state.contact.assign(contacts_.size(), {});
  for (const auto& group : model_.springs) state.spring_bounds.emplace_back(group.springs.size(), 0.0);
  for (const auto& support : model_.supports)
    if (row_of_dof_[static_cast<std::size_t>(support.dof)] < 0) state.q[support.dof] = 0;
  const int g0 = ground_dof(model_, 0);
  state.q[g0] = d;
  state.q[g0 + 2] = theta;
  for (int node : model_.ground.nodes) {
    const Vec2 r = model_.X[static_cast<std::size_t>(node)] - model_.ground.joint;
    state.q[plane_dof(node, 0)] = d + r.dot(ground_normal(theta));
    state.q[plane_dof(node, 1)] = r.dot(ground_tangent(theta));
  }
  for (std::size_t k = 0; k < contacts_.size(); ++k) state.contact[k].closed = contacts_[k].tied;
  return state;
}

void System::set_dormant(State& state, std::size_t pair) const {
  for (int k = pair_ranges_[pair].first; k < pair_ranges_[pair].second; ++k) {
    state.contact[static_cast<std::size_t>(k)] = ContactStatus{};
    state.contact[static_cast<std::size_t>(k)].dormant = true;
  }
}

void System::wake(State& state, std::size_t pair) const {
  for (int k = pair_ranges_[pair].first; k < pair_ranges_[pair].second; ++k) {
    ContactStatus& c = state.contact[static_cast<std::size_t>(k)];
    const ContactPoint& p = contacts_[static_cast<std::size_t>(k)];
    if (!c.dormant) continue;
    c.dormant = false;
    c.closed = p.tied;
    if (p.gap > 0) continue;
    c.offset_normal = state.q[p.normal];
    c.offset_tangent = state.q[p.tangent];
  }
}

Eigen::VectorXd System::displacements(const State& state) const {
  Eigen::VectorXd x = state.q;
  const int g0 = ground_dof(model_, 0);
  for (int node : model_.ground.nodes) {
    const int i = plane_dof(node, 0);
    x.segment<2>(i) =
        ground_place(model_.ground.joint, state.q[i], state.q[i + 1], state.q[g0], state.q[g0 + 1], state.q[g0 + 2]) -
        model_.X[static_cast<std::size_t>(node)];
  }
  for (const auto& pair : model_.pairs) {
    for (std::size_t k = 0; k < pair.slave.size(); ++k) {
      const int i = plane_dof(pair.slave[k], 0);
      const Vec2 n = pair.normal[k], t{n.y(), -n.x()};
      x.segment<2>(i) = x.segment<2>(plane_dof(pair.master[k], 0)) + n * state.q[i] + t * state.q[i + 1];
    }
  }
  return x;
}

void System::place_ground(State& state, double d, double s, double theta) const {
  const Eigen::VectorXd x = displacements(state);
  const int g0 = ground_dof(model_, 0);
  state.q[g0] = d;
  state.q[g0 + 1] = s;
  state.q[g0 + 2] = theta;
  for (std::size_t k = 0; k < model_.ground.nodes.size(); ++k) {
    const int node = model_.ground.nodes[k];
    const int i = plane_dof(node, 0);
    const Vec2 r = model_.X[static_cast<std::size_t>(node)] + x.segment<2>(i) - model_.ground.joint;
    state.q[i] = d + r.dot(ground_normal(theta));
    state.q[i + 1] = s + r.dot(ground_tangent(theta));
    state.contact[static_cast<std::size_t>(first_ground_contact_) + k] = ContactStatus{};
  }
}

double System::touching_distance(const State& state, double theta) const {
  const Eigen::VectorXd x = displacements(state);
  double d = -std::numeric_limits<double>::infinity();
  for (int node : model_.ground.nodes) {
    const Vec2 r = model_.X[static_cast<std::size_t>(node)] + x.segment<2>(plane_dof(node, 0)) - model_.ground.joint;
    d = std::max(d, -r.dot(ground_normal(theta)));
  }
  return d;
}

double System::bound_energy(const State& state, const Eigen::VectorXd& x, double ramp) const {
  double energy = 0;
  for (std::size_t b = 0; b < model_.layers.size(); ++b) {
    const LayerBlock& block = model_.layers[b];
    for (std::size_t e = 0; e < block.nodes.size(); ++e) {
      Eigen::Matrix<double, 3, 8> u;
      for (int a = 0; a < 8; ++a)
        u.col(a) = x.segment<3>(space_dof(model_, block.nodes[e][static_cast<std::size_t>(a)], 0));
      for (const auto& p : block.points[e]) energy += p.weight * layer_energy_of(block, u * p.shape, p.normal);
    }
  }
  for (std::size_t g = 0; g < model_.springs.size(); ++g)
    for (std::size_t k = 0; k < model_.springs[g].springs.size(); ++k) {
      const Spring& spring = model_.springs[g].springs[k];
      energy += spring_value(spring, elongation(spring, x), ramp, state.spring_bounds[g][k]).energy;
    }
  energy += 0.5 * x.dot(constant_full_.selfadjointView<Eigen::Lower>() * x);
  return energy;
}

double System::energy(const State& state, const Loading& loading) const {
  const Eigen::VectorXd x = displacements(state);
  double energy = bound_energy(state, x, loading.ramp);
  for (const auto& block : model_.solids) {
    for (int e = 0; e < static_cast<int>(block.nodes.size()); ++e) {
      const MixedState* mixed = block.formulation == Formulation::mixed
                                    ? &state.mixed[static_cast<std::size_t>(block.first_state + e)]
                                    : nullptr;
      energy += solid_energy(block, e, element_displacements(block, e, x), mixed);
      if (!std::isfinite(energy)) return std::numeric_limits<double>::infinity();
    }
  }
  return energy + add_loads(state, loading, nullptr, nullptr);
}

double System::add_loads(const State& state, const Loading& loading, Eigen::VectorXd* g, double* values) const {
  const int g0 = ground_dof(model_, 0);
  double energy = loading.normal_force * state.q[g0] + loading.tangential_force * state.q[g0 + 1];
  if (g != nullptr) {
    (*g)[g0] += loading.normal_force;
    (*g)[g0 + 1] += loading.tangential_force;
  }
  if (loading.cable) {
    const CableValue cable = evaluate(*loading.cable, state.q[g0 + 2]);
    energy += cable.energy;
    if (g != nullptr) (*g)[g0 + 2] += cable.moment;
    if (values != nullptr) values[theta_place_] += cable.stiffness;
  }
  if (model_.dead_loads.empty()) return energy;
  const Eigen::VectorXd x = displacements(state);
  for (const auto& load : model_.dead_loads) energy -= load.force * x[load.dof];
  return energy;
}

/// work(dof's position, unknown's position, coefficient) for every entry of the rows T of an element's dofs.
template <class Work>
void System::for_each_entry(const ScatterMap& map, int e, const std::vector<double>& c, const Work& work) const {
  const auto at = static_cast<std::size_t>(e);
  const int* dofs = map.dofs.data() + map.first_dof[at];
  const int n = map.first_dof[at + 1] - map.first_dof[at];
  const int* position = map.positions.data() + map.first_position[at];
  for (int a = 0; a < n; ++a) {
    const int r = row_of(dofs[a]);
    if (r < 0) {
      work(a, *position++, 1.0);
      continue;
    }
    const auto row = static_cast<std::size_t>(r);
    for (int p = rows_.first[row]; p < rows_.first[row + 1]; ++p)
      work(a, *position++, c[static_cast<std::size_t>(p)]);
  }
}

void System::scatter(const ScatterMap& map, int e, const double* f, const double* K, int stride,
                     ScatterTarget& to) const {
  const auto at = static_cast<std::size_t>(e);
  const int* dofs = map.dofs.data() + map.first_dof[at];
  const int n = map.first_dof[at + 1] - map.first_dof[at];
  for (int a = 0; a < n; ++a) to.r_full[dofs[a]] += f[a];
  if (to.values == nullptr) return;
  if (map.plain[at] == 0) return scatter_by_rows(map, e, K, stride, to);
  const int* places = map.places.data() + map.first_place[at];
  for (int b = 0; b < n; ++b)
    for (int a = b; a < n; ++a) to.values[*places++] += K[b * stride + a];
}

/// k (T^T c) (T^T c)^T of a spring that measures q = c . u.
void System::scatter_spring(const ScatterMap& map, int e, const Spring& spring, double stiffness,
                            ScatterTarget& to) const {
  const auto at = static_cast<std::size_t>(e);
  const auto m = static_cast<std::size_t>(map.first_unknown[at + 1] - map.first_unknown[at]);
  to.work.assign(m, 0.0);
  if (map.plain[at] != 0)
    for (std::size_t a = 0; a < m; ++a) to.work[a] = spring.measure[a].c;
  else
    for_each_entry(map, e, to.c, [&](int a, int i, double c) {
      to.work[static_cast<std::size_t>(i)] += c * spring.measure[static_cast<std::size_t>(a)].c;
    });
  const int* places = map.places.data() + map.first_place[at];
  for (std::size_t b = 0; b < m; ++b)
    for (std::size_t a = b; a < m; ++a) to.values[*places++] += stiffness * to.work[a] * to.work[b];
}

/// T^T K T (K by its lower triangle) of an element whose dofs are rows T of unknowns. T has few entries a row: only they are multiplied.
void System::scatter_by_rows(const ScatterMap& map, int e, const double* K, int stride, ScatterTarget& to) const {
  const auto at = static_cast<std::size_t>(e);
  const int n = map.first_dof[at + 1] - map.first_dof[at];
  const int m = map.first_unknown[at + 1] - map.first_unknown[at];
  to.work.assign(static_cast<std::size_t>((n + m) * m), 0.0);
  double* KT = to.work.data();  // both row by row
  double* Kq = KT + n * m;
  for_each_entry(map, e, to.c, [&](int b, int j, double c) {
    for (int a = 0; a < b; ++a) KT[a * m + j] += c * K[a * stride + b];
    for (int a = b; a < n; ++a) KT[a * m + j] += c * K[b * stride + a];
  });
  for_each_entry(map, e, to.c, [&](int a, int i, double c) {
    for (int j = 0; j <= i; ++j) Kq[i * m + j] += c * KT[a * m + j];
  });
  const int* places = map.places.data() + map.first_place[at];
  for (int b = 0; b < m; ++b)
    for (int a = b; a < m; ++a) to.values[*places++] += Kq[a * m + b];
}

void System::pull_back(const Eigen::VectorXd& r_full, const std::vector<double>& c, Eigen::VectorXd& g) const {
  g = r_full;
  for (std::size_t dof = 0; dof < row_of_dof_.size(); ++dof)
    if (row_of_dof_[dof] >= 0) g[static_cast<Eigen::Index>(dof)] = 0;
  for (std::size_t dof = 0; dof < row_of_dof_.size(); ++dof) {
    if (row_of_dof_[dof] < 0) continue;
    const auto row = static_cast<std::size_t>(row_of_dof_[dof]);
    for (auto k = static_cast<std::size_t>(rows_.first[row]); k < static_cast<std::size_t>(rows_.first[row + 1]); ++k)
      g[rows_.unknown[k]] += c[k] * r_full[static_cast<Eigen::Index>(dof)];
  }
}

void System::full_increment(const Eigen::VectorXd& dq, const std::vector<double>& c, Eigen::VectorXd& dx) const {
  dx = dq;
  for (std::size_t dof = 0; dof < row_of_dof_.size(); ++dof) {
    if (row_of_dof_[dof] < 0) continue;
    const auto row = static_cast<std::size_t>(row_of_dof_[dof]);
    double sum = 0;
    for (auto k = static_cast<std::size_t>(rows_.first[row]); k < static_cast<std::size_t>(rows_.first[row + 1]); ++k)
      sum += c[k] * dq[rows_.unknown[k]];
    dx[static_cast<Eigen::Index>(dof)] = sum;
  }
}

void System::add_ground_curvature(const State& state, const Eigen::VectorXd& r_full, double* values) const {
  // A ground node carries its own residual and, through the pairs, that of its slaves.
  std::vector<Vec2> r(model_.ground.nodes.size());
  for (std::size_t k = 0; k < r.size(); ++k) r[k] = r_full.segment<2>(plane_dof(model_.ground.nodes[k], 0));
  for (std::size_t i = 0; i < master_of_.size(); ++i) {
    if (master_of_[i] < 0) continue;
    const int g = ground_index_[static_cast<std::size_t>(master_of_[i])];
    if (g >= 0) r[static_cast<std::size_t>(g)] += r_full.segment<2>(plane_dof(static_cast<int>(i), 0));
  }
  const int g0 = ground_dof(model_, 0);
  const int* place = ground_places_.data();
  for (std::size_t k = 0; k < r.size(); ++k) {
    const int i = plane_dof(model_.ground.nodes[k], 0);
    const auto H = ground_curvature(r[k], state.q[i], state.q[i + 1], state.q[g0], state.q[g0 + 1], state.q[g0 + 2]);
    for (int b = 0; b < 5; ++b)
      for (int a = b; a < 5; ++a) values[*place++] += H(a, b);
  }
}

void System::assemble(const State& state, const Loading& loading, Assembly& out,
                      std::vector<MixedRecovery>& recovery) const {
  const Eigen::VectorXd x = displacements(state);
  const std::vector<double> c = row_coefficients(state);
  recovery.resize(static_cast<std::size_t>(mixed_count_));
  if (constant_values_.empty())
    out.hessian.assign(static_cast<std::size_t>(pattern_.entries()), 0.0);
  else
    out.hessian = constant_values_;
  double* values = out.hessian.data();
  Eigen::VectorXd r = constant_full_.selfadjointView<Eigen::Lower>() * x;
  out.energy = 0.5 * x.dot(r);
  ScatterTarget to{c, r, values, {}};
  for (std::size_t b = 0; b < model_.solids.size(); ++b) {
    const SolidBlock& block = model_.solids[b];
    const auto first = static_cast<std::size_t>(block.first_state);
    sweep_solid(block, {state.mixed.data() + first, recovery.data() + first}, x, [&](int e, SolidResult& result) {
      out.energy += result.energy;
      scatter(solid_maps_[b], e, result.f.data(), result.K.data(), 12, to);
    });
  }
  for (std::size_t b = 0; b < model_.layers.size(); ++b) {
    const LayerBlock& block = model_.layers[b];
    for (std::size_t e = 0; e < block.nodes.size(); ++e) {
      Eigen::Matrix<double, 3, 8> u;
      for (int a = 0; a < 8; ++a)
        u.col(a) = x.segment<3>(space_dof(model_, block.nodes[e][static_cast<std::size_t>(a)], 0));
      Eigen::Matrix<double, 24, 1> f = Eigen::Matrix<double, 24, 1>::Zero();
      Eigen::Matrix<double, 24, 24> K = Eigen::Matrix<double, 24, 24>::Zero();
      for (const auto& p : block.points[e]) {
        const LayerResponse layer = layer_response_of(block, u * p.shape, p.normal);
        out.energy += p.weight * layer.energy;
        for (int b1 = 0; b1 < 8; ++b1) {
          f.segment<3>(3 * b1) += p.weight * p.shape[b1] * layer.traction;
          for (int a1 = 0; a1 < 8; ++a1)
            K.block<3, 3>(3 * a1, 3 * b1) += (p.weight * p.shape[a1] * p.shape[b1]) * layer.stiffness;
        }
      }
      scatter(layer_maps_[b], static_cast<int>(e), f.data(), K.data(), 24, to);
    }
  }
  for (std::size_t g = 0; g < model_.springs.size(); ++g) {
    for (std::size_t k = 0; k < model_.springs[g].springs.size(); ++k) {
      const Spring& spring = model_.springs[g].springs[k];
      const LawValue v = spring_value(spring, elongation(spring, x), loading.ramp, state.spring_bounds[g][k]);
      out.energy += v.energy;
      for (const auto& [dof, coefficient] : spring.measure) r[dof] += v.force * coefficient;
      if (v.stiffness != 0) scatter_spring(spring_maps_[g], static_cast<int>(k), spring, v.stiffness, to);
    }
  }
  for (const auto& load : model_.dead_loads) r[load.dof] -= load.force;
  add_ground_curvature(state, r, values);
  pull_back(r, c, out.gradient);
  out.energy += add_loads(state, loading, &out.gradient, values);
}

State System::advance(const State& state, const Eigen::VectorXd& dq, double alpha,
                      const std::vector<MixedRecovery>& recovery) const {
  State next = state;
  next.q += alpha * dq;
  if (mixed_count_ == 0) return next;
  Eigen::VectorXd dx;
  full_increment(dq, row_coefficients(state), dx);
  for (const auto& block : model_.solids) {
    if (block.formulation != Formulation::mixed) continue;
    for (int e = 0; e < static_cast<int>(block.nodes.size()); ++e) {
      const auto at = static_cast<std::size_t>(block.first_state + e);
      const MixedRecovery& rec = recovery[at];
      const Eigen::Matrix<double, 12, 1> du = element_displacements(block, e, dx);
      const Eigen::Vector2d db = -rec.Kbb_inverse * (rec.fb + rec.Kbu * du);
      MixedState& m = next.mixed[at];
      m.bubble += alpha * db;
      const Eigen::Vector3d p = rec.p_at_state + rec.dp.leftCols<12>() * du + rec.dp.rightCols<2>() * db;
      m.pressure = (1 - alpha) * m.pressure + alpha * p;
    }
  }
  return next;
}

void System::add_solid_forces(const SolidBlock& block, const State& state, const Eigen::VectorXd& x,
                              Eigen::VectorXd& r) const {
  std::vector<MixedRecovery> recovery(block.formulation == Formulation::mixed ? block.nodes.size() : 0);
  sweep_solid(block, {state.mixed.data() + block.first_state, recovery.data()}, x, [&](int e, SolidResult& result) {
    const auto& nodes = block.nodes[static_cast<std::size_t>(e)];
    for (int a = 0; a < 6; ++a) r.segment<2>(2 * nodes[static_cast<std::size_t>(a)]) += result.f.segment<2>(2 * a);
  });
}

Eigen::VectorXd System::region_forces(const State& state, std::string_view region) const {
  const Eigen::VectorXd x = displacements(state);
  Eigen::VectorXd r = Eigen::VectorXd::Zero(x.size());
  for (const auto& block : model_.solids)
    if (block.region == region) add_solid_forces(block, state, x, r);
  return r;
}

Eigen::VectorXd System::internal_forces(const State& state, const Loading& loading) const {
  const Eigen::VectorXd x = displacements(state);
  Eigen::VectorXd r = constant_full_.selfadjointView<Eigen::Lower>() * x;
  for (const auto& block : model_.solids) add_solid_forces(block, state, x, r);
  for (const auto& block : model_.layers)
    for (std::size_t e = 0; e < block.nodes.size(); ++e) {
      Eigen::Matrix<double, 3, 8> u;
      for (int a = 0; a < 8; ++a)
        u.col(a) = x.segment<3>(space_dof(model_, block.nodes[e][static_cast<std::size_t>(a)], 0));
      for (const auto& p : block.points[e]) {
        const Eigen::Vector3d t = layer_response_of(block, u * p.shape, p.normal).traction;
        for (int a = 0; a < 8; ++a)
          r.segment<3>(space_dof(model_, block.nodes[e][static_cast<std::size_t>(a)], 0)) += p.weight * p.shape[a] * t;
      }
    }
  for (std::size_t g = 0; g < model_.springs.size(); ++g)
    for (std::size_t k = 0; k < model_.springs[g].springs.size(); ++k) {
      const Spring& spring = model_.springs[g].springs[k];
      const LawValue v = spring_value(spring, elongation(spring, x), loading.ramp, state.spring_bounds[g][k]);
      for (const auto& [dof, c] : spring.measure) r[dof] += c * v.force;
    }
  return r;
}

std::vector<std::vector<double>> System::spring_bounds(const State& state) const {
  const Eigen::VectorXd x = displacements(state);
  std::vector<std::vector<double>> bounds = state.spring_bounds;
  for (std::size_t g = 0; g < model_.springs.size(); ++g)
    for (std::size_t k = 0; k < model_.springs[g].springs.size(); ++k) {
      const Spring& spring = model_.springs[g].springs[k];
      if (spring.normal_partner < 0) continue;
      const Spring& normal = model_.springs[g].springs[static_cast<std::size_t>(spring.normal_partner)];
      bounds[g][k] = spring.friction * std::abs(evaluate(normal, elongation(normal, x), 1).force);
    }
  return bounds;
}

}  // namespace hoofload::solver
