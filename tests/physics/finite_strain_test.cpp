// Finite strain: homogeneous states, the inflated thick cylinder, and rubber bonded between plates.
// Laws: A = isochoric split with kappa/2 (J - 1)^2, B = mu/2 (I1 - 3 - 2 ln J) + lambda/2 (ln J)^2; mu = 1.
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/record.hpp"
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
    const double nominal = reaction(solved, b.top(), 1) / area;
    EXPECT_NEAR(nominal, c.nominal, 1e-8 * std::abs(c.nominal)) << c.name;
    record_exact({"one element gives the law's nominal stress", "[N], roots of one variable", "1 x 1"},
                 "12 states of laws A and B", std::abs(nominal / c.nominal - 1), 1e-8);
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
    record({"thick neo-Hookean cylinder inflated, p/mu", "Green & Zerna 1968; [N]", "4 x 2"},
           text("%s a %g", c.name, c.a), c.pressure, p);
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
  std::vector<Row> rows;
  const std::array<double, 4> S{0.5, 1, 3, 5};
  const std::vector<std::pair<double, std::array<double, 8>>> table{
      {0.3, {1.118576, 1.210695, 1.299695, 1.318301, 1.155935, 1.216221, 1.299913, 1.318408}},
      {0.49, {1.50255, 2.63372, 8.18794, 11.18927, 1.68972, 2.44837, 7.25206, 10.59709}},
      {0.499, {1.54026, 2.91830, 16.33350, 36.20874, 1.74348, 2.64507, 11.96398, 27.49414}},
      {0.4999, {1.54423, 2.95147, 18.30513, 48.26454, 1.74915, 2.66705, 12.83795, 33.10000}}};
  for (const auto& [nu, ratios] : table)
    for (std::size_t i = 0; i < 8; ++i) rows.push_back({i < 4 ? disc : strip, nu, S[i % 4], ratios[i]});
  for (const auto& row : rows) {
    BlockModel b;
    const double strain = 1e-3, E = 2;
    const Solved solved = bonded_block(b, row.symmetry, row.S, materials::LinearIsotropic{E, row.nu}, strain, 8, 1);
    ASSERT_TRUE(solved.converged());
    const double area = row.symmetry == disc ? std::numbers::pi : 1.0;  // half a strip of width 2
    const double ratio = -reaction(solved, b.top(), 1) / (E * area * strain);
    std::printf("Bonded %s nu %.4f S %.1f: Ea/E %.5f of %.5f (%+.3f %%)\n", row.symmetry == disc ? "disc" : "strip",
                row.nu, row.S, ratio, row.ratio, 100 * (ratio / row.ratio - 1));
    record({"rubber bonded between plates, Ea/E, shape factors .5 to 5",
            "[N]; Gent & Lindley 1959 is the approximation", "8 over half the height"},
           text("%s nu %g S %g", row.symmetry == disc ? "disc" : "strip", row.nu, row.S), row.ratio, ratio);
    EXPECT_NEAR(ratio, row.ratio, 0.01 * row.ratio);
  }
}

// Shape factor 10, beyond the converged table: the pressure solution of thin bonded pads with the bulk's compression (Chalhoub & Kelly
// 1990): disc K [1 - 2 I1(x) / (x I0(x))] + E, x = S sqrt(48 mu / K); strip K (1 - tanh(b) / b) + 4 mu, b = S sqrt(12 mu / K). Against
// the table it is +1.8 % at S = 5 and falls with S: 2.5 %.
TEST(BondedBlock, a_thin_pad_is_as_stiff_as_its_pressure_solution) {
  const double S = 10, E = 2, nu = 0.499, mu = E / 2 / (1 + nu), K = E / 3 / (1 - 2 * nu);
  const double x = S * std::sqrt(48 * mu / K), b = S * std::sqrt(12 * mu / K);
  const double disc = K * (1 - 2 * std::cyl_bessel_i(1, x) / (x * std::cyl_bessel_i(0, x))) + E;
  const double strip = K * (1 - std::tanh(b) / b) + 4 * mu;
  for (const auto& [symmetry, area, modulus] :
       {std::tuple{Symmetry::axisymmetric, std::numbers::pi, disc}, std::tuple{Symmetry::plane_strain, 1.0, strip}}) {
    BlockModel block;
    const Solved solved = bonded_block(block, symmetry, S, materials::LinearIsotropic{E, nu}, 1e-3, 8, 1);
    ASSERT_TRUE(solved.converged());
    const double ours = -reaction(solved, block.top(), 1) / (area * 1e-3);
    std::printf("Bonded %s nu 0.499 S 10: Ea/E %.4f, thin-pad solution %.4f (%+.2f %%)\n",
                symmetry == Symmetry::axisymmetric ? "disc" : "strip", ours / E, modulus / E,
                100 * (ours / modulus - 1));
    record(
        {"thin bonded pad, Ea/E, shape factor 10", "Chalhoub & Kelly 1990, an approximation", "8 over half the height"},
        symmetry == Symmetry::axisymmetric ? "disc nu .499" : "strip nu .499", modulus / E, ours / E);
    EXPECT_NEAR(ours, modulus, 0.025 * modulus);
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

// Ten per cent compression: F / (mu A0), laws A and B; known to 0.5 %, so 1.5 % here.
TEST(BondedBlock, ten_per_cent_compression_of_a_disc_at_finite_strain) {
  const auto mixed = Formulation::mixed, disp = Formulation::displacement;
  for (const auto& [S, expected, law, formulation] : {std::tuple{1.0, 1.01, materials::Material(law_a(0.499)), mixed},
                                                      std::tuple{0.5, 0.514, materials::Material(law_a(0.499)), mixed},
                                                      std::tuple{0.5, 0.442, materials::Material(law_a(0.45)), mixed},
                                                      std::tuple{1.0, 0.623, materials::Material(law_a(0.45)), mixed},
                                                      std::tuple{2.0, 0.835, materials::Material(law_a(0.45)), mixed},
                                                      std::tuple{0.5, 0.436, materials::Material(law_b(0.45)), disp},
                                                      std::tuple{1.0, 0.622, materials::Material(law_b(0.45)), disp}}) {
    BlockModel b;
    const Solved solved = bonded_block(b, Symmetry::axisymmetric, S, law, 0.1, 8, 4, formulation);
    ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
    const double force = -reaction(solved, b.top(), 1) / std::numbers::pi;
    std::printf("Bonded disc S %.1f, 10 %%: F/(mu A0) %.4f of %.3f, %d iterations\n", S, force, expected,
                solved.iterations);
    record({"bonded disc squeezed by 10 %, F/(mu A0)", "[N], known to .5 %", "8 over half the height"}, text("S %g", S),
           expected, force);
    EXPECT_NEAR(force, expected, 0.015 * expected);
  }
}

}  // namespace
