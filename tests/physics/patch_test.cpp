// Patch tests of the solid elements: a state of constant strain is reproduced exactly on distorted meshes.
// Tolerance 1e-10 relative: round-off of a direct solve at the conditioning of nu = 0.4999.
#include "solver/solid.hpp"

#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/record.hpp"
#include "tests/support/single_block.hpp"
#include "tests/support/stress.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

struct PatchCase {
  Formulation formulation;
  double nu;
};

class Patch : public ::testing::TestWithParam<PatchCase> {
 protected:
  static void expect_exact(const Claim& claim, double worst) {
    const auto [formulation, nu] = GetParam();
    EXPECT_LT(worst, 1e-10);
    record_exact(claim, text("nu %g %s", nu, formulation == Formulation::mixed ? "mixed" : "disp"), worst, 1e-10);
  }
};

double largest_stress_error(const Solved& solved, const Mat3& expected) {
  double worst = 0;
  for (const auto& p : point_stresses(*solved.system, solved.state, 0))
    worst = std::max(worst, (p.P - expected).cwiseAbs().maxCoeff());
  return worst / expected.cwiseAbs().maxCoeff();
}

double largest_displacement_error(const Solved& solved, const std::function<Vec2(const Vec2&)>& u, double size) {
  double worst = 0;
  const auto& X = solved.system->model().X;
  for (std::size_t i = 0; i < X.size(); ++i) worst = std::max(worst, (solved.u(static_cast<int>(i)) - u(X[i])).norm());
  return worst / size;
}

// MacNeal & Harder 1985: outline 0.24 x 0.12, E = 1e6, u = 1e-3 (x + y/2), v = 1e-3 (y + x/2) (here 0.1 for 1e-3);
// plane-strain stresses by Hooke's law (1600, 1600, 800, shear 400 at nu = 0.25, times 100).
TEST_P(Patch, constant_strain_is_exact_in_plane_strain) {
  const auto [formulation, nu] = GetParam();
  const double E = 1e6;
  auto b = one_block({4, 3, rectangle(0, 0.24, 0, 0.12, 0.15), 1}, Symmetry::plane_strain,
                     materials::LinearIsotropic{E, nu}, formulation);
  const auto u = [](const Vec2& X) { return Vec2(0.1 * Vec2(X.x() + X.y() / 2, X.y() + X.x() / 2)); };
  hold(b.model, b.outline(), u);
  const Solved solved = equilibrium(b.model, no_ground(), 1, tight());
  ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
  const double mu = E / 2 / (1 + nu), lambda = E * nu / (1 + nu) / (1 - 2 * nu);
  Mat3 sigma = Mat3::Zero();
  sigma(0, 0) = sigma(1, 1) = 0.2 * lambda + 0.2 * mu;
  sigma(2, 2) = 0.2 * lambda;
  sigma(0, 1) = sigma(1, 0) = 0.1 * mu;
  if (nu == 0.25) {
    EXPECT_NEAR(sigma(0, 0), 160000, 1e-7);
  }
  expect_exact({"constant strain is exact on a distorted mesh, plane strain", "MacNeal & Harder 1985; Hooke", "4 x 3"},
               std::max(largest_displacement_error(solved, u, 0.1 * 0.24), largest_stress_error(solved, sigma)));
}

// Hooke's law: srr = stt = lambda (2a + b) + 2 mu a, szz = lambda (2a + b) + 2 mu b for u_r = a r, u_z = b z + c; elements
// touch the axis. E = 1000, nu = 0.3, a = 0.1, b = -0.2 give 76.92308 and -153.84615. (Linear, so any size will do; a large
// one keeps the round-off of F = I + H, 1e-16 times the bulk modulus, below the tolerance.)
TEST_P(Patch, constant_strain_is_exact_in_axisymmetry_up_to_the_axis) {
  const auto [formulation, nu] = GetParam();
  const double E = 1000, a = 0.1, bz = -0.2;
  for (double r0 : {0.0, 3.0}) {
    auto b = one_block({4, 3, rectangle(r0, r0 + 4, 0, 3, 0.15), 1}, Symmetry::axisymmetric,
                       materials::LinearIsotropic{E, nu}, formulation);
    const auto u = [&](const Vec2& X) { return Vec2(a * X.x(), bz * X.y() + 0.01); };
    hold(b.model, b.outline(), u);
    const Solved solved = equilibrium(b.model, no_ground(), 1, tight());
    ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
    const double mu = E / 2 / (1 + nu), lambda = E * nu / (1 + nu) / (1 - 2 * nu), volume = lambda * (2 * a + bz);
    const Mat3 sigma = Eigen::Vector3d(volume + 2 * mu * a, volume + 2 * mu * bz, volume + 2 * mu * a).asDiagonal();
    if (nu == 0.3) {
      EXPECT_NEAR(sigma(0, 0), 76.92308, 1e-5);
    }
    expect_exact({"constant strain is exact in axisymmetry, up to the axis and off it", "Hooke", "4 x 3"},
                 std::max(largest_displacement_error(solved, u, 1.0), largest_stress_error(solved, sigma)));
  }
}

// The same state reached by tractions and the fewest supports: the axisymmetric body is held in z only.
TEST_P(Patch, constant_stress_is_exact_under_tractions) {
  const auto [formulation, nu] = GetParam();
  auto b = one_block({4, 3, rectangle(0, 4, 0, 3, 0.15), 1}, Symmetry::axisymmetric,
                     materials::LinearIsotropic{1000, nu}, formulation);
  fix(b.model, b.bottom(), 1);
  fix(b.model, b.left(), 0);
  add_pressure(b.model, chain(reversed(b.top())), 200);
  add_pressure(b.model, chain(b.right()), 100);
  const Solved solved = equilibrium(b.model, no_ground(), 1, tight());
  ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
  expect_exact({"constant stress is exact under tractions, held in z only", "Hooke", "4 x 3"},
               largest_stress_error(solved, Eigen::Vector3d(-100, -200, -100).asDiagonal()));
}

INSTANTIATE_TEST_SUITE_P(Elements, Patch,
                         ::testing::Values(PatchCase{Formulation::displacement, 0.25},
                                           PatchCase{Formulation::displacement, 0.3},
                                           PatchCase{Formulation::displacement, 0.4},
                                           PatchCase{Formulation::mixed, 0.3}, PatchCase{Formulation::mixed, 0.4999}));

// F0 = [[1.2, 0.3], [-0.1, 0.9]] on the outline (common practice, no source): the inside must follow, P = P(F0).
// 1e-9 after Newton: the stress of a nearly incompressible law magnifies round-off of J by kappa / mu.
TEST(FinitePatch, homogeneous_finite_strain_is_exact) {
  const std::vector<std::pair<materials::Material, Formulation>> cases{
      {materials::CompressibleNeoHooke{1, 1.5}, Formulation::displacement},
      {materials::NeoHooke{1, 2.166666666666667}, Formulation::displacement},
      {materials::NeoHooke{1, 2.166666666666667}, Formulation::mixed},
      {materials::NeoHooke{1, 500}, Formulation::mixed}};
  Mat3 F0 = Mat3::Identity();
  F0.topLeftCorner<2, 2>() << 1.2, 0.3, -0.1, 0.9;
  double worst = 0;
  for (const auto& [material, formulation] : cases) {
    auto b = one_block({3, 3, rectangle(0, 2, 0, 1, 0.1), 1}, Symmetry::plane_strain, material, formulation);
    hold(b.model, b.outline(),
         [&](const Vec2& X) { return Vec2((F0.topLeftCorner<2, 2>() - Eigen::Matrix2d::Identity()) * X); });
    const Solved solved = equilibrium(b.model, no_ground(), 4, tight());
    ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
    const Mat3 P0 = full_tensor(std::visit(
        [&](const auto& law) { return materials::respond<materials::PlaneComponents>(law, F0).P; }, material));
    for (const auto& p : point_stresses(*solved.system, solved.state, 0)) {
      const double off = (p.P - P0).cwiseAbs().maxCoeff() / P0.cwiseAbs().maxCoeff();
      worst = std::max({worst, (p.F - F0).cwiseAbs().maxCoeff(), off});
    }
  }
  EXPECT_LT(worst, 1e-9);
  record_exact({"homogeneous finite strain is exact: F and stress", "common practice, no source", "3 x 3"},
               "laws A, B, kappa/mu up to 500", worst, 1e-9);
}

// Objectivity (common practice, no source): a rotation by 60 degrees leaves no force, for every finite-strain law.
TEST(FinitePatch, a_large_rigid_rotation_gives_zero_stress) {
  const std::vector<std::pair<materials::Material, Formulation>> cases{
      {materials::CompressibleNeoHooke::example(), Formulation::displacement},
      {materials::SaintVenantKirchhoff::example(), Formulation::displacement},
      {materials::TransverseKirchhoff::example(), Formulation::displacement},
      {materials::NeoHooke{1, 500}, Formulation::mixed},
      {materials::Yeoh::example(), Formulation::displacement}};
  const Eigen::Matrix2d R = Eigen::Rotation2Dd(std::numbers::pi / 3).toRotationMatrix();
  double worst = 0;
  for (const auto& [material, formulation] : cases) {
    auto b = one_block({3, 2, rectangle(1, 3, 0, 1, 0.1), 1}, Symmetry::plane_strain, material, formulation);
    const System system(b.model);
    State state = system.rest_state(0, 0);
    for (std::size_t i = 0; i < b.model.X.size(); ++i)
      state.q.segment<2>(2 * static_cast<Eigen::Index>(i)) = (R - Eigen::Matrix2d::Identity()) * b.model.X[i];
    const double stiffness = std::visit(
        [](const auto& law) {
          return materials::respond<materials::PlaneComponents>(law, Mat3::Identity()).A.cwiseAbs().maxCoeff();
        },
        material);
    worst = std::max(worst, system.internal_forces(state, no_ground()).cwiseAbs().maxCoeff() / stiffness);
  }
  EXPECT_LT(worst, 1e-12);
  record_exact({"a rotation by 60 degrees leaves no force", "objectivity; common practice, no source", "3 x 2"},
               "five laws, over stiffness", worst, 1e-12);
}

// The measure 2 pi R integrates volumes: a frustum of a cone, radii 1 to 2 and 1 to 3 over a height 1.5, is pi h (R1^2 + R1 R2 + R2^2) / 3
// less the bore. Straight sides are polynomial: 1e-12.
TEST(Measure, rule_weights_add_to_the_volume_of_a_bored_cone) {
  const auto place = [](double u, double v) { return Vec2(1 + u * (1 + v), 1.5 * v); };
  for (Formulation formulation : {Formulation::displacement, Formulation::mixed}) {
    const auto b = one_block({3, 2, place, 1}, Symmetry::axisymmetric, materials::LinearIsotropic{1, 0.3}, formulation);
    double volume = 0;
    for (const auto& p : b.model.solids[0].points) volume += p.weight;
    const double exact = std::numbers::pi * 1.5 * ((4 + 6 + 9) / 3.0 - 1);
    EXPECT_NEAR(volume, exact, 1e-12 * exact);
    record_exact({"the measure 2 pi R integrates the volume of a bored cone", "geometry", "3 x 2"},
                 formulation == Formulation::mixed ? "mixed" : "disp", std::abs(volume / exact - 1), 1e-12);
  }
}

}  // namespace
