// The capstan (Euler 1769): a thin strip drawn over a drum carries T(theta) = T2 exp(-mu theta) and presses on it by T(theta) / R.
#include "tests/support/nested_rings.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

// Strip t / R = 0.01 laid in its shape on a quarter of a drum that is rigid in effect, one end held, 40 cells. It is first drawn
// tight without friction by T0, so that it lies on the drum everywhere; then friction counts and the other end is pulled by T2.
// Below T0 exp(mu pi/2) slip reaches back to where T2 exp(-mu s) = T0 and the held end feels nothing of it; beyond, T2 / T1 is
// exp(mu pi/2). T2 / T1 1.5 %; T / R 3 % away from the ends, where bending is felt.
TEST(Capstan, tension_falls_by_e_to_the_mu_theta_and_the_drum_feels_t_over_r) {
  const double R = 1, t = 0.01, T0 = 1;
  for (const auto& [mu, ratio] :
       {std::pair{0.1, 1.170088787}, std::pair{0.2, 1.369107771}, std::pair{0.3, 1.601977651}}) {
    Fit f = rings({1, 40, polar(R - 0.05, R), 1}, {1, 40, polar(R, R + t), 1}, Symmetry::plane_strain,
                  {materials::LinearIsotropic{1e9, 0}, Formulation::displacement},
                  {materials::LinearIsotropic{1e5, 0}, Formulation::displacement}, 0);
    for (int i = 0; i < f.first_outer; ++i)  // the whole drum stands still
      for (int c = 0; c < 2; ++c) f.model.supports.push_back({plane_dof(i, c), 0});
    const auto end = row_nodes(f.outer, f.first_outer, false), pulled = row_nodes(f.outer, f.first_outer, true);
    f.model.supports.push_back({plane_dof(end.front(), 1), 0});
    fix(f.model, {end.begin() + 1, end.end()}, 1);
    const auto pull = [&](double T2) {
      Model model = f.model;
      add_traction(model, chain(reversed(pulled)), [&](const Vec2&, const Vec2&) { return Vec2(-T2 / t, 0); });
      return model;
    };
    Solved s = equilibrium(pull(T0), no_ground(), 1, {}, 0, Start::touching);
    ASSERT_TRUE(s.converged()) << describe(s.report.outcome);
    f.model.pairs[0].friction = mu;
    const auto tension = [&] {
      const Eigen::VectorXd forces = s.system->region_forces(s.state, "outer");
      double T1 = 0;
      for (int node : end) T1 -= forces[plane_dof(node, 1)];
      return T1;
    };
    const int steps = 40;
    double T2 = T0, half_way = 0;
    for (int k = 0; k <= steps; ++k) {
      T2 = T0 * (1 + (1.1 * ratio - 1) * k / steps);
      s.system = std::make_shared<System>(pull(T2));
      Newton newton(*s.system);
      s.report = newton.solve(s.state, no_ground());
      ASSERT_TRUE(s.converged()) << "step " << k << ": " << describe(s.report.outcome);
      s.reactions = newton.reactions();
      if (T2 < 0.8 * ratio + 0.2) half_way = tension();
    }
    const double T1 = tension();
    const auto profile = pressure_profile(f.model.X, chain(f.slave()), Symmetry::plane_strain, contact_forces(s));
    double worst = 0;
    for (std::size_t c = 4; c + 4 < profile.pressure.size(); ++c) {
      const Vec2& X = f.model.X[static_cast<std::size_t>(profile.node[c])];
      worst = std::max(worst, std::abs(profile.pressure[c] * R / (T1 * std::exp(mu * std::atan2(X.y(), X.x()))) - 1));
    }
    std::printf(
        "Capstan mu %.1f: T2/T1 %.5f of %.5f (%+.3f %%), pressure within %.2f %% of T/R; before full slip the held end "
        "%.5f\n",
        mu, T2 / T1, ratio, 100 * (T2 / T1 / ratio - 1), 100 * worst, half_way);
    EXPECT_NEAR(half_way, T0, 0.015 * T0);
    const Claim claim{"capstan over 90 degrees, T2/T1", "Euler 1769", "40 cells"};
    record(claim, text("mu %g", mu), ratio, T2 / T1);
    record_field({"the drum feels T/R", claim.source, claim.mesh}, text("mu %g", mu), 100 * worst, "T/R");
    EXPECT_NEAR(T2 / T1, ratio, 0.015 * ratio);
    EXPECT_LT(worst, 0.03);
  }
}

}  // namespace
