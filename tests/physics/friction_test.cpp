// Friction with partial slip on the rigid ground: a loaded block with zones that are open, slip and stick; a clamped bar
// that is pulled, let go and pulled again.
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/record.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

// A square 40 mm, E = 130 GPa, nu = 0.2, held in x on the far side x = 40, 50 MPa on top, F on the near side, mu = 1
// (Raous, Chabrand & Lebon 1988, data from memory). Displacement u_x [1e-5 m] of the base at x = 0, 1.25, 5, 7.5, 11.25 mm for
// F = 150 MPa: two independent codes agree within 0.1 %, and with the published 2.86 2.72 2.28 1.98 1.54. Open up to 3.3 mm,
// slip to 29.5, stick beyond. 1 % of the largest: bounds are settled to 1e-3, Eq. (47).
TEST(PartialSlip, a_block_pushed_along_the_ground_opens_slips_and_sticks_where_it_should) {
  const int n = 16;
  auto b = one_block({n, n, rectangle(0, 40, 0, 40), 1}, Symmetry::plane_strain, materials::LinearIsotropic{1.3e5, 0.2},
                     Formulation::displacement);
  b.model.ground.joint = {40, 0};
  b.model.ground.nodes = b.bottom();
  b.model.ground.friction.assign(b.bottom().size(), 1.0);
  auto far = b.right();
  b.model.supports.push_back({plane_dof(far.front(), 1), 0});
  far.erase(far.begin());
  fix(b.model, far, 0);
  add_pressure(b.model, chain(reversed(b.top())), 50);
  add_pressure(b.model, chain(reversed(b.left())), 150);
  const Solved s = equilibrium(b.model, no_ground(), 20, {}, 0, Start::touching);
  ASSERT_TRUE(s.converged()) << describe(s.report.outcome);
  const std::array<std::pair<int, double>, 5> expected{{{0, 2.860}, {1, 2.723}, {4, 2.286}, {6, 1.981}, {9, 1.541}}};
  for (const auto& [k, u] : expected) {
    const double x = 1.25 * k, ours = 100 * s.u(b.bottom()[static_cast<std::size_t>(k)]).x();
    std::printf("Pushed block x %.2f: u_x %.4f of %.4f (%+.2f %%)\n", x, ours, u, 100 * (ours / u - 1));
    record({"loaded block pushed along the ground, u_x of its base", "Raous, Chabrand & Lebon 1988, from memory; [N]",
            "16 x 16, 20 steps"},
           text("x %g", x), u, ours);
    EXPECT_NEAR(ours, u, 0.01 * 2.86) << x;
  }
  double open = 0, slip = 0;
  for (std::size_t k = 0; k < s.state.contact.size(); ++k) {
    const double x = b.model.X[static_cast<std::size_t>(b.bottom()[k])].x();
    if (x > 39) continue;  // held in x: it has no say
    if (!s.state.contact[k].closed) open = std::max(open, x);
    if (s.state.contact[k].closed && s.state.contact[k].tangential == Tangential::slip) slip = std::max(slip, x);
  }
  std::printf("Pushed block: open to %.2f of 3.3, slipping to %.2f of 29.5\n", open, slip);
  EXPECT_NEAR(open, 3.3, 2.5);  // one edge
  EXPECT_NEAR(slip, 29.5, 2.5);
}

// A bar clamped between frictional walls (half of it: its middle plane above, the ground below) and pulled by F: it slips over
// F / q_f from the pulled end, whose displacement is F^2 / (2 EA q_f); let go, F^2 / (4 EA q_f) stays; a full cycle
// dissipates (2/3) F^3 / (EA q_f) (shear lag with Coulomb friction, any text on pull-out). EA = 1000, q_f = 0.5. 2 %: the bar is 0.1 high.
TEST(PartialSlip, a_clamped_bar_slips_from_its_pulled_end_and_keeps_half_when_let_go) {
  const double h = 0.1, length = 6, p = 1, mu = 0.5, E = 1e4, F = 2;
  auto b = one_block({120, 1, rectangle(0, length, 0, h), 1}, Symmetry::plane_strain, materials::LinearIsotropic{E, 0},
                     Formulation::displacement);
  b.model.ground.nodes = b.bottom();
  b.model.ground.friction.assign(b.bottom().size(), mu);
  fix(b.model, b.top(), 1);
  Loading loading = no_ground();
  loading.hold_distance = -p * h / E;
  State state;
  double work = 0, u = 0, force = 0, before = 0;
  std::vector<std::pair<double, double>> way;  // force, displacement of the pulled end
  const int steps = 20;
  // To F, back to -F and to F again: the loop between is the steady one.
  for (int k = 0; k <= 5 * steps; ++k) {
    const double t = static_cast<double>(k) / steps;
    const double share = t <= 1 ? t : t <= 3 ? 2 - t : t - 4;
    Model model = b.model;
    add_traction(model, chain(b.right()), [&](const Vec2&, const Vec2&) { return Vec2(share * F / h, 0); });
    const System system(model);
    if (k == 0) state = system.rest_state(0, 0);
    Newton newton(system);
    const SolveReport report = newton.solve(state, loading);
    ASSERT_EQ(report.outcome, Outcome::converged) << "step " << k << ": " << describe(report.outcome);
    const Eigen::VectorXd x = system.displacements(state);
    before = u, u = 0;
    const auto end = b.right();
    for (std::size_t i = 0; i < end.size(); ++i) u += x[plane_dof(end[i], 0)] * (i == 1 ? 4 : 1) / 6.0;
    if (t > 1) work += 0.5 * (force + share * F) * (u - before);
    force = share * F;
    way.push_back({force, u});
  }
  const double unit = F * F / (1000 * 0.5);
  std::printf("Clamped bar: u(F) %.5e of %.5e, u(0) %.5e of %.5e, cycle %.5e of %.5e\n", way[steps].second, unit / 2,
              way[2 * steps].second, unit / 4, work, 2 * F * unit / 3);
  const Claim claim{"clamped bar pulled, let go, pulled: u, u left, energy of a cycle",
                    "shear lag with Coulomb friction", "120 x 1"};
  record(claim, "u(F)", unit / 2, way[steps].second);
  record(claim, "u(0)", unit / 4, way[2 * steps].second);
  record(claim, "cycle", 2 * F * unit / 3, work);
  EXPECT_NEAR(way[steps].second, unit / 2, 0.02 * unit / 2);
  EXPECT_NEAR(way[2 * steps].second, unit / 4, 0.02 * unit / 2);
  EXPECT_NEAR(way[5 * steps].second, unit / 2, 0.02 * unit / 2) << "a steady cycle returns";
  EXPECT_NEAR(work, 2 * F * unit / 3, 0.03 * 2 * F * unit / 3);
}

}  // namespace
