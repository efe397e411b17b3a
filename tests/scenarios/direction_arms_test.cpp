#include "scenarios/direction_arms.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "scenarios/build_model.hpp"

namespace hoofload::scenarios {
namespace {

/// A sagittal model with an outline of our own, and a made-up roll-over: only geometry and statics are at stake.
struct Rolled {
  BuiltModel built = build_sagittal({}, materials::load_catalogue(), 0.35);
  PhaseSolution phase;

  Rolled() {
    const double joint = built.system->model().ground.joint.x();
    built.ground_outline.clear();
    for (int k = 0; k <= 90; ++k)  // half circle of 60 mm about the joint
      built.ground_outline.emplace_back(joint + 60 * std::cos(k * std::numbers::pi / 90),
                                        60 * std::sin(k * std::numbers::pi / 90));
    phase.phase = Phase::breakover;
    phase.loading.normal_force = 2000;
  }
};

// A round shoe under the joint has the same arm every way (geometry).
TEST(DirectionArms, are_equal_for_a_round_outline_under_the_joint) {
  Rolled r;
  r.phase.rolled_cop = 57;
  r.phase.rolled_moment = 2000 * 57;
  for (const DirectionArm& a : arms_by_direction(r.built, r.phase)) EXPECT_NEAR(a.arm, 57, 0.02) << a.angle;
}

// The tangential force pulls straight ahead: to the side it has no arm (statics).
TEST(DirectionArms, straight_ahead_give_the_solved_arm_and_to_the_side_no_tangential_part) {
  Rolled r;
  r.phase.loading.tangential_force = 300;
  r.phase.rolled_cop = 57;
  r.phase.rolled_moment = 2000 * 57 + 300 * 60;
  const double F = std::hypot(2000.0, 300.0);
  EXPECT_NEAR(arm_towards(r.built, r.phase, 0), r.phase.rolled_moment / F, 1e-9);
  EXPECT_NEAR(arm_towards(r.built, r.phase, std::numbers::pi / 2), 2000 * 57 / F, 1e-6);
}

TEST(DirectionArms, are_left_out_without_a_roll_over) {
  EXPECT_TRUE(arms_by_direction(Rolled().built, Rolled().phase).empty());
}

}  // namespace
}  // namespace hoofload::scenarios
