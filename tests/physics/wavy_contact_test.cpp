// Wavy surfaces in contact and sinusoidal loads: fields that a finite block carries exactly, with no half-space to cut off.
// Contact of a wave Delta (1 - cos(2 pi x / L)): Westergaard 1939; Johnson 1985, section 13.2; p* = pi E* Delta / L,
// mean p_m = p* sin^2(pi a / L), p(x) = 2 p_m cos(pi x / L) / sin^2(pi a / L) sqrt(sin^2(pi a / L) - sin^2(pi x / L)).
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/hats.hpp"
#include "tests/support/record.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

constexpr double pi = std::numbers::pi, E = 1000, L = 2, Delta = 1e-3, depth = 2;

double wave(double x) { return Delta * (1 - std::cos(2 * pi * x / L)); }

/// p(x) over p*, where the contact's half-width is a.
double westergaard(double x, double a) {
  const double sa = std::sin(pi * a / L), sx = std::sin(pi * x / L);
  return x < a ? 2 * std::cos(pi * x / L) * std::sqrt(sa * sa - sx * sx) : 0;
}

Formulation suited(double nu) { return nu > 0.45 ? Formulation::mixed : Formulation::displacement; }

/// Heights graded towards the surface at v = 0.
double graded(double v) { return depth * (std::exp(2.2 * v) - 1) / (std::exp(2.2) - 1); }

struct Waves {
  double peak = 0, worst = 0, edge = 0;  ///< relative to the exact hat mean at x = 0; for x < 0.9 a over p(0); mm
};

Waves read(const Solved& solved, const std::vector<int>& nodes, double a, double p_star) {
  const auto& X = solved.system->model().X;
  const auto line = chain(nodes);
  const auto profile = pressure_profile(X, line, Symmetry::plane_strain, contact_forces(solved));
  const auto mean = hat_means(X, line, Symmetry::plane_strain, [a](double x) { return westergaard(x, a); });
  Waves w;
  for (std::size_t c = 0; c < profile.pressure.size(); ++c) {
    const double x = X[static_cast<std::size_t>(profile.node[c])].x(), p = profile.pressure[c] / p_star;
    if (c == 0) w.peak = p / mean[0] - 1;
    if (x < 0.9 * a) w.worst = std::max(w.worst, std::abs(p - mean[c]) / mean[0]);
    if (p > 0.01 * mean[0]) w.edge = x;
  }
  return w;
}

/// A wavy block on the rigid ground under the mean pressure p_m, n edges to a half wave.
Waves on_ground(int n, double nu, double mean_share) {
  const auto place = [](double u, double v) { return Vec2{u, wave(u) * (1 - graded(v) / depth) + graded(v)}; };
  auto b = one_block({n, n, place, 1}, Symmetry::plane_strain, materials::LinearIsotropic{E, nu}, suited(nu), true);
  b.model.ground.nodes = b.bottom();
  for (int node : {b.bottom().front(), b.bottom().back()})
    b.model.supports.push_back({plane_dof(node, 1), b.model.X[static_cast<std::size_t>(node)].x()});
  auto sides = b.left();
  for (int node : b.right()) sides.push_back(node);
  for (int node : sides)
    if (b.model.X[static_cast<std::size_t>(node)].y() > 2.5 * Delta)
      b.model.supports.push_back({plane_dof(node, 0), 0});
  fix(b.model, b.top(), 1);
  const double p_star = pi * E / (1 - nu * nu) * Delta / L, P = mean_share * p_star * L / 2;
  Solved s;
  s.system = std::make_shared<System>(b.model);
  Newton newton(*s.system);
  s.state = s.system->rest_state(0, 0);
  Loading loading;
  loading.hold_offset = loading.hold_pitch = 0;
  loading.hold_distance = -0.2 * Delta;
  s.report = newton.solve(s.state, loading);
  EXPECT_TRUE(s.converged()) << describe(s.report.outcome);
  loading.hold_distance.reset();
  loading.normal_force = P;
  s.report = newton.solve(s.state, loading);
  EXPECT_TRUE(s.converged()) << describe(s.report.outcome);
  s.reactions = newton.reactions();
  double force = 0;
  for (double f : contact_forces(s)) force += f;
  EXPECT_NEAR(force, P, 1e-8 * P);
  return read(s, b.bottom(), L / pi * std::asin(std::sqrt(mean_share)), p_star);
}

// Three loads (half-widths a = 0.2048, 0.5, 2/3 of L/2 = 1) and three meshes. The square-root edge limits the order of
// pressure to about one. Peak 0.5 %, inside 1 % at 32 edges a half wave; the contact's edge to one mesh edge.
TEST(WavyContact, pressure_on_the_rigid_ground_is_westergaard_s) {
  for (const auto& [nu, share] :
       {std::pair{0.3, 0.1}, std::pair{0.3, 0.5}, std::pair{0.3, 0.75}, std::pair{0.49, 0.5}}) {
    std::array<Waves, 3> w;
    const double a = L / pi * std::asin(std::sqrt(share));
    for (std::size_t k = 0; k < 3; ++k) {
      const int n = 8 << k;
      w[k] = on_ground(n, nu, share);
      std::printf(
          "Wave on ground nu %.2f, p_m/p* %.2f, %d edges: peak %+.3f %%, x < 0.9a within %.3f %%, edge %.4f of %.4f\n",
          nu, share, n, 100 * w[k].peak, 100 * w[k].worst, w[k].edge, a);
      EXPECT_NEAR(w[k].edge, a, 1.01 / n);
    }
    const std::string of = text("nu %g p_m/p* %g", nu, share);
    record_field({"wave on the ground, peak", "Westergaard 1939", "32 edges a half wave", 0.5}, of, 100 * w[2].peak,
                 "p(0)");
    record_field({"wave on the ground, inside .9 a", "Westergaard 1939", "32 edges a half wave", 1}, of,
                 100 * w[2].worst, "p(0)");
    EXPECT_LT(std::abs(w[2].peak), 5e-3);
    EXPECT_LT(w[2].worst, 1e-2);
    EXPECT_LT(w[2].worst, w[0].worst);
  }
}

// Two equal blocks across a duplicated line that starts with the wave's gap: half of E*, so half of every pressure.
TEST(WavyContact, two_equal_blocks_press_half_as_hard_across_a_line_with_a_gap) {
  const int n = 16;
  const double nu = 0.3, share = 0.5, p_star = pi * E / (1 - nu * nu) * Delta / L;
  mesh::PlaneMesh mesh;
  const Grid lower{n, n, [](double u, double v) { return Vec2{u, -graded(1 - v)}; }, 1};
  const Grid upper{n, n, [](double u, double v) { return Vec2{u, wave(u) * (1 - graded(v) / depth) + graded(v)}; }, 1};
  const int first_lower = add_grid(mesh, "lower", lower), first_upper = add_grid(mesh, "upper", upper, true);
  Model model;
  model.X = mesh.X;
  for (const auto& block : mesh.blocks)
    model.solids.push_back(make_solid_block(mesh, block, Symmetry::plane_strain, materials::LinearIsotropic{E, nu},
                                            Formulation::displacement));
  PairContact pair;
  pair.name = "wave";
  pair.slave = row_nodes(upper, first_upper, false);
  pair.master = row_nodes(lower, first_lower, true);
  pair.normal.assign(pair.slave.size(), Vec2(0, 1));
  for (int node : pair.slave) pair.gap.push_back(mesh.X[static_cast<std::size_t>(node)].y());
  pair.interference.assign(pair.slave.size(), 0);
  for (std::size_t i : {std::size_t{0}, pair.slave.size() - 1})
    model.supports.push_back({plane_dof(pair.slave[i], 1), 0});
  model.pairs.push_back(pair);
  fix(model, row_nodes(lower, first_lower, false), 1);
  for (const auto& [grid, first] : {std::pair{&lower, first_lower}, std::pair{&upper, first_upper}})
    for (bool right : {false, true}) {
      auto side = column_nodes(*grid, first, right);
      if (first == first_upper) side.erase(side.begin());  // its contact node is held by its jump
      fix(model, side, 0);
    }
  // Half the pressures of the rigid wave at the same contact width: a mean of share p* / 2.
  add_pressure(model, chain(reversed(row_nodes(upper, first_upper, true))), share * p_star / 2);
  const Solved s = equilibrium(model, no_ground(), 1, {}, 0, Start::touching);
  ASSERT_TRUE(s.converged()) << describe(s.report.outcome);
  const Waves w = read(s, row_nodes(upper, first_upper, false), 0.5, p_star / 2);
  std::printf("Two wavy blocks: peak %+.3f %%, x < 0.9a within %.3f %%, edge %.4f of 0.5\n", 100 * w.peak,
              100 * w.worst, w.edge);
  EXPECT_LT(std::abs(w.peak), 5e-3);
  const Claim claim{"two wavy blocks across a line with a gap", "Westergaard 1939", "16 edges a half wave"};
  record_field(claim, "peak", 100 * w.peak, "p(0)");
  record_field(claim, "inside .9 a", 100 * w.worst, "p(0)");
  EXPECT_LT(w.worst, 2e-2);  // 8 edges in a half-width of 0.5
  EXPECT_NEAR(w.edge, 0.5, 1.01 / n);
}

// A layer 0 < y < h between x = 0 and 1 (u_x = 0 on both) under q cos(pi x): amplitude of the surface on a frictionless base
// (2 q / (E* k)) (cosh 2kh - 1) / (sinh 2kh + 2kh), bonded (2 q / (E* k)) (2K sinh 2kh - 4kh) / (2K cosh 2kh + 4k^2h^2 + 1 + K^2),
// K = 3 - 4 nu, k = pi: Airy's function, as in Johnson 1985. 0.1 % (nu 0.3), 0.3 % (0.4999) on 8 x 4.
TEST(SinusoidalLoad, a_layer_sinks_as_its_airy_function_says) {
  for (double nu : {0.3, 0.4999})
    for (double h : {0.25, 0.5, 1.0})
      for (bool bonded : {false, true}) {
        auto b = one_block({8, h > 0.6 ? 6 : 4,
                            [h](double u, double v) {
                              return Vec2{u, h * v};
                            },
                            1},
                           Symmetry::plane_strain, materials::LinearIsotropic{E, nu}, suited(nu));
        fix(b.model, b.bottom(), 1);
        if (bonded) fix(b.model, b.bottom(), 0);
        fix(b.model, b.left(), 0);
        fix(b.model, b.right(), 0);
        add_traction(b.model, chain(reversed(b.top())),
                     [](const Vec2& X, const Vec2&) { return Vec2(0, -std::cos(pi * X.x())); });
        const Solved s = equilibrium(b.model, no_ground());
        ASSERT_TRUE(s.converged());
        // Fourier amplitude of the surface, by Simpson over its edges.
        double amplitude = 0;
        const auto top = b.top();
        for (std::size_t i = 0; i < top.size(); ++i) {
          const double w = (i == 0 || i + 1 == top.size() ? 1 : i % 2 == 1 ? 4 : 2) / 48.0;
          amplitude -= 2 * w * s.u(top[i]).y() * std::cos(pi * b.model.X[static_cast<std::size_t>(top[i])].x());
        }
        const double kh = pi * h, K = 3 - 4 * nu, unit = 2 * (1 - nu * nu) / (E * pi);
        const double exact =
            bonded ? unit * (2 * K * std::sinh(2 * kh) - 4 * kh) / (2 * K * std::cosh(2 * kh) + 4 * kh * kh + 1 + K * K)
                   : unit * (std::cosh(2 * kh) - 1) / (std::sinh(2 * kh) + 2 * kh);
        std::printf("Sinusoidal load nu %.4f h %.2f %s: %.6e (%+.3f %%)\n", nu, h, bonded ? "bonded" : "sliding",
                    amplitude, 100 * (amplitude / exact - 1));
        record({"layer under a sinusoidal load, amplitude", "Airy; Johnson 1985", "8 x 4, 8 x 6"},
               text("nu %g h %g %s", nu, h, bonded ? "bonded" : "sliding"), exact, amplitude);
        EXPECT_NEAR(amplitude, exact, (nu > 0.4 ? 3e-3 : 1e-3) * exact);
      }
}

}  // namespace
