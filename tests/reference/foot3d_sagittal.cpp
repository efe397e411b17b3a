#include "tests/reference/foot3d_sagittal.hpp"

#include <cmath>
#include <stdexcept>

#include "materials/catalogue.hpp"
#include "scenarios/build_model.hpp"
#include "scenarios/quantities.hpp"
#include "solver/contact_pressure.hpp"
#include "solver/ground.hpp"
#include "solver/layer.hpp"
#include "tests/reference/foot3d_case.hpp"

namespace hoofload::tests {
namespace {

using namespace scenarios;
using Values = std::map<std::string, double>;

const materials::Catalogue& catalogue() {
  static const materials::Catalogue all = materials::load_catalogue();
  return all;
}

PhaseSolution press(const std::shared_ptr<BuiltModel>& built, const Case& run) {
  TendonSlack slack;
  const auto solved = solve_phases(built, run, slack, true);
  if (!solved.front().solved) throw std::runtime_error(run.name + ": " + solved.front().why);
  return solved.front();
}

/// Vertical force of the lamellae on the bone by sector, over their area [MPa at kForce].
void add_lamellae(const BuiltModel& built, const Case& run, const PhaseSolution& phase, double scale, Values& out) {
  const solver::Model& model = built.system->model();
  const Eigen::VectorXd x = built.system->displacements(phase.state);
  const mesh::CapsuleShell shell = mesh::capsule_shell(run.foot);
  const Eigen::Vector2d n = solver::ground_normal(phase.state.q[solver::ground_dof(model, 2)]);
  std::array<double, 3> force{0, 0, 0}, area{0, 0, 0};
  for (const auto& p : shell.lamella) {
    Eigen::Matrix<double, 3, 8> u;
    for (int a = 0; a < 8; ++a)
      u.col(a) = x.segment<3>(solver::space_dof(model, p.at.nodes[static_cast<std::size_t>(a)], 0));
    const auto r = std::visit(
        [&](const auto& law) {
          return solver::layer_response(law, u * p.at.shape, p.normal, run.foot.lamella_thickness);
        },
        model.layers.front().material);
    const std::size_t g = p.at.t < 0.5 ? 0 : p.at.t < 1 ? 1 : 2;
    force[g] += p.area * (r.traction.x() * n.x() + r.traction.y() * n.y());
    area[g] += p.area;
  }
  const std::array<const char*, 3> names{"toe", "quarter", "heel"};
  for (std::size_t g = 0; g < 3; ++g) {
    out[std::string("lamellar traction ") + names[g]] = scale * force[g] / area[g];
    out[std::string("lamellar force ") + names[g]] = 2 * scale * force[g];
    out[std::string("lamellar area ") + names[g]] = area[g];
  }
}

double arc_at(const solver::PressureProfile& profile, const std::vector<solver::Vec2>& X, double x) {
  double best = 0, distance = 1e30;
  for (std::size_t k = 0; k < profile.node.size(); ++k) {
    const double here = std::abs(X[static_cast<std::size_t>(profile.node[k])].x() - x);
    if (here < distance) distance = here, best = profile.s[k];
  }
  return best;
}

void add_corium(const BuiltModel& built, const PhaseSolution& phase, double scale, Values& out) {
  const solver::Model& model = built.system->model();
  const auto& face = built.bone.front();
  const Eigen::VectorXd f = -built.system->region_forces(phase.state, "corium");
  const Eigen::Vector2d n = solver::ground_normal(phase.state.q[solver::ground_dof(model, 2)]);
  std::vector<double> pressing(model.X.size(), 0.0);
  for (int node : mesh::nodes_of(face.edges)) pressing[static_cast<std::size_t>(node)] = f.segment<2>(2 * node).dot(n);
  const auto profile = solver::pressure_profile(model.X, face.edges, model.symmetry, pressing);
  for (const auto& [where, x] : {std::pair<std::string, double>{"tip", 0}, {"middle", -30}})
    out["corium pressure " + where] =
        1000 * scale * solver::patch_mean(profile, arc_at(profile, model.X, built.tip_x + x - kWindow / 2), kWindow);
}

/// From the profile that the program plots: trapezoids over the window [kPa].
void add_sole(const BuiltModel& built, const PhaseSolution& phase, double scale, Values& out) {
  const auto samples = sole_pressure_profile(built, phase);
  for (const auto& [where, x] : {std::pair<std::string, double>{"tip", 0}, {"middle", -30}}) {
    double sum = 0, length = 0;
    for (std::size_t k = 0; k + 1 < samples.size(); ++k) {
      const double a = samples[k].X.x(), b = samples[k + 1].X.x();
      if (std::abs(0.5 * (a + b) - built.tip_x - x) > kWindow / 2) continue;
      sum += 0.5 * (samples[k].kPa + samples[k + 1].kPa) * std::abs(b - a), length += std::abs(b - a);
    }
    if (length > 0) out["sole pressure " + where] = scale * sum / length;
  }
}

double value(const Quantities& q, const char* key) {
  const auto it = q.find(key);
  return it == q.end() ? 0 : it->second;
}

/// What the filling passes down, of the load [%]: to the ground, or through its level joint with the plate.
double packing_share(const BuiltModel& built, const PhaseSolution& phase, const Quantities& q) {
  double sum = 0;
  bool backed = false;
  const auto& points = built.system->contact_points();
  const auto& pairs = built.system->model().pairs;
  for (std::size_t p = 0; p < pairs.size(); ++p) {
    const std::string& name = pairs[p].name;
    if (name != "packing_plate" && name != "packing_frog_plate" && name != "packing_backing") continue;
    const auto [first, last] = built.system->contacts_of_pair(p);
    for (int k = first; k < last; ++k) sum += phase.reactions[points[static_cast<std::size_t>(k)].normal];
    backed = true;
  }
  return backed ? 100 * sum / phase.loading.normal_force : value(q, "ground_share_packing");
}

void add_shares(const BuiltModel& built, const PhaseSolution& phase, const Quantities& q, Values& out) {
  out["packing share"] = packing_share(built, phase, q);
  out["bone share lamellae"] = value(q, "bone_share_lamellae");
  out["bone share sole"] = value(q, "bone_share_sole") + value(q, "bone_share_frog");
  out["ground share packing"] = value(q, "ground_share_packing");
  out["ground share shoe"] = value(q, "ground_share_shoe");
}

}  // namespace

Values sagittal_at(const Case& given, double ahead, double density, double white_line_constant) {
  Case run = given;
  const auto model = std::make_shared<BuiltModel>(build_sagittal(run, catalogue(), density, white_line_constant));
  const BuiltModel& built = *model;
  run.load.tendon_force = *run.load.force * ahead / run.foot.ddft_arm;
  PhaseSolution phase = press(model, run);
  for (int pass = 0; pass < 2 && ahead > 0; ++pass) {  // the tendon's arm is measured, not given
    run.load.tendon_force *= ahead / measure(built, run, phase).at("cop");
    phase = press(model, run);
  }
  const Quantities q = measure(built, run, phase);
  const double scale = kForce / *run.load.force;
  Values out{{"sink", scale * q.at("bone_sink")},
             {"rotation", scale * q.at("bone_rotation")},
             {"cop", q.at("cop")},
             {"dorsal strain", scale * q.at("wall_strain_dorsal")},
             {"quarter strain", scale * q.at("wall_strain_quarter")},
             {"heel spread", scale * q.at("heel_spread")}};
  add_shares(built, phase, q, out);
  add_lamellae(built, run, phase, scale, out);
  add_corium(built, phase, scale, out);
  add_sole(built, phase, scale, out);
  return out;
}

Values axisymmetric_at(const Case& run, double density) {
  const auto model = std::make_shared<BuiltModel>(build_axisymmetric(run, catalogue(), density));
  const BuiltModel& built = *model;
  const PhaseSolution phase = press(model, run);
  const Quantities q = measure(built, run, phase);
  const double scale = kForce / *run.load.force;
  Values out{{"sink", scale * q.at("bone_sink")}};
  add_shares(built, phase, q, out);
  return out;
}

}  // namespace hoofload::tests
