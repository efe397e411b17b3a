#include "scenarios/fields.hpp"

#include "scenarios/quantities.hpp"
#include "solver/fields.hpp"
#include "viz/vtu.hpp"

namespace hoofload::scenarios {

namespace {

viz::VtuArray sole_pressure_array(const BuiltModel& built, const PhaseSolution& phase) {
  viz::VtuArray array{"sole_pressure_kPa", 1, std::vector<double>(built.mesh.X.size(), 0.0)};
  if (phase.reactions.size() == 0) return array;
  const auto profile = sole_pressure_profile(built, phase);
  const auto nodes = sole_nodes(built);
  for (std::size_t k = 0; k < nodes.size() && k < profile.size(); ++k)
    array.values[static_cast<std::size_t>(nodes[k])] = profile[k].kPa;
  return array;
}

/// The model's blocks stand in the order of the mesh's; a rigid bone is meshed for pictures alone and has no stress.
std::vector<viz::VtuArray> stress_arrays(const BuiltModel& built, const PhaseSolution& phase) {
  viz::VtuArray stress{"stress_xx_yy_zz_xy_MPa", 4, {}}, pressure{"pressure_MPa", 1, {}}, mises{"von_mises_MPa", 1, {}};
  const auto& solids = built.system->model().solids;
  auto solid = solids.begin();
  for (const auto& block : built.mesh.blocks) {
    const bool is_solid =
        solid != solids.end() && solid->region == block.region && solid->nodes.size() == block.tri.size();
    const auto means = is_solid ? solver::element_stresses(*built.system, phase.state, *solid++)
                                : std::vector<solver::Mat3>(block.tri.size(), solver::Mat3::Zero());
    for (const solver::Mat3& s : means) {
      stress.values.insert(stress.values.end(), {s(0, 0), s(1, 1), s(2, 2), s(0, 1)});
      pressure.values.push_back(solver::pressure_of(s));
      mises.values.push_back(solver::von_mises(s));
    }
  }
  return {stress, pressure, mises};
}

}  // namespace

std::vector<mesh::Vec2> plane_displacements(const BuiltModel& built, const PhaseSolution& phase) {
  const Eigen::VectorXd x = built.system->displacements(phase.state);
  std::vector<mesh::Vec2> u;
  for (std::size_t i = 0; i < built.mesh.X.size(); ++i) u.emplace_back(x.segment<2>(2 * static_cast<Eigen::Index>(i)));
  return u;
}

std::vector<mesh::Vec3> capsule_displacements(const BuiltModel& built, const PhaseSolution& phase) {
  const Eigen::VectorXd x = built.system->displacements(phase.state);
  const auto& model = built.system->model();
  std::vector<mesh::Vec3> u;
  for (std::size_t i = 0; i < model.X_space.size(); ++i)
    u.emplace_back(x.segment<3>(solver::space_dof(model, static_cast<int>(i), 0)));
  return u;
}

std::string plane_vtu(const BuiltModel& built, const PhaseSolution& phase) {
  const viz::VtuFields fields{
      {viz::displacement_array(plane_displacements(built, phase)), sole_pressure_array(built, phase)},
      stress_arrays(built, phase)};
  return viz::vtu(built.mesh, fields);
}

std::string capsule_vtu(const BuiltModel& built, const PhaseSolution& phase) {
  return viz::vtu(built.capsule->shell.mesh, {{viz::displacement_array(capsule_displacements(built, phase))}, {}});
}

std::vector<int> sole_nodes(const BuiltModel& built) {
  std::vector<int> nodes;
  for (const auto& edge : built.sole.edges.edges) {
    if (nodes.empty()) nodes.push_back(edge.a);
    nodes.push_back(edge.b);
  }
  return nodes;
}

}  // namespace hoofload::scenarios
