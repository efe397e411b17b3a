// A rigid flat base of half-width a on an elastic half-plane, frictionless, loaded by P at the eccentricity e (Muskhelishvili 1953;
// Johnson 1985, section 2.8): in full contact up to e = a/2 the tilt is 4 P e / (pi E* a^2); beyond it the contact has the
// half-length c = 2 (a - e), tilt 2 P / (pi E* c). The body is a box 20 a to either side and below; in full contact an independent
// high-order code finds its tilt stiffness 1.001519 times the half-plane's.
#include "tests/support/bed.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

constexpr double a = 1, N = 20, E = 1000, nu = 0.3;

/// Cells shrink towards the edges x = +-a from both sides, first 0.02 a; 0 at the middle.
std::vector<double> half_stations() {
  std::vector<double> inside, outside;
  double h = 0.02;
  for (double x = a; x > 0.25; x -= h, h = std::min(1.25 * h, 0.12)) inside.push_back(x);
  inside.push_back(0.125);
  std::vector<double> all{0};
  all.insert(all.end(), inside.rbegin(), inside.rend());
  h = 0.02;
  for (double x = a + h; x < 0.75 * N; h *= 1.35, x += h) all.push_back(x);
  all.push_back(N);
  return all;
}

double along(const std::vector<double>& at, double k) {
  const auto i = std::min(at.size() - 2, static_cast<std::size_t>(k + 1e-9));
  return at[i] + (at[i + 1] - at[i]) * (k - static_cast<double>(i));
}

Bed half_plane() {
  const auto half = half_stations();
  const auto n = static_cast<int>(half.size()) - 1;
  std::vector<double> depth{0};
  for (double h = 0.02; depth.back() + h < 0.8 * N; h *= 1.35) depth.push_back(depth.back() + h);
  depth.back() = N;
  const auto m = static_cast<int>(depth.size()) - 1;
  const auto place = [=](double u, double v) {
    const double k = (2 * u - 1) * n;
    return Vec2{std::copysign(along(half, std::abs(k)), k), along(depth, v * m)};
  };
  Bed b{one_block({2 * n, m, place, 1}, Symmetry::plane_strain, materials::LinearIsotropic{E, nu},
                  Formulation::displacement),
        0};
  fix(b.block.model, b.block.top(), 0);
  fix(b.block.model, b.block.top(), 1);
  for (int node : b.block.bottom())
    if (std::abs(b.block.model.X[static_cast<std::size_t>(node)].x()) < a + 1e-9)
      b.block.model.ground.nodes.push_back(node);
  b.block.model.ground.friction.assign(b.block.model.ground.nodes.size(), 0.0);
  return b;
}

// The ground is the base: only the nodes under it are listed. P = 1 and the tilt are given, the eccentricity comes out: 1 % of a,
// and the loaded length to one edge at the receding end.
TEST(TiltedPunch, eccentricity_and_contact_length_on_a_half_plane_are_the_closed_form_s) {
  const double P = 1, Es = E / (1 - nu * nu);
  for (double e : {0.25, 0.5, 0.6, 0.75, 0.9}) {
    const double c = std::min(a, 2 * (a - e));
    const double tilt = e <= a / 2 ? 4 * P * e / (std::numbers::pi * Es * a * a) : 2 * P / (std::numbers::pi * Es * c);
    const Bed b = half_plane();
    Loading loading;
    loading.normal_force = P;
    loading.hold_offset = 0;
    loading.hold_pitch = -tilt;  // the ground falls towards +x
    const Solved s = stand(b.block.model, loading, 0.5 * tilt);
    ASSERT_TRUE(s.converged()) << describe(s.report.outcome);
    const GroundResult g = ground_result(s);
    double free_end = -a;  // the contact reaches from -a to here
    for (int node : b.block.model.ground.nodes)
      if (s.reactions[plane_dof(node, 0)] > 1e-6 * P)
        free_end = std::max(free_end, b.block.model.X[static_cast<std::size_t>(node)].x());
    std::printf("Tilted punch e %.2f: e %.5f (%+.3f %% of a), contact to %.4f of %.4f\n", e, -g.centre,
                100 * (-g.centre - e), free_end, -a + 2 * c);
    EXPECT_NEAR(g.force, P, 1e-8 * P);
    record({"tilted punch on a half-plane, eccentricity at given tilt", "Muskhelishvili 1953; Johnson 1985, 2.8",
            "edge .02 a, box 20 a"},
           text("e %g", e), e, -g.centre);
    EXPECT_NEAR(-g.centre, e, 0.01 * a);
    EXPECT_NEAR(free_end, -a + 2 * c, 0.13);
  }
}

}  // namespace
