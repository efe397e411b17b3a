// Finite strain: homogeneous states, the inflated thick cylinder, and rubber bonded between plates.
// Laws: A = isochoric split with kappa/2 (J - 1)^2, B = mu/2 (I1 - 3 - 2 ln J) + lambda/2 (ln J)^2; mu = 1.
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

double lambda_of(double nu) { return 2 * nu / (1 - 2 * nu); }
materials::NeoHooke law_a(double nu) { return {1, lambda_of(nu) + 2.0 / 3}; }
materials::CompressibleNeoHooke law_b(double nu) { return {1, lambda_of(nu)}; }

struct Homogeneous {
  const char* name;
  Symmetry symmetry;
  bool confined;
  double stretch;
  materials::Material material;
  Formulation formulation;
  double nominal;
};

// Closed one-variable problems (lateral stress zero, or lateral stretch one), solved to 10 digits by an independent root
// finder. Tolerance 1e-8: the Newton tolerance over the stress.
TEST(HomogeneousState, one_element_gives_the_law_s_nominal_stress) {
  const auto ax = Symmetry::axisymmetric, pe = Symmetry::plane_strain;
  const auto disp = Formulation::displacement, mixed = Formulation::mixed;
  const std::vector<Homogeneous> cases{{"uniaxial 0.7 A .3", ax, false, 0.7, law_a(0.3), disp, -1.158428353},
                                       {"uniaxial 0.7 A .3 mixed", ax, false, 0.7, law_a(0.3), mixed, -1.158428353},
                                       {"uniaxial 2 A .3", ax, false, 2.0, law_a(0.3), disp, 1.385639677},
                                       {"uniaxial 0.7 B .3", ax, false, 0.7, law_b(0.3), disp, -1.053599103},
                                       {"uniaxial 0.7 A .499", ax, false, 0.7, law_a(0.499), mixed, -1.340097885},
                                       {"uniaxial 1.5 B .499", ax, false, 1.5, law_b(0.499), disp, 1.055258963},
                                       {"plane 0.7 A .3", pe, false, 0.7, law_a(0.3), disp, -1.243149036},
                                       {"plane 0.7 A .499", pe, false, 0.7, law_a(0.499), mixed, -2.207944397},
                                       {"plane 1.5 B .3", pe, false, 1.5, law_b(0.3), disp, 1.046333990},
                                       {"confined 0.9 A .3", ax, true, 0.9, law_a(0.3), mixed, -0.3676485457},
                                       {"confined 0.7 B .3", pe, true, 0.7, law_b(0.3), disp, -1.492874880},
                                       {"confined 0.9 A .499", pe, true, 0.9, law_a(0.499), mixed, -50.11764855}};
  for (const auto& c : cases) {
    auto b = one_block({1, 1, rectangle(0, 1, 0, 1), 1}, c.symmetry, c.material, c.formulation);
    fix(b.model, b.bottom(), 1);
    fix(b.model, b.left(), 0);
    if (c.confined) fix(b.model, b.right(), 0);
    hold(b.model, b.top(), [&](const Vec2&) { return Vec2(0, c.stretch - 1); }, {1});
    const Solved solved = equilibrium(b.model, no_ground(), 4, tight());
    ASSERT_TRUE(solved.converged()) << c.name << ": " << describe(solved.report.outcome);
    const double area = c.symmetry == Symmetry::axisymmetric ? std::numbers::pi : 1;
    EXPECT_NEAR(reaction(solved, b.top(), 1) / area, c.nominal, 1e-8 * std::abs(c.nominal)) << c.name;
  }
}

struct Inflation {
  const char* name;
  materials::Material material;
  Formulation formulation;
  double a, pressure;
  double outer = 0;  ///< deformed outer radius where it is known
};

// Thick cylinder A = 1, B = 2 held axially, inner wall moved to a: pressure from the radial reaction. Sources: Green &
// Zerna (incompressible closed form); compressible values by collocation, two orders agreeing to 1e-9. 0.3 % with four
// quadratic elements through the wall.
TEST(ThickCylinder, inflation_pressure_follows_the_neo_hookean_solution) {
  const std::vector<Inflation> cases{{"A .3", law_a(0.3), Formulation::displacement, 1.5, 0.372833982},
                                     {"B .3", law_b(0.3), Formulation::displacement, 1.5, 0.398725903},
                                     {"A .45", law_a(0.45), Formulation::mixed, 1.1, 0.127981790},
                                     {"A .45", law_a(0.45), Formulation::mixed, 1.5, 0.411563609, 2.308696858},
                                     {"B .45", law_b(0.45), Formulation::displacement, 1.5, 0.420784288, 2.304973245},
                                     {"A .499", law_a(0.499), Formulation::mixed, 1.25, 0.275528590},
                                     {"A .499", law_a(0.499), Formulation::mixed, 1.5, 0.427867088, 2.291658826},
                                     {"A .4999", law_a(0.4999), Formulation::mixed, 1.5, 0.428192218},
                                     {"B .499", law_b(0.499), Formulation::displacement, 1.5, 0.428079923}};
  for (const auto& c : cases) {
    const double height = 0.5;
    auto b = one_block({4, 2, rectangle(1, 2, 0, height), 1}, Symmetry::axisymmetric, c.material, c.formulation);
    fix(b.model, b.bottom(), 1);
    fix(b.model, b.top(), 1);
    hold(b.model, b.left(), [&](const Vec2&) { return Vec2(c.a - 1, 0); }, {0});
    const Solved solved = equilibrium(b.model, no_ground(), 4);
    ASSERT_TRUE(solved.converged()) << c.name << ": " << describe(solved.report.outcome);
    const double p = reaction(solved, b.left(), 0) / (2 * std::numbers::pi * c.a * height);
    const double outer = 2 + solved.u(b.right()[2]).x();
    std::printf("Thick cylinder %s a %.2f: p %.8f (%+.4f %%), b %.6f, %d iterations\n", c.name, c.a, p,
                100 * (p / c.pressure - 1), outer, solved.iterations);
    EXPECT_NEAR(p, c.pressure, 3e-3 * c.pressure) << c.name << " a " << c.a;
    if (c.outer > 0) {
      EXPECT_NEAR(outer, c.outer, 1e-4 * c.outer) << c.name;  // 0.01 %
    }
  }
}

/// Grading towards 1 (the free edge and the plate): cells shrink by a constant ratio.
double towards_end(double u, double ratio) { return (1 - std::pow(ratio, u)) / (1 - ratio); }

/// Upper half of a block bonded to plates; half-width 1, shape factor S = loaded area over free area.
Solved bonded_block(BlockModel& b, Symmetry symmetry, double S, const materials::Material& material, double squeeze,
                    int n, int steps, Formulation formulation = Formulation::mixed) {
  const double half_height = symmetry == Symmetry::axisymmetric ? 0.25 / S : 0.5 / S;
  const auto place = [=](double u, double v) { return Vec2{towards_end(u, 0.15), half_height * towards_end(v, 0.25)}; };
  const int across = std::max(n, static_cast<int>(std::lround(n * std::min(3.0, 0.5 / half_height))));
  b = one_block({across, n, place, 1}, symmetry, material, formulation);
  fix(b.model, b.bottom(), 1);
  fix(b.model, b.left(), 0);
  hold(b.model, b.top(), [&](const Vec2&) { return Vec2(0, -squeeze * half_height); });
  return equilibrium(b.model, no_ground(), steps);
}

// Converged solutions of an independent p-refined code (5 digits); Gent & Lindley 1959 is the textbook approximation.
// 1 % with eight elements through half the height.
TEST(BondedBlock, apparent_modulus_rises_with_shape_factor) {
  struct Row {
    Symmetry symmetry;
    double nu, S, ratio;
  };
  const auto disc = Symmetry::axisymmetric, strip = Symmetry::plane_strain;
  const std::vector<Row> rows{{disc, 0.3, 1, 1.210695},     {disc, 0.499, 0.5, 1.54026}, {disc, 0.499, 1, 2.91830},
                              {disc, 0.499, 3, 16.33350},   {disc, 0.4999, 3, 18.30513}, {strip, 0.3, 1, 1.216221},
                              {strip, 0.499, 0.5, 1.74348}, {strip, 0.499, 1, 2.64507},  {strip, 0.499, 3, 11.96398},
                              {strip, 0.4999, 3, 12.83795}};
  for (const auto& row : rows) {
    BlockModel b;
    const double strain = 1e-3, E = 2;
    const Solved solved = bonded_block(b, row.symmetry, row.S, materials::LinearIsotropic{E, row.nu}, strain, 8, 1);
    ASSERT_TRUE(solved.converged());
    const double area = row.symmetry == disc ? std::numbers::pi : 1.0;  // half a strip of width 2
    const double ratio = -reaction(solved, b.top(), 1) / (E * area * strain);
    std::printf("Bonded %s nu %.4f S %.1f: Ea/E %.5f of %.5f (%+.3f %%)\n", row.symmetry == disc ? "disc" : "strip",
                row.nu, row.S, ratio, row.ratio, 100 * (ratio / row.ratio - 1));
    EXPECT_NEAR(ratio, row.ratio, 0.01 * row.ratio);
  }
}

// Canary: on a coarse mesh (two elements through half the height) near incompressibility the displacement triangle is far
// stiffer than the mixed one; were it not, this test bed would be blind to locking.
TEST(BondedBlock, the_displacement_triangle_locks_where_the_mixed_one_does_not) {
  std::array<double, 2> error{};
  for (std::size_t k : {0U, 1U}) {
    BlockModel b;
    const Solved solved = bonded_block(b, Symmetry::axisymmetric, 3, materials::LinearIsotropic{2, 0.4999}, 0.01, 2, 1,
                                       k == 0 ? Formulation::mixed : Formulation::displacement);
    ASSERT_TRUE(solved.converged());
    error[k] = -reaction(solved, b.top(), 1) / (2 * std::numbers::pi * 0.01) / 18.30513 - 1;
  }
  std::printf("Bonded canary disc nu 0.4999 S 3, two elements: mixed %+.2f %%, displacement %+.2f %%\n", 100 * error[0],
              100 * error[1]);
  EXPECT_LT(std::abs(error[0]), 0.05);
  EXPECT_GT(std::abs(error[1]), 2 * std::abs(error[0]));
}

// Ten per cent compression: F / (mu A0) = 1.01 (A, nu = 0.499, S = 1), 0.514 (S = 0.5); known to 0.5 %, so 1.5 % here.
TEST(BondedBlock, ten_per_cent_compression_of_a_nearly_incompressible_disc) {
  for (const auto& [S, expected] : {std::pair{1.0, 1.01}, std::pair{0.5, 0.514}}) {
    BlockModel b;
    const Solved solved = bonded_block(b, Symmetry::axisymmetric, S, law_a(0.499), 0.1, 8, 4);
    ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
    const double force = -reaction(solved, b.top(), 1) / std::numbers::pi;
    std::printf("Bonded disc A .499 S %.1f, 10 %%: F/(mu A0) %.4f of %.3f, %d iterations\n", S, force, expected,
                solved.iterations);
    EXPECT_NEAR(force, expected, 0.015 * expected);
  }
}

}  // namespace
