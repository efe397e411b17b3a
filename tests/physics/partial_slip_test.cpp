// Cattaneo 1938 and Mindlin 1949: a cylinder pressed on the ground and then pushed along it with Q < mu P slips in a ring and
// sticks within c = a sqrt(1 - Q / mu P); traction mu p0 [sqrt(1 - x^2/a^2) - (c/a) sqrt(1 - x^2/c^2)]. The form needs bodies
// whose shear does not part the surfaces: nu = 0.499 on a rigid ground. Hertz' size as in hertz_test.cpp.
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/hats.hpp"
#include "tests/support/record.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

constexpr double R = 200, a = 0.5, E = 1000, nu = 0.499, size = 20 * a, mu = 0.3;
constexpr int inside = 10, outside = 9;  // eight edges in a, nine beyond

double station(double k) {
  const double fine = a / 8, g = 1.5445;  // 1.25 a + fine g (g^9 - 1) / (g - 1) is about 20 a; scaled to it below
  if (k <= inside) return k * fine;
  const double whole = (std::pow(g, outside) - 1) / (g - 1);
  return inside * fine + (size - inside * fine) * (std::pow(g, k - inside) - 1) / (g - 1) / whole;
}

struct Rolled {
  BlockModel block;
  Loading pressed;
  State state;
  double P = std::numbers::pi * E / (1 - nu * nu) * a * a / (4 * R), p0 = E / (1 - nu * nu) * a / (2 * R);
};

/// The whole width, pressed without friction, then with friction from there on.
Rolled pressed() {
  Rolled r;
  constexpr int half = inside + outside;
  const auto place = [](double u, double v) {
    const double k = (2 * u - 1) * half, x = std::copysign(station(std::abs(k)), k), y = station(v * half);
    return Vec2{x, x * x / (2 * R) * (1 - y / size) + y};
  };
  r.block = one_block({2 * half, half, place, 1}, Symmetry::plane_strain, materials::LinearIsotropic{E, nu},
                      Formulation::mixed, true);
  Model& model = r.block.model;
  fix(model, r.block.top(), 0);
  fix(model, r.block.top(), 1);
  for (int node : r.block.bottom())
    if (std::abs(model.X[static_cast<std::size_t>(node)].x()) < 2 * a) model.ground.nodes.push_back(node);
  const System system(model);
  Newton newton(system);
  r.state = system.rest_state(0, 0);
  r.pressed.hold_offset = r.pressed.hold_pitch = 0;
  r.pressed.hold_distance = -a * a / R / 2;
  EXPECT_EQ(newton.solve(r.state, r.pressed).outcome, Outcome::converged);
  r.pressed.hold_distance.reset();
  r.pressed.normal_force = r.P;
  EXPECT_EQ(newton.solve(r.state, r.pressed).outcome, Outcome::converged);
  model.ground.friction.assign(model.ground.nodes.size(), mu);
  return r;
}

// c to one edge (a / 8); traction, as hat means, 3 % of mu p0; the push itself to 1e-3 (Eq. (47)).
TEST(CattaneoMindlin, a_pushed_cylinder_sticks_inside_and_slips_in_a_ring) {
  for (double share : {0.25, 0.5, 0.75}) {
    Rolled r = pressed();
    const Model& model = r.block.model;
    const System system(model);
    Newton newton(system);
    Loading loading = r.pressed;
    loading.hold_offset.reset();
    const int steps = 10;
    for (int k = 0; k <= steps; ++k) {
      loading.tangential_force = share * mu * r.P * k / steps;
      const SolveReport report = newton.solve(r.state, loading);
      ASSERT_EQ(report.outcome, Outcome::converged) << k << ": " << describe(report.outcome);
    }
    const Eigen::VectorXd f = system.internal_forces(r.state, loading);
    std::vector<double> along(model.X.size(), 0.0);
    double Q = 0, stuck = 0;
    for (const auto& c : model.ground.nodes) {
      along[static_cast<std::size_t>(c)] = f[plane_dof(c, 0)];
      Q += f[plane_dof(c, 0)];
    }
    for (std::size_t k = 0; k < r.state.contact.size(); ++k)
      if (r.state.contact[k].tangential == Tangential::stick)
        stuck = std::max(stuck, std::abs(model.X[static_cast<std::size_t>(model.ground.nodes[k])].x()));
    const double c = a * std::sqrt(1 - share);
    const auto line = chain(r.block.bottom());
    const auto root = [](double x, double w) { return std::abs(x) < w ? std::sqrt(1 - x * x / (w * w)) : 0.0; };
    const auto mean =
        hat_means(model.X, line, Symmetry::plane_strain, [&](double x) { return root(x, a) - c / a * root(x, c); });
    const auto profile = pressure_profile(model.X, line, Symmetry::plane_strain, along);
    double worst = 0, middle = 0;
    for (std::size_t i = 0; i < mean.size(); ++i) {
      const double q = profile.pressure[i] / (mu * r.p0);
      worst = std::max(worst, std::abs(q - mean[i]));
      if (std::abs(model.X[static_cast<std::size_t>(profile.node[i])].x()) < 1e-9) middle = q;
    }
    std::printf(
        "Cattaneo-Mindlin Q/(mu P) %.2f: stick to %.4f of %.4f a, q(0) %.4f of %.4f, traction within %.2f %% of mu "
        "p0\n",
        share, stuck / a, c / a, middle, 1 - c / a, 100 * worst);
    EXPECT_NEAR(std::abs(Q), share * mu * r.P, 1e-3 * mu * r.P);
    EXPECT_NEAR(stuck, c, 1.01 * a / 8);
    const Claim claim{"pushed cylinder, q(0)/mu p0", "Cattaneo 1938; Mindlin 1949", "8 edges in a"};
    record(claim, text("Q/mu P %g", share), 1 - c / a, middle);
    record_field({"pushed cylinder, traction anywhere", claim.source, claim.mesh}, text("Q/mu P %g", share),
                 100 * worst, "mu p0");
    EXPECT_NEAR(middle, 1 - c / a, 0.03);
    EXPECT_LT(worst, 0.05);
  }
}

// Pushed to Q and back to nothing: Mindlin & Deresiewicz 1953: the ring that slips back has half the range; what stays is
// q(Q) - 2 q at half of it, c' = a sqrt(1 - Q / 2 mu P).
TEST(CattaneoMindlin, a_push_taken_back_leaves_mindlin_and_deresiewicz_tractions) {
  const double share = 0.75;
  Rolled r = pressed();
  const Model& model = r.block.model;
  const System system(model);
  Newton newton(system);
  Loading loading = r.pressed;
  loading.hold_offset.reset();
  for (int k = 0; k <= 20; ++k) {  // from no push: points stick where they stand when friction first counts
    loading.tangential_force = share * mu * r.P * (k <= 10 ? k : 20 - k) / 10;
    const SolveReport report = newton.solve(r.state, loading);
    ASSERT_EQ(report.outcome, Outcome::converged) << k << ": " << describe(report.outcome);
  }
  const Eigen::VectorXd f = system.internal_forces(r.state, loading);
  std::vector<double> along(model.X.size(), 0.0);
  for (int node : model.ground.nodes) along[static_cast<std::size_t>(node)] = f[plane_dof(node, 0)];
  const auto line = chain(r.block.bottom());
  const auto root = [](double x, double w) { return std::abs(x) < w ? std::sqrt(1 - x * x / (w * w)) : 0.0; };
  const double c = std::sqrt(1 - share), back = std::sqrt(1 - share / 2);
  const auto mean = hat_means(model.X, line, Symmetry::plane_strain, [&](double x) {
    return root(x, a) - c * root(x, c * a) - 2 * (root(x, a) - back * root(x, back * a));
  });
  const auto profile = pressure_profile(model.X, line, Symmetry::plane_strain, along);
  double worst = 0, largest = 0;
  for (std::size_t i = 0; i < mean.size(); ++i) {
    worst = std::max(worst, std::abs(profile.pressure[i] / (mu * r.p0) - mean[i]));
    largest = std::max(largest, std::abs(mean[i]));
  }
  std::printf("Mindlin-Deresiewicz: traction within %.2f %% of mu p0 (largest left %.1f %%)\n", 100 * worst,
              100 * largest);
  record_field({"traction that a push taken back leaves", "Mindlin & Deresiewicz 1953", "8 edges in a"},
               text("largest left %.0f %%", 100 * largest), 100 * worst, "mu p0");
  EXPECT_GT(largest, 0.2);
  EXPECT_LT(worst, 0.06);
}

}  // namespace
