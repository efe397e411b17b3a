// Tilting of a rigid base on the ground: no-tension bed in closed form, a stiff block up to its edge, a base with a joint
// and a cable, and Coulomb's block. Closed forms: statics; the bed as in any text on footings (no-tension Winkler).
#include "solver/contact_pressure.hpp"
#include "tests/support/bed.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

// Half-width a = 1, k = 100 per area; linear in P, so P = 0.001 keeps the squeeze far below the layer's thickness 0.01.
// Full contact e <= 1/3: alpha = 3 P e / (2 k a^3); beyond: alpha = 2 P / (k L^2), L = 3 (a - e). 0.5 %: the layer's shear
// spreads the edge by its thickness; 1 % at e = 0.9, where 30 % of the base is left.
TEST(Tilting, a_base_on_a_no_tension_bed_tilts_as_the_closed_form) {
  const double P = 1e-3;
  for (const auto& [e, alpha_1, p_max_1] :
       {std::tuple{0.2, 3e-3, 0.8}, std::tuple{1.0 / 3, 5e-3, 1.0}, std::tuple{0.5, 8.88888889e-3, 1.33333333},
        std::tuple{0.75, 0.0355555556, 2.66666667}, std::tuple{0.9, 0.222222222, 6.66666667}}) {
    const Bed b = bed(-1, 1, 0.01, 100, {0, 0.02}, 200, 0);
    Loading loading;
    loading.normal_force = P;
    loading.hold_offset = 0;
    loading.hold_pitch = -alpha_1 * P;  // the ground falls towards +x, so the load moves to -x
    const Solved solved = stand(b.block.model, loading, alpha_1 * P * 0.5);
    ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
    const GroundResult g = ground_result(solved);
    const auto profile =
        pressure_profile(b.block.model.X, chain(b.block.bottom()), Symmetry::plane_strain, contact_forces(solved));
    const double p_max = *std::max_element(profile.pressure.begin(), profile.pressure.end());
    const double share = e > 1.0 / 3 ? 1.5 * (1 - e) : 1;
    std::printf("No-tension bed e %.3f: centre %.5f, p_max %.5f of %.5f, loaded %.3f of %.3f\n", e, -g.centre,
                p_max / P, p_max_1, g.loaded, share);
    EXPECT_NEAR(g.force, P, 1e-8 * P);
    record({"base on a no-tension bed, eccentricity at given tilt", "statics, footings", "200 cells"},
           text("e %.3g", e), e, -g.centre);
    record({"base on a no-tension bed, edge pressure p_max/P (a corner's hat mean)", "statics, footings", "200 cells"},
           text("e %.3g", e), p_max_1, p_max / P);
    EXPECT_NEAR(-g.centre, e, 5e-3) << e;
    EXPECT_NEAR(g.loaded, share, 0.02);
    EXPECT_NEAR(p_max / P, p_max_1, (e > 0.8 ? 0.05 : 0.02) * p_max_1);  // the peak is a corner: half a cell is lost
    // Row of theta, Eq. (55): the reaction of the held pitch is the moment of the contact forces about the joint.
    EXPECT_NEAR(solved.reactions[ground_dof(b.block.model, 2)], g.moment, 1e-8 * P);
  }
}

/// A straight dead-tension cable with moment arm r about the joint, pulling B towards A straight below.
Cable dead_cable(const Vec2& joint, double r, double tension) {
  Cable cable;
  cable.joint = joint;
  cable.arm = {-r, 0};
  cable.insertion = joint + Vec2(-r, -1e6);
  cable.pulley = joint + Vec2(-r + 5, -5e5);
  cable.radius = 1e-3;
  cable.tension = tension;
  return cable;
}

// Base 0..130, joint at 75, arm 22, W = 6000, line stiffness k = 500: centre x_c = 75 + T r / W; the rear end unloads at
// x_c = 2 B / 3 (T = 3181.81818, rotation 1.42011834e-3); beyond, L = 3 (B - x_c), rotation 2 W / (k L^2), q = 2 W / L.
// Run with W, T and rotation 100 times smaller (all linear) so that the base hardly moves against its layer. 0.5 %.
TEST(Tilting, a_cable_about_a_joint_moves_the_load_forward_and_unloads_the_rear) {
  const double scale = 0.01, W = 6000 * scale;
  for (const auto& [T, x_c, rotation, q_toe] :
       {std::tuple{3181.81818, 86.6666667, 1.42011834e-3, 92.3076923},
        std::tuple{6818.18182, 100.0, 2.96296296e-3, 133.333333},
        std::tuple{10909.0909, 115.0, 1.18518519e-2, 266.666667}, std::tuple{13636.3636, 125.0, 0.106666667, 800.0}}) {
    const Bed b = bed(0, 130, 0.65, 500, {75, 20}, 260, 0);
    Loading loading;
    loading.normal_force = W;
    loading.hold_offset = 0;
    loading.cable = dead_cable({75, 20}, 22, T * scale);
    const Solved solved = stand(b.block.model, loading, W / 500 / 130);
    ASSERT_TRUE(solved.converged()) << "T " << T << ": " << describe(solved.report.outcome);
    const GroundResult g = ground_result(solved);
    const double theta = solved.state.q[ground_dof(b.block.model, 2)];
    const auto profile =
        pressure_profile(b.block.model.X, chain(b.block.bottom()), Symmetry::plane_strain, contact_forces(solved));
    const double q = *std::max_element(profile.pressure.begin(), profile.pressure.end());
    std::printf(
        "Joint and cable T %.1f: centre %.4f of %.4f, rotation %.5e of %.5e (%+.3f %%), edge load %.2f of %.2f\n", T,
        75 + g.centre, x_c, theta / scale, rotation, 100 * (theta / scale / rotation - 1), q / scale, q_toe);
    record({"joint and cable, centre of pressure", "statics", "260 cells"}, text("T %.0f", T), x_c, 75 + g.centre);
    record({"joint and cable, rotation", "no-tension line, statics", "260 cells"}, text("T %.0f", T), rotation,
           theta / scale);
    EXPECT_NEAR(75 + g.centre, x_c, 1e-4);  // statics: the moment balance is a row of the solver
    // The layer's shear spreads the edge by its thickness 0.65: felt where only 15 of 130 are left.
    EXPECT_NEAR(theta, rotation * scale, (x_c > 120 ? 1.5e-2 : 5e-3) * rotation * scale);
    EXPECT_NEAR(q, q_toe * scale, 2e-2 * q_toe * scale);
    // Both expressions of the joint moment, Eq. (55), agree to 1e-8.
    const double arm = -cable_path(*loading.cable, theta).dL;
    EXPECT_NEAR(W * g.centre, *loading.cable->tension * arm, 1e-8 * W * std::abs(g.centre));
  }
}

// The tilting block: under W with the load's moment M the resultant lies at M / W and can go no further than the edge.
// With a stiff layer a moment of 0.999 W a is carried (centre at 0.999 a), and 1.001 W a is refused: nothing holds it.
TEST(Tilting, a_stiff_block_tips_when_the_resultant_reaches_its_edge) {
  const double W = 1, a = 1;
  for (double share : {0.9, 0.999}) {
    const Bed b = bed(-a, a, 0.01, 1e7, {0, 0.02}, 100, 0);
    Loading loading;
    loading.normal_force = W;
    loading.hold_offset = 0;
    loading.cable = dead_cable({0, 0.02}, 0.5, share * W * a / 0.5);
    const Solved solved = stand(b.block.model, loading, 1e-7);
    ASSERT_TRUE(solved.converged()) << share << ": " << describe(solved.report.outcome);
    const GroundResult g = ground_result(solved);
    record({"a stiff block holds the moment up to its edge, centre of pressure", "statics", "100 cells"},
           text("M/W a %g", share), share * a, g.centre);
    EXPECT_NEAR(g.centre, share * a, 1e-3 * a);
    EXPECT_NEAR(g.force, W, 1e-8 * W);
  }
  const Bed b = bed(-a, a, 0.01, 1e7, {0, 0.02}, 100, 0);
  Loading loading;
  loading.normal_force = W;
  loading.hold_offset = 0;
  loading.cable = dead_cable({0, 0.02}, 0.5, 1.01 * W * a / 0.5);
  EXPECT_FALSE(stand(b.block.model, loading, 1e-7).converged());
}

// Coulomb 1785: a block on the ground holds a tangential force below mu N, and slides at mu N whatever the way. The bound
// is a fixed point accepted within 1e-3, Eq. (47).
TEST(Friction, a_block_holds_below_mu_n_and_slides_at_mu_n) {
  const double N = 2, mu = 0.4;
  const Bed b = bed(0, 10, 2, 5, {5, 4}, 10, mu);
  Loading loading;
  loading.normal_force = N;
  loading.hold_pitch = 0;
  loading.tangential_force = 0.95 * mu * N;
  Solved solved = stand(b.block.model, loading, N / 50);
  ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
  const Eigen::VectorXd inside = solved.system->internal_forces(solved.state, loading);
  double tangential = 0;
  for (int node : b.block.bottom()) tangential += inside[plane_dof(node, 0)];
  EXPECT_NEAR(std::abs(tangential), 0.95 * mu * N, 1e-8 * N);

  loading.tangential_force = 0;
  for (double way : {-0.2, 0.2, -0.4}) {  // stick reaches 0.03 mm; walked in steps, since friction has a history
    loading.hold_offset = 0;
    solved = stand(b.block.model, loading, N / 50);
    ASSERT_TRUE(solved.converged());
    Newton newton(*solved.system);
    for (int k = 1; k <= 20; ++k) {
      loading.hold_offset = way * k / 20;
      solved.report = newton.solve(solved.state, loading);
      ASSERT_TRUE(solved.converged()) << describe(solved.report.outcome);
    }
    solved.reactions = newton.reactions();
    const double held = solved.reactions[ground_dof(b.block.model, 1)];
    std::printf("Sliding block: offset %+.1f, tangential %.6f of %.6f\n", way, held, mu * N);
    record({"a sliding block feels mu N", "Coulomb 1785", "10 cells; bound settled to 1e-3, Eq. (47)"},
           text("to %+.1f mm", way), mu * N, std::abs(held));
    EXPECT_NEAR(std::abs(held), mu * N, 1.5e-3 * mu * N);
    EXPECT_GT(held * way, 0) << "friction must oppose the sliding";  // dPi/ds: work is spent on it
  }
  // Below the limit the same block follows the ground: no slip for a small way.
  loading.hold_offset = 1e-3;
  solved = stand(b.block.model, loading, N / 50);
  ASSERT_TRUE(solved.converged());
  for (const auto& c : solved.state.contact) EXPECT_EQ(c.tangential, Tangential::stick);
}

}  // namespace
