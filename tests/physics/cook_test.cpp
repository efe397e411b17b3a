// Cook's membrane (Cook 1974): outline (0,0) (48,44) (48,60) (0,44), x = 0 fixed, dead shear F/16 on x = 48, plane strain.
// References: converged solutions of an independent high-order code (p-refinement; digits shown are stable), tag [N].
// Compared at mid-edge (48, 52) and by the work F u: the corner converges like h ln h and is not used.
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/record.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

struct CookResult {
  double uy = 0, work = 0;
  Solved solved;
};

CookResult cook(int n, const materials::Material& material, Formulation formulation, double F, int steps) {
  const auto place = [](double u, double v) {
    const double low = 44 * u, high = 44 + 16 * u;
    return Vec2{48 * u, low + (high - low) * v};
  };
  auto b = one_block({n, n, place, 1}, Symmetry::plane_strain, material, formulation);
  fix(b.model, b.left(), 0);
  fix(b.model, b.left(), 1);
  add_traction(b.model, chain(b.right()), [F](const Vec2&, const Vec2&) { return Vec2(0, F / 16); });
  CookResult r;
  r.solved = equilibrium(b.model, no_ground(), steps);
  for (const auto& load : b.model.dead_loads) r.work += load.force * r.solved.x[load.dof];
  r.uy = r.solved.u(b.right()[static_cast<std::size_t>(n)]).y();
  return r;
}

void expect_near(const char* name, const CookResult& r, double uy, double work, double tolerance) {
  ASSERT_TRUE(r.solved.converged()) << name << ": " << describe(r.solved.report.outcome);
  std::printf("Cook %s: u_y(M) %.5f (%+.3f %%), F.u %.4f (%+.3f %%), %d iterations\n", name, r.uy,
              100 * (r.uy / uy - 1), r.work, 100 * (r.work / work - 1), r.solved.iterations);
  record({"Cook's membrane, u_y at (48, 52), plane strain", "Cook 1974; [N]", "16 x 16"}, name, uy, r.uy);
  EXPECT_NEAR(r.uy, uy, tolerance * uy) << name;
  EXPECT_NEAR(r.work, work, tolerance * work) << name;
}

// 0.4 % at 16 x 16: the clamped corners are singular and cost order.
TEST(Cook, compressible_linear_membrane_bends_as_the_converged_solution) {
  expect_near("linear nu 1/3", cook(16, materials::LinearIsotropic{1, 1.0 / 3}, Formulation::displacement, 1, 1),
              21.52457, 21.5902, 4e-3);
  expect_near("linear nu .3", cook(16, materials::LinearIsotropic{250, 0.3}, Formulation::displacement, 100, 1),
              8.77801, 880.4894, 4e-3);
  expect_near("linear nu .3 mixed", cook(16, materials::LinearIsotropic{250, 0.3}, Formulation::mixed, 100, 1), 8.77801,
              880.4894, 4e-3);
}

// Mixed element 1 % at 16 x 16; the displacement triangle on a coarse mesh is much stiffer (canary).
TEST(Cook, nearly_incompressible_linear_membrane_does_not_lock) {
  const materials::LinearIsotropic rubber{240.565, 0.4999};
  expect_near("linear nu .4999 mixed", cook(16, rubber, Formulation::mixed, 100, 1), 7.6952, 771.83, 1e-2);
  const double coarse_mixed = cook(4, rubber, Formulation::mixed, 100, 1).uy;
  const double coarse_plain = cook(4, rubber, Formulation::displacement, 100, 1).uy;
  std::printf("Cook canary at 4 x 4: mixed %.4f, displacement %.4f of 7.6952\n", coarse_mixed, coarse_plain);
  EXPECT_LT(std::abs(coarse_mixed - 7.6952), 0.6 * std::abs(coarse_plain - 7.6952));
}

// Finite strain, laws A (isochoric split) and B (ln J), E = 250, nu = 0.3.
TEST(Cook, compressible_finite_membrane_bends_as_the_converged_solution) {
  const double mu = 250 / 2.6, lambda = 250 * 0.3 / 1.3 / 0.4, kappa = lambda + 2 * mu / 3;
  expect_near("law A nu .3", cook(16, materials::NeoHooke{mu, kappa}, Formulation::displacement, 100, 4), 7.69097,
              767.669, 4e-3);
  expect_near("law B nu .3", cook(16, materials::CompressibleNeoHooke{mu, lambda}, Formulation::displacement, 100, 4),
              7.63818, 762.478, 4e-3);
}

// Simo & Armero 1992 data (from memory): mu = 80.2, nu = 0.4999; reference +- 0.002.
TEST(Cook, nearly_incompressible_finite_membrane_does_not_lock) {
  const double E = 240.565, nu = 0.4999, mu = E / 2 / (1 + nu), kappa = E / 3 / (1 - 2 * nu);
  expect_near("law A nu .4999 mixed", cook(16, materials::NeoHooke{mu, kappa}, Formulation::mixed, 100, 4), 6.962,
              695.4, 1e-2);
}

}  // namespace
