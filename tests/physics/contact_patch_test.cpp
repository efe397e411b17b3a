// Contact patch tests (Taylor & Papadopoulos 1991: a contact must transmit a uniform pressure). Two bodies meet on a
// duplicated line, or one stands on the rigid ground; nodal forces over their consistent weights must all be the pressure.
// Tolerance 1e-10 relative. Bodies are linear, so loads may be as large as the moduli: that keeps the round-off of
// F = I + H (1e-16 times the bulk modulus) far below the pressure.
#include "solver/contact_pressure.hpp"

#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/record.hpp"
#include "tests/support/stress.hpp"
#include "tests/support/two_blocks.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

/// Largest deviation of nodal force over nodal weight from p, and of hat pressures, relative to p.
double pressure_error(const Solved& solved, const mesh::EdgeSet& line, double p) {
  const Model& m = solved.system->model();
  const std::vector<double> force = contact_forces(solved);
  std::vector<double> weight(m.X.size(), 0.0);
  for (std::size_t e = 0; e < line.edges.size(); ++e) {
    const auto w = edge_weights(m.X, line.edges[e], line.breadth[e], m.symmetry);
    weight[static_cast<std::size_t>(line.edges[e].a)] += w[0];
    weight[static_cast<std::size_t>(line.edges[e].b)] += w[1];
    weight[static_cast<std::size_t>(line.edges[e].mid)] += w[2];
  }
  double worst = 0;
  for (std::size_t i = 0; i < weight.size(); ++i)
    if (weight[i] > 1e-9) worst = std::max(worst, std::abs(force[i] / weight[i] / p - 1));
  for (double hat : pressure_profile(m.X, line, m.symmetry, force).pressure)
    worst = std::max(worst, std::abs(hat / p - 1));
  return worst;
}

struct Materials {
  double E_low, nu_low, E_up, nu_up;
  double tolerance;
};
class ContactPatch : public ::testing::TestWithParam<Materials> {
 protected:
  static void expect_exact(const std::string& claim, double worst) {
    EXPECT_LT(worst, GetParam().tolerance);
    record_exact({claim, "Taylor & Papadopoulos 1991", "4 x 3 distorted"},
                 text("E %g:%g nu %g:%g", GetParam().E_low, GetParam().E_up, GetParam().nu_low, GetParam().nu_up),
                 worst, GetParam().tolerance);
  }
};

Formulation suited(double nu) { return nu > 0.45 ? Formulation::mixed : Formulation::displacement; }

/// Uniaxial stress -p along n in a body: u = (-p/E) [(1 - nu^2) n n - nu (1 + nu) t t] X in plane strain.
std::function<Vec2(const Vec2&)> squeezed(double p, double E, double nu, const Vec2& n) {
  const Vec2 t{n.y(), -n.x()};
  const Eigen::Matrix2d e = -p / E * ((1 - nu * nu) * n * n.transpose() - nu * (1 + nu) * t * t.transpose());
  return [e](const Vec2& X) { return Vec2(e * X); };
}

TEST_P(ContactPatch, a_duplicated_line_transmits_uniform_pressure_in_plane_strain) {
  const auto [E1, nu1, E2, nu2, tolerance] = GetParam();
  const double p = 5;
  for (double tilt : {0.0, std::numbers::pi / 6}) {
    const Vec2 n = Eigen::Rotation2Dd(tilt) * Vec2(0, 1);
    TwoBlocks b =
        two_blocks({4, 3, 0, 10, 4, 5, tilt, 2.0}, Symmetry::plane_strain, materials::LinearIsotropic{E1, nu1},
                   suited(nu1), materials::LinearIsotropic{E2, nu2}, suited(nu2));
    // Both far faces carry the exact field of their body; the interface passes through the origin, so both fields agree
    // there in the normal direction and slip along it.
    hold(b.model, b.lower_bottom(), squeezed(p, E1, nu1, n));
    hold(b.model, b.upper_top(), squeezed(p, E2, nu2, n));
    const Solved solved = equilibrium(b.model, no_ground(), 1, tight());
    ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
    expect_exact("a duplicated line carries uniform pressure, level and tilted by 30 degrees",
                 pressure_error(solved, b.slave_line(), p));
    const Mat3 sigma = full_tensor((Eigen::Matrix<double, 5, 1>() << -p * n.x() * n.x(), -p * n.x() * n.y(),
                                    -p * n.x() * n.y(), -p * n.y() * n.y(), -p * nu1)
                                       .finished());
    for (const auto& point : point_stresses(*solved.system, solved.state, 0))
      EXPECT_LT((point.P - sigma).cwiseAbs().maxCoeff(), tolerance * p);
  }
}

TEST_P(ContactPatch, a_duplicated_line_transmits_uniform_pressure_in_axisymmetry) {
  const auto [E1, nu1, E2, nu2, tolerance] = GetParam();
  const double p = 5;
  for (double r0 : {0.0, 5.0}) {
    TwoBlocks b =
        two_blocks({4, 3, r0, r0 + 10, 4, 5, 0, 1.0}, Symmetry::axisymmetric, materials::LinearIsotropic{E1, nu1},
                   suited(nu1), materials::LinearIsotropic{E2, nu2}, suited(nu2));
    // The corner on the axis has no area: it is not in the contact set.
    if (r0 == 0) b.leave_out_first_pair();
    const auto field = [&](double E, double nu) {
      return [=](const Vec2& X) { return Vec2(p * nu / E * X.x(), -p / E * X.y()); };
    };
    hold(b.model, b.lower_bottom(), field(E1, nu1));
    hold(b.model, b.upper_top(), field(E2, nu2));
    if (r0 == 0) b.hold_axis();
    const Solved solved = equilibrium(b.model, no_ground(), 1, tight());
    ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
    expect_exact("a duplicated line carries uniform pressure in axisymmetry, with the axis and off it",
                 pressure_error(solved, b.slave_line(), p));
  }
}

// A cone of contact, tilted by 30 degrees, under hydrostatic pressure: the one uniform state that a frictionless cone has.
TEST_P(ContactPatch, a_conical_line_transmits_hydrostatic_pressure) {
  const auto [E1, nu1, E2, nu2, tolerance] = GetParam();
  const double p = 5, tilt = std::numbers::pi / 6;
  TwoBlocks b = two_blocks({4, 3, 2, 8, 4, 5, tilt, 1.0}, Symmetry::axisymmetric, materials::LinearIsotropic{E1, nu1},
                           suited(nu1), materials::LinearIsotropic{E2, nu2}, suited(nu2));
  const auto field = [&](double E, double nu) {
    return [=](const Vec2& X) { return Vec2(-p * (1 - 2 * nu) / E * X); };
  };
  hold(b.model, b.lower_bottom(), field(E1, nu1));
  hold(b.model, b.upper_top(), field(E2, nu2));
  for (const auto& side : {b.lower_left(), b.upper_left()}) add_pressure(b.model, chain(reversed(side)), p);
  for (const auto& side : {b.lower_right(), b.upper_right()}) add_pressure(b.model, chain(side), p);
  const Solved solved = equilibrium(b.model, no_ground(), 1, tight());
  ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
  expect_exact("a conical line carries hydrostatic pressure", pressure_error(solved, b.slave_line(), p));
}

INSTANTIATE_TEST_SUITE_P(Stiffnesses, ContactPatch,
                         ::testing::Values(Materials{1000, 0.3, 1000, 0.3, 1e-10}, Materials{10, 0.4, 1000, 0.3, 1e-10},
                                           Materials{10, 0.4999, 10, 0.4999, 1e-10},
                                           Materials{10, 0.4999, 1000, 0.3, 1e-10}));

class GroundPatch : public ::testing::TestWithParam<double> {};

TEST_P(GroundPatch, the_rigid_ground_carries_uniform_pressure) {
  const double nu = GetParam(), E = 10, p = 2;
  for (Symmetry symmetry : {Symmetry::plane_strain, Symmetry::axisymmetric}) {
    const bool ax = symmetry == Symmetry::axisymmetric;
    auto b =
        one_block({5, 3, rectangle(0, 10, 0, 4, 0.12), 3}, symmetry, materials::LinearIsotropic{E, nu}, suited(nu));
    const double across = ax ? p * nu / E : p * nu * (1 + nu) / E, down = ax ? -p / E : -p * (1 - nu * nu) / E;
    hold(b.model, b.top(), [&](const Vec2& X) { return Vec2(across * X.x(), down * X.y()); });
    if (ax) fix(b.model, b.left(), 0);
    b.model.ground.joint = {4, 6};
    for (int node : b.bottom())
      if (!ax || b.model.X[static_cast<std::size_t>(node)].x() > 0) b.model.ground.nodes.push_back(node);
    Loading loading;
    loading.hold_distance = 6;
    loading.hold_offset = loading.hold_pitch = 0;
    const Solved solved = equilibrium(b.model, loading, 1, tight(), 6);
    ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
    const double worst = pressure_error(solved, chain(b.bottom(), 3), p);
    EXPECT_LT(worst, 1e-10) << "axisymmetric " << ax;
    record_exact(
        {"the rigid ground carries uniform pressure, both symmetries", "Taylor & Papadopoulos 1991", "5 x 3 distorted"},
        text("nu %g", nu), worst, 1e-10);
    // Row of d, Eq. (53): the ground's distance carries the sum of the contact forces.
    const double area = ax ? std::numbers::pi * 100 : 30;
    EXPECT_NEAR(solved.reactions[ground_dof(b.model, 0)], -p * area, 1e-9 * p * area);
  }
}

INSTANTIATE_TEST_SUITE_P(Ratios, GroundPatch, ::testing::Values(0.3, 0.4, 0.4999));

}  // namespace
