// Springs as bars and fasteners: statics of small chains of springs solved through the same system as any model.
#include "solver/interactions/spring.hpp"

#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/record.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

/// n points that move along x only, and the given springs.
Model points(int n, std::vector<Spring> springs) {
  Model model;
  for (int i = 0; i < n; ++i) {
    model.X.push_back({static_cast<double>(i), 0});
    model.supports.push_back({plane_dof(i, 1), 0});
  }
  model.springs.push_back({"springs", std::move(springs)});
  return model;
}

Spring between(int a, int b, const SpringLaw& law, double offset = 0) {
  Spring spring;
  spring.measure = {{plane_dof(b, 0), 1.0}, {plane_dof(a, 0), -1.0}};
  spring.offset = offset;
  spring.law = law;
  return spring;
}

// Three fasteners K at spacing s join two equal bars EA: with kap = K s / EA the end ones carry F (1 + kap) / (3 + 2 kap),
// the middle one F / (3 + 2 kap) (statics of springs). Nodes 0-2: upper bar, 3-5: lower bar; load at 0, held at 5.
TEST(Fasteners, three_in_a_row_share_a_shear_load_by_the_bars_stiffness) {
  for (double kap : {0.1, 1.0, 10.0}) {
    const double EA = 100, s = 2, K = kap * EA / s, F = 3;
    std::vector<Spring> springs;
    for (int i = 0; i < 2; ++i) {
      springs.push_back(between(i, i + 1, TwoSided{EA / s, 0}));
      springs.push_back(between(3 + i, 4 + i, TwoSided{EA / s, 0}));
    }
    for (int i = 0; i < 3; ++i) springs.push_back(between(i, 3 + i, TwoSided{K, 0}));
    Model model = points(6, springs);
    model.supports.push_back({plane_dof(5, 0), 0});
    model.dead_loads.push_back({plane_dof(0, 0), -F});
    const Solved solved = equilibrium(model, no_ground(), 1, tight());
    ASSERT_TRUE(solved.converged());
    std::array<double, 3> force{};
    for (std::size_t i = 0; i < 3; ++i) {
      const Spring& fastener = model.springs[0].springs[4 + i];
      force[i] = evaluate(fastener, elongation(fastener, solved.x), 1).force;
    }
    record_exact({"three fasteners share a shear load by the bars' stiffness", "statics of springs", "springs"},
                 text("kap %g", kap), std::abs(force[0] / (F * (1 + kap) / (3 + 2 * kap)) - 1), 1e-9);
    EXPECT_NEAR(force[0], F * (1 + kap) / (3 + 2 * kap), 1e-9 * F);
    EXPECT_NEAR(force[1], F / (3 + 2 * kap), 1e-9 * F);
    EXPECT_NEAR(force[2], F * (1 + kap) / (3 + 2 * kap), 1e-9 * F);
  }
}

// Opposed one-sided pair, k = 50 each, pretension 10: stiffness 100 until one goes slack at F = 20, then 50.
TEST(Fasteners, an_opposed_tensioned_pair_goes_slack_at_twice_its_pretension) {
  for (const auto& [F, u] : {std::pair{10.0, 0.1}, std::pair{20.0, 0.2}, std::pair{30.0, 0.4}}) {
    const double k = 50, offset = -10 / k;
    Model model = points(1, {});
    Spring right, left;
    right.measure = {{plane_dof(0, 0), 1.0}};
    left.measure = {{plane_dof(0, 0), -1.0}};
    right.offset = left.offset = offset;
    right.law = left.law = OneSided{k};
    model.springs[0].springs = {right, left};
    model.dead_loads.push_back({plane_dof(0, 0), F});
    const Solved solved = equilibrium(model, no_ground(), 1, tight());
    ASSERT_TRUE(solved.converged());
    EXPECT_NEAR(solved.x[0], u, 1e-9);
    record_exact({"an opposed tensioned pair goes slack at twice its pretension", "statics of springs", "springs"},
                 text("F %g", F), std::abs(solved.x[0] - u), 1e-9);
  }
}

// A bolt (preload N0, stiffness k) across a gap closed by a one-sided spring K: with no outer load the bolt's tension is
// the joint's pressure, N = N0 k_joint / (k + k_joint) as k j_n relaxes it; an outer pull F < N0 is shared k : K (any text
// on bolted joints), Eqs. (37), (38).
TEST(Fasteners, a_preloaded_bolt_and_its_joint_share_an_outer_pull_by_stiffness) {
  const double k = 20, K = 180, N0 = 10, F = 4;
  for (double outer : {0.0, F}) {
    Model model = points(2, {});
    Spring bolt = between(0, 1, TwoSided{k, 0});
    bolt.ramped_preload = N0;
    model.springs[0].springs = {bolt, between(0, 1, OneSided{K})};
    model.supports.push_back({plane_dof(0, 0), 0});
    model.dead_loads.push_back({plane_dof(1, 0), outer});
    const Solved solved = equilibrium(model, no_ground(), 1, tight());
    ASSERT_TRUE(solved.converged());
    const auto& s = model.springs[0].springs;
    const double tension = evaluate(s[0], elongation(s[0], solved.x), 1).force;
    const double pressing = -evaluate(s[1], elongation(s[1], solved.x), 1).force;
    const double squeeze = (N0 - outer) / (k + K);
    EXPECT_NEAR(pressing, K * squeeze, 1e-9 * N0);
    record_exact(
        {"a preloaded bolt and its joint share an outer pull", "bolted joints, any text; Eqs. (37), (38)", "springs"},
        text("pull %g", outer), std::abs(tension - (N0 - k * squeeze)) / N0, 1e-9);
    EXPECT_NEAR(tension, N0 - k * squeeze, 1e-9 * N0);
    EXPECT_NEAR(tension - pressing, outer, 1e-9 * N0);
  }
}

// A stick-slip spring bounded by its partner's force holds below mu N and gives mu N beyond.
TEST(Fasteners, a_frictional_spring_slips_at_mu_times_its_partner_s_force) {
  const double N = 8, mu = 0.3, kt = 100;
  for (double pull : {0.5 * mu * N, 2 * mu * N}) {
    Model model = points(2, {});
    Spring normal;
    normal.measure = {{plane_dof(0, 0), 1.0}};
    normal.law = TwoSided{1000, 0};
    Spring tangent;
    tangent.measure = {{plane_dof(1, 0), 1.0}};
    tangent.law = StickSlip{kt, 0};
    tangent.normal_partner = 0;
    tangent.friction = mu;
    Spring outer;  // a soft spring carries what friction does not
    outer.measure = {{plane_dof(1, 0), 1.0}};
    outer.law = TwoSided{1, 0};
    model.springs[0].springs = {normal, tangent, outer};
    model.dead_loads = {{plane_dof(0, 0), -N}, {plane_dof(1, 0), pull}};
    const Solved solved = equilibrium(model, no_ground());
    ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
    const double held = pull - solved.x[plane_dof(1, 0)];
    EXPECT_NEAR(held, pull < mu * N ? pull * kt / (kt + 1) : mu * N, 1.5e-3 * mu * N);
  }
}

// Two equal bars joined along their length, one pulled, the other held (Volkersen 1938): shear flow at the ends over its mean is
// (bL/2) coth(bL/2), b^2 = 2k/EA. Springs at every node of the facing lines by the line's weights; bars 0.1 high: 1 %.
TEST(Fasteners, a_line_of_springs_shares_a_pull_as_volkersen_says) {
  for (const auto& [bL, peak] : {std::pair{1.0, 1.08197671}, std::pair{2.0, 1.31303529}, std::pair{5.0, 2.53391827}}) {
    const double L = 10, h = 0.1, EA = 100, F = 1, k = bL * bL / (L * L) * EA / 2;
    mesh::PlaneMesh mesh;
    const Grid grid{80, 1, rectangle(0, L, 0, h), 1}, other{80, 1, rectangle(0, L, h, 2 * h), 1};
    const int first = add_grid(mesh, "pulled", grid), second = add_grid(mesh, "held", other);
    Model model;
    model.X = mesh.X;
    for (const auto& block : mesh.blocks)
      model.solids.push_back(make_solid_block(mesh, block, Symmetry::plane_strain,
                                              materials::LinearIsotropic{EA / h, 0}, Formulation::displacement));
    const auto low = row_nodes(grid, first, true), high = row_nodes(other, second, false);
    for (int node = 0; node < static_cast<int>(mesh.X.size()); ++node) fix(model, {node}, 1);
    fix(model, column_nodes(other, second, false), 0);
    add_traction(model, chain(column_nodes(grid, first, true)),
                 [&](const Vec2&, const Vec2&) { return Vec2(F / h, 0); });
    SpringGroup group{"joint", {}};
    std::vector<double> weight(low.size());
    for (std::size_t i = 0; i < low.size(); ++i) {
      weight[i] = L / 80 * (i % 2 == 1 ? 4 : i == 0 || i + 1 == low.size() ? 1 : 2) / 6.0;
      Spring spring;
      spring.measure = {{plane_dof(low[i], 0), 1.0}, {plane_dof(high[i], 0), -1.0}};
      spring.law = TwoSided{k * weight[i]};
      group.springs.push_back(spring);
    }
    model.springs = {group};
    const Solved s = equilibrium(model, no_ground());
    ASSERT_TRUE(s.converged());
    const double end = k * (s.u(low.back()).x() - s.u(high.back()).x());
    std::printf("Volkersen bL %.0f: end flow over mean %.5f of %.5f (%+.3f %%)\n", bL, end * L / F, peak,
                100 * (end * L / F / peak - 1));
    record({"line of springs between two bars, end flow over mean", "Volkersen 1938", "80 cells, bars h/L .01"},
           text("bL %g", bL), peak, end * L / F);
    EXPECT_NEAR(end * L / F, peak, 0.01 * peak);
  }
}

}  // namespace
