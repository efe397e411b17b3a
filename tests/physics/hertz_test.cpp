// Hertz contact (Hertz 1882; Johnson 1985, ch. 4): a parabolic body pressed on the rigid ground, line and point.
// The body is 20 a wide and high; eight edges or more lie inside the contact. Peak pressure by hats, Eq. (44), and by the
// load's own p0: p0 = 2 P / (pi a), a^2 = 4 P R / (pi E*) (line); p0 = 3 P / (2 pi a^2), a^3 = 3 P R / (4 E*) (point).
#include "solver/contact_pressure.hpp"
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

constexpr double R = 10, a = 0.5, E = 1000, size = 20 * a;

/// Cell boundary k: `inside` equal cells up to 1.25 a, then `outside` cells growing geometrically up to `size`.
double cell_boundary(int k, int inside, int outside) {
  const double fine = 1.25 * a / inside;
  if (k <= inside) return k * fine;
  const auto reach = [&](double g, int n) { return 1.25 * a + fine * g * (std::pow(g, n) - 1) / (g - 1); };
  double low = 1.01, high = 3;
  for (int i = 0; i < 80; ++i) (reach(0.5 * (low + high), outside) < size ? low : high) = 0.5 * (low + high);
  return reach(low, k - inside);
}

/// [0, 1] -> [0, size], linear within each cell.
double graded(double u, int inside, int outside) {
  const double cells = u * (inside + outside);
  const int k = std::min(inside + outside - 1, static_cast<int>(cells + 1e-9));
  const double x0 = cell_boundary(k, inside, outside), x1 = cell_boundary(k + 1, inside, outside);
  return x0 + (x1 - x0) * (cells - k);
}

struct Hertz {
  double peak = 0, worst = 0, contact = 0;  ///< over p0; largest error for x < 0.9 a over p0; edge of contact over a
  double force = 0;
  Solved solved;
};

Hertz press(Symmetry symmetry, double nu, Formulation formulation, int inside) {
  const int outside = 12 + (inside > 10 ? 4 : 0);
  const auto place = [=](double u, double v) {
    const double x = graded(u, inside, outside), rise = x * x / (2 * R);
    const double y = graded(v, inside, outside);
    return Vec2{x, rise * (1 - y / size) + y};
  };
  auto b = one_block({inside + outside, inside + outside, place, 1}, symmetry, materials::LinearIsotropic{E, nu},
                     formulation, true);
  const bool ax = symmetry == Symmetry::axisymmetric;
  fix(b.model, b.top(), 0);
  fix(b.model, b.top(), 1);
  b.model.ground.joint = {0, 0};
  for (int node : b.bottom()) {
    const double x = b.model.X[static_cast<std::size_t>(node)].x();
    if (x > 3 * a || (ax && x == 0)) continue;
    b.model.ground.nodes.push_back(node);
    if (x == 0) b.model.supports.push_back({plane_dof(node, 1), 0});  // place along the ground
  }
  fix(b.model, b.left(), 0);
  if (!ax) {  // the ground node at x = 0: its unknown 0 is the gap, not u_x
    std::erase_if(b.model.supports, [&](const Support& s) { return s.dof == plane_dof(b.bottom().front(), 0); });
  }
  const double Es = E / (1 - nu * nu);
  const double P = ax ? 4.0 / 3 * Es * a * a * a / R : std::numbers::pi * Es * a * a / (4 * R);
  const double p0 = ax ? 2 * Es * a / (std::numbers::pi * R) : Es * a / (2 * R);
  Hertz out;
  const System system(b.model);
  Newton newton(system);
  out.solved.state = system.rest_state(0, 0);
  Loading loading;
  loading.hold_offset = loading.hold_pitch = 0;
  loading.hold_distance = -a * a / R / 2;
  out.solved.report = newton.solve(out.solved.state, loading);
  EXPECT_TRUE(out.solved.converged()) << describe(out.solved.report.outcome) << ", residual "
                                      << out.solved.report.residual;
  loading.hold_distance.reset();
  loading.normal_force = ax ? P : P / 2;
  out.solved.report = newton.solve(out.solved.state, loading);
  EXPECT_TRUE(out.solved.converged()) << describe(out.solved.report.outcome) << ", residual "
                                      << out.solved.report.residual;
  std::vector<double> force(b.model.X.size(), 0.0);
  for (const auto& c : system.contact_points()) {
    force[static_cast<std::size_t>(c.normal / 2)] = newton.reactions()[c.normal];
    out.force += newton.reactions()[c.normal];
  }
  EXPECT_NEAR(out.force, loading.normal_force, 1e-8 * loading.normal_force);
  const auto profile = pressure_profile(b.model.X, chain(b.bottom()), symmetry, force);
  for (std::size_t c = 0; c < profile.pressure.size(); ++c) {
    const double x = b.model.X[static_cast<std::size_t>(profile.node[c])].x();
    const double exact = x < a ? std::sqrt(1 - x * x / (a * a)) : 0;
    if (c == 0) out.peak = profile.pressure[c] / p0;
    if (x < 0.9 * a) out.worst = std::max(out.worst, std::abs(profile.pressure[c] / p0 - exact));
    if (profile.pressure[c] > 0.01 * p0) out.contact = x / a;
  }
  std::printf(
      "Hertz %s nu %.4f, %d edges in a: peak %+.3f %% of p0, x < 0.9a within %.3f %%, edge %.3f a, %d iterations\n",
      ax ? "sphere" : "line", nu, static_cast<int>(inside / 1.25), 100 * (out.peak - 1), 100 * out.worst, out.contact,
      out.solved.report.iterations);
  return out;
}

class HertzContact : public ::testing::TestWithParam<std::pair<double, Formulation>> {};

// The claim is 1 % at the peak. A hat mean differs from the local value by h^2 p'' / 12, 2 % of p0 at 0.9 a with h = a / 8:
// 3 % there. The edge of contact can only be known to one edge (1/8 a).
TEST_P(HertzContact, line_peak_pressure_is_within_one_per_cent) {
  const auto [nu, formulation] = GetParam();
  const Hertz h = press(Symmetry::plane_strain, nu, formulation, 10);
  EXPECT_NEAR(h.peak, 1, 0.01);
  EXPECT_LT(h.worst, 0.03);
  EXPECT_NEAR(h.contact, 1, 0.13);
}

TEST_P(HertzContact, sphere_peak_pressure_is_within_one_per_cent) {
  const auto [nu, formulation] = GetParam();
  const Hertz h = press(Symmetry::axisymmetric, nu, formulation, 10);
  EXPECT_NEAR(h.peak, 1, 0.01);
  EXPECT_LT(h.worst, 0.03);
  EXPECT_NEAR(h.contact, 1, 0.13);
}

// Not 0.4999: with this law F = I + H rounds the strain to 1e-16 and the force of the large outer elements to 1e-7 of the
// contact's, above the solver's tolerance. The contact patch test covers that ratio.
INSTANTIATE_TEST_SUITE_P(Ratios, HertzContact,
                         ::testing::Values(std::pair{0.3, Formulation::displacement},
                                           std::pair{0.49, Formulation::mixed}, std::pair{0.499, Formulation::mixed}));

// Patch means, Eq. (70): over a patch of width w centred on the line's middle the mean of Hertz' ellipse is closed.
TEST(HertzPatch, patch_mean_is_the_mean_of_the_ellipse) {
  mesh::EdgeSet set;
  std::vector<Vec2> X;
  std::vector<double> force;
  const int n = 80;
  for (int i = 0; i <= 2 * n; ++i) X.push_back({-2 + 4.0 * i / (2 * n), 0});
  force.assign(X.size(), 0.0);
  for (int i = 0; i < 2 * n; i += 2) {
    set.edges.push_back({i, i + 2, i + 1});
    set.breadth.push_back({2, 2, 2});
    const auto w = edge_weights(X, set.edges.back(), set.breadth.back(), Symmetry::plane_strain);
    const std::array<int, 3> id{i, i + 2, i + 1};
    for (std::size_t k = 0; k < 3; ++k) {
      const double x = X[static_cast<std::size_t>(id[k])].x();
      force[static_cast<std::size_t>(id[k])] += w[k] * std::sqrt(std::max(0.0, 1 - x * x));
    }
  }
  const auto profile = pressure_profile(X, set, Symmetry::plane_strain, force);
  const double h = 0.5;  // half-width of the patch
  const double mean = (h * std::sqrt(1 - h * h) + std::asin(h)) / (2 * h);
  EXPECT_NEAR(patch_mean(profile, 2, 2 * h), mean, 1e-3 * mean);
  const PatchPeak peak = peak_patch_mean(profile, 2 * h);
  EXPECT_NEAR(peak.mean, mean, 1e-3 * mean);
  EXPECT_NEAR(peak.centre, 2, 0.01);
  double total = 0;
  for (double f : force) total += f;
  EXPECT_NEAR(resultant(profile), total, 1e-12 * total);
  EXPECT_NEAR(loaded_area(profile, 1e-9), 2 * 2, 2 * 4.0 / n * 2);
}

}  // namespace
