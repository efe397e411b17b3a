// The whole stance: independence of the step size, the same balance as the single phase, statics at every step, and the baseline
// trot beside published moments and forces.
#include <cmath>

#include "scenarios/stance.hpp"
#include "scenarios/stance_events.hpp"
#include "tests/support/shod_foot.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;
using scenarios::Posture;
using scenarios::StanceSeries;

constexpr double kMass = 500;

Case trot(int steps, std::vector<Phase> phases) {
  Case c = open_steel(ModelKind::sagittal, 0.35, std::move(phases));
  c.horse.mass = kMass;
  c.load.gait = scenarios::Gait::trot;
  c.load.steps = steps;
  return c;
}

const Feet& eleven() {
  static const Feet feet({trot(11, {Phase::midstance, Phase::stance})});
  return feet;
}

const StanceSeries& series_of(const Feet& feet) { return *feet.phase("open steel", Phase::stance).solution.series; }

// Both balance the same load at the same share (k = 5 of 11 is 50 %), one from the last step and one from the fitted foot.
// Tolerance: the baseline's tension is iterated to 1e-9, Newton stops at 1e-9 of the force; conditioning costs the rest.
TEST(Stance, its_middle_step_is_the_midstance) {
  const StanceSeries& series = series_of(eleven());
  ASSERT_EQ(series.steps.size(), 11U) << series.ended;
  const auto& middle = series.steps[5];
  EXPECT_NEAR(middle.share, 0.5, 1e-12);
  for (const char* key : {"ddft_moment", "navicular_force", "cop", "corium_pressure_peak", "ground_pressure_heel"}) {
    const double alone = eleven().value("open steel", Phase::midstance, key);
    // Where the ground's tangential force enters is settled to 1e-3 of it only, Eq. (80): 1e-5 of the normal force here.
    const bool is_of_the_ground = std::string_view(key).starts_with("ground_");
    EXPECT_NEAR(middle.values.at(key), alone, (is_of_the_ground ? 2e-5 : 1e-6) * std::abs(alone)) << key;
  }
}

// Common practice, no source: a quasi-static path whose result depends on its steps is not converged.
TEST(Stance, twice_as_many_steps_change_no_step_by_1e_3) {
  static const Feet feet({trot(21, {Phase::stance})});
  const StanceSeries &coarse = series_of(eleven()), &fine = series_of(feet);
  ASSERT_EQ(fine.steps.size(), 21U) << fine.ended;
  for (const char* key : {"ddft_moment", "navicular_force", "cop", "corium_pressure_peak", "ground_pressure_heel"}) {
    const auto a = scenarios::values_of(coarse, key), b = scenarios::values_of(fine, key);
    double size = 0;
    for (double v : a) size = std::max(size, std::abs(v));
    for (std::size_t k = 0; k < a.size(); ++k) EXPECT_NEAR(a[k], b[2 * k], 1e-3 * size) << key << " at step " << k;
  }
  const auto p = scenarios::stance_peaks(coarse), q = scenarios::stance_peaks(fine);
  for (const char* key : {"ddft_moment", "navicular_force", "ddft_peak_at", "heel_off_at", "tendon_taut_at"})
    std::printf("Stance: %s %.4f in 11 steps, %.4f in 21\n", key, p.at(key), q.at(key));
}

// Statics: theory.md, Eqs. (54) and (68); the bounds of the single phases.
TEST(Stance, every_step_balances_force_and_moment) {
  for (const auto& step : series_of(eleven()).steps) {
    EXPECT_LT(step.balance.force, 1e-8) << step.share;
    EXPECT_LT(step.balance.moment, 1e-8) << step.share;
    EXPECT_LT(step.balance.bone_ledger, 5e-3) << step.share;
  }
}

// Eliashar et al. 2002: peak moment 0.175 +- 0.03 N m/kg, navicular force 6.14 +- 1.47 N/kg at the trot. The reference centre of
// pressure was set by hand to meet them (docs/reference-foot.md), so this holds the wiring, not the physics.
TEST(Stance, baseline_trot_peaks_lie_within_published_spread) {
  const auto value = [](const char* key) { return eleven().value("open steel", Phase::stance, key); };
  std::printf("Stance: trot peak moment %.4f N m/kg at %.1f %%, navicular %.2f N/kg at %.1f %%, heel-off %.1f %%\n",
              value("ddft_moment_per_mass"), value("ddft_peak_at"), value("navicular_force_per_mass"),
              value("navicular_peak_at"), value("heel_off_at"));
  EXPECT_NEAR(value("ddft_moment_per_mass"), 0.175, 0.03);
  EXPECT_NEAR(value("navicular_force_per_mass"), 6.14, 1.47);
  // From memory: the peak comes in the second half of stance, before the heel leaves.
  EXPECT_GT(value("ddft_peak_at"), 50);
  EXPECT_LT(value("ddft_peak_at"), value("heel_off_at"));
}

// Early in the trot's stance the reference centre of pressure would need a pushing tendon: it is slack, then comes taut.
TEST(Stance, tendon_is_slack_first_and_events_come_in_order) {
  const StanceSeries& series = series_of(eleven());
  EXPECT_EQ(series.steps.front().values.at("ddft_force"), 0);
  EXPECT_TRUE(scenarios::has_event(series, scenarios::kTaut));
  ASSERT_TRUE(scenarios::has_event(series, scenarios::kHeelOff));
  for (std::size_t k = 1; k < series.events.size(); ++k) EXPECT_LE(series.events[k - 1].share, series.events[k].share);
}

// Willemen et al. 1999 (quoted): navicular force -24 % on 6 degrees at the trot, printed and not tuned. Crevier-Denoix et al.
// 2001: the joints' turns add up to 0.99 of the wedge, so with near-equal arms following eases nearly as much as holding.
TEST(Stance, a_limb_that_follows_the_wedge_unloads_the_tendon_a_little_otherwise) {
  const Case base = trot(11, {Phase::midstance});
  const auto wedge = [](Posture posture) {
    return Change([=](Case& c) { c.shoeing.shoe.elevation = 6 * mesh::degree, c.load.posture = posture; });
  };
  const Feet feet(
      {base, changed(base, "held", {wedge(Posture::held)}), changed(base, "passive", {wedge(Posture::passive)})});
  for (const char* key : {"ddft_force", "navicular_force"}) {
    const auto fall = [&](const char* run) {
      return 100 * (feet.value(run, Phase::midstance, key) / feet.value("open steel", Phase::midstance, key) - 1);
    };
    std::printf("Posture: %s %+.2f %% held, %+.2f %% passive\n", key, fall("held"), fall("passive"));
    EXPECT_LT(fall("held"), -10) << key;
    EXPECT_LT(fall("passive"), -10) << key;
    EXPECT_GT(std::abs(fall("held") - fall("passive")), 0.05) << key;
  }
}

}  // namespace
