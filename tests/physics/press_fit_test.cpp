// Press fit of two rings by an interference on their duplicated line: p = d / (c (C_o + C_i)) with Lame's compliances
// (Lame; e.g. Shigley & Mischke). a = 1, c = 2, b = 3, E = 1000, nu = 0.3, d = 0.002.
#include "tests/support/nested_rings.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

Fit rings(const Grid& inner, const Grid& outer, Symmetry symmetry, const materials::Material& material,
          Formulation formulation, double interference) {
  return tests::rings(inner, outer, symmetry, {material, formulation}, {material, formulation}, interference);
}

Fit axisymmetric_fit(double nu, bool held_axially) {
  Fit f =
      rings({4, 2, rectangle(1, 2, 0, 1, 0), 1}, {4, 2, rectangle(2, 3, 0, 1, 0), 1}, Symmetry::axisymmetric,
            materials::LinearIsotropic{1000, nu}, nu > 0.45 ? Formulation::mixed : Formulation::displacement, 0.002);
  hold_line(f, false, 1);
  if (held_axially) hold_line(f, true, 1);
  return f;
}

void expect_uniform(const char* name, const Fit& f, const Solved& solved, double p) {
  ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
  const auto line = chain(column_nodes(f.outer, f.first_outer, false));
  const auto profile = pressure_profile(f.model.X, line, f.model.symmetry, contact_forces(solved));
  double worst = 0;
  for (double value : profile.pressure) worst = std::max(worst, std::abs(value / p - 1));
  std::printf("Press fit %s: p %.8f of %.8f (largest deviation %.4f %%)\n", name, profile.pressure[1], p, 100 * worst);
  record({"press fit, contact pressure", "Lame; Shigley & Mischke", "4 + 4 or 6 + 6 radial"}, name, p,
         profile.pressure[1]);
  EXPECT_LT(worst, 1e-3);  // exact constraints: only Lame's own discretisation, 0.1 %
}

TEST(PressFit, rings_held_axially_press_as_lame_says) {
  const Fit f = axisymmetric_fit(0.3, true);
  const Solved solved = equilibrium(f.model, no_ground());
  expect_uniform("ax, uz = 0", f, solved, 0.2575549451);
  const int slave = column_nodes(f.outer, f.first_outer, false)[2],
            master = column_nodes(f.inner, f.first_inner, true)[2];
  EXPECT_NEAR(solved.u(slave).x(), 1.41964286e-3, 1e-3 * 1.42e-3);
  EXPECT_NEAR(solved.u(master).x(), -0.58035714e-3, 1e-3 * 0.58e-3);
  EXPECT_NEAR(solved.u(slave).x() - solved.u(master).x(), 0.002, 1e-14);  // the bound itself
  EXPECT_NEAR(solved.u(column_nodes(f.outer, f.first_outer, true)[2]).x(), 1.125e-3, 1e-3 * 1.125e-3);
}

TEST(PressFit, rings_free_to_lengthen_press_as_lame_says) {
  const Fit f = axisymmetric_fit(0.3, false);
  // Frictionless, so each ring lengthens on its own: the plane-stress value.
  expect_uniform("ax, free ends", f, equilibrium(f.model, no_ground()), 0.234375);
}

// Two materials: a steel shaft (210 GPa, 0.3) of radius 20 in an aluminium ring (70 GPa, 0.33) out to 40, 0.02 mm too large:
// 31.39013453 MPa with free ends, 33.37465433 MPa held axially (the same formula).
TEST(PressFit, a_steel_shaft_in_an_aluminium_ring_presses_as_lame_says) {
  for (const auto& [held, p] : {std::pair{false, 31.39013453}, std::pair{true, 33.37465433}}) {
    const auto disp = Formulation::displacement;
    Fit f = tests::rings({6, 2, rectangle(0, 20, 0, 10), 1}, {6, 2, rectangle(20, 40, 0, 10), 1},
                         Symmetry::axisymmetric, {materials::LinearIsotropic{210e3, 0.3}, disp},
                         {materials::LinearIsotropic{70e3, 0.33}, disp}, 0.02);
    fix(f.model, column_nodes(f.inner, f.first_inner, false), 0);
    hold_line(f, false, 1);
    if (held) hold_line(f, true, 1);
    expect_uniform(held ? "shaft, uz = 0" : "shaft, free ends", f, equilibrium(f.model, no_ground()), p);
  }
}

TEST(PressFit, a_nearly_incompressible_pair_presses_as_lame_says) {
  const double nu = 0.4999, E = 1000 / (1 - nu * nu), v = nu / (1 - nu);  // plane strain
  const double Co = (13.0 / 5 + v) / E, Ci = (5.0 / 3 - v) / E;
  const Fit f = axisymmetric_fit(nu, true);
  expect_uniform("ax, nu 0.4999", f, equilibrium(f.model, no_ground()), 0.002 / (2 * (Co + Ci)));
}

TEST(PressFit, a_curved_line_presses_as_lame_says_in_plane_strain) {
  Fit f = rings({4, 8, polar(1, 2), 1}, {4, 8, polar(2, 3), 1}, Symmetry::plane_strain,
                materials::LinearIsotropic{1000, 0.3}, Formulation::displacement, 0.002);
  hold_line(f, false, 1);
  hold_line(f, true, 0);
  expect_uniform("pe quarter", f, equilibrium(f.model, no_ground()), 0.2575549451);
}

// Ramped fit-up: half of a linear interference gives half the pressure; none gives none (common practice, no source).
TEST(PressFit, pressure_follows_the_ramp) {
  const Fit f = axisymmetric_fit(0.3, true);
  const auto line = chain(column_nodes(f.outer, f.first_outer, false));
  for (double ramp : {0.0, 0.5}) {
    Loading loading = no_ground();
    loading.ramp = ramp;
    const Solved solved = equilibrium(f.model, loading, 1, tight());
    ASSERT_TRUE(solved.converged());
    for (double p : pressure_profile(f.model.X, line, f.model.symmetry, contact_forces(solved)).pressure)
      EXPECT_NEAR(p, ramp * 0.2575549451, 1e-3 * 0.2575549451 * ramp + 1e-12);
  }
}

// Finite interference: a tube A = 1, B = 2 (law A, nu = 0.499, mu = 1) on a shaft that is rigid in effect (1e6 times
// stiffer) and 10 % too large; pressure per deformed area of a converged collocation solution 0.131488158 mu.
TEST(PressFit, a_soft_tube_on_a_shaft_ten_per_cent_too_large) {
  Fit f = rings({2, 2, rectangle(0.5, 1, 0, 0.5, 0), 1}, {6, 2, rectangle(1, 2, 0, 0.5, 0), 1}, Symmetry::axisymmetric,
                materials::NeoHooke{1, 2 * 1.499 / (3 * (1 - 2 * 0.499))}, Formulation::mixed, 0.1);
  f.model.solids[0] = make_solid_block(f.mesh, f.mesh.blocks[0], f.model.symmetry, materials::LinearIsotropic{1e6, 0.3},
                                       Formulation::displacement);
  hold_line(f, false, 1);
  hold_line(f, true, 1);
  const Solved solved = equilibrium(f.model, no_ground(), 4);
  ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
  const auto line = chain(column_nodes(f.outer, f.first_outer, false));
  std::vector<Vec2> deformed = f.model.X;
  for (std::size_t i = 0; i < deformed.size(); ++i) deformed[i] += solved.u(static_cast<int>(i));
  const auto profile = pressure_profile(deformed, line, f.model.symmetry, contact_forces(solved));
  std::printf("Press fit finite a = 1.1: p %.6f of 0.131488 (%+.3f %%)\n", profile.pressure[1],
              100 * (profile.pressure[1] / 0.131488158 - 1));
  record({"soft tube on a shaft 10 % too large, p/mu, finite strain", "[N], collocation", "6 radial"}, "law A nu .499",
         0.131488158, profile.pressure[1]);
  EXPECT_NEAR(profile.pressure[1], 0.131488158, 3e-3 * 0.131488158);
}

}  // namespace
