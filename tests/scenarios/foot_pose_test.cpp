// Measurements left out follow from the ones given. Landmarks of the reference foot: docs/reference-foot.md (a design
// choice, checked there by construction); the formulas are plane trigonometry.
#include "scenarios/foot_pose.hpp"

#include <gtest/gtest.h>
#include <algorithm>
#include <cmath>
#include <set>

namespace hoofload::scenarios {
namespace {

using mesh::degree;

std::vector<std::string> complete(mesh::Foot& foot, std::set<std::string> given) {
  return complete_foot(foot, [&](std::string_view key) { return given.count(std::string(key)) > 0; });
}

TEST(FootPose, the_reference_foot_is_left_alone) {
  mesh::Foot foot;
  EXPECT_TRUE(complete(foot, {}).empty());
  EXPECT_EQ(foot.toe_to_tip, mesh::Foot{}.toe_to_tip);
}

TEST(FootPose, a_thin_sole_keeps_its_corium_and_lowers_the_bone) {
  mesh::Foot foot;
  foot.sole_depth_tip = 11;
  (void)complete(foot, {"foot.sole_depth_tip"});
  EXPECT_NEAR(foot.sole_horn, 6, 1e-12);
  EXPECT_NEAR(foot.cor_height, 46, 0.01);
  EXPECT_NEAR(foot.sole_depth_wing, 14, 0.01);
  EXPECT_NEAR(foot.toe_to_tip, 14 / std::tan(50 * degree) + 16 / std::sin(50 * degree), 0.006);
}

TEST(FootPose, one_angle_alone_keeps_wall_and_bone_parallel) {
  mesh::Foot foot;
  foot.palmar_angle = 0;
  EXPECT_EQ(complete(foot, {"foot.palmar_angle"}).back(), "foot.toe_to_tip");
  EXPECT_NEAR(foot.toe_angle, 46 * degree, 1e-6);
  EXPECT_NEAR(foot.hl_distal, foot.hl_proximal, 1e-9);
}

TEST(FootPose, a_bone_turned_against_its_wall_widens_the_distal_horn_lamellar_distance) {
  mesh::Foot foot;
  foot.palmar_angle = 12 * degree;
  foot.toe_angle = 50 * degree;
  (void)complete(foot, {"foot.palmar_angle", "foot.toe_angle"});
  EXPECT_NEAR(foot.hl_distal, 16 + 56 * std::sin(8 * degree), 0.006);
  EXPECT_EQ(foot.hl_proximal, 16);
}

TEST(FootPose, two_horn_lamellar_distances_turn_the_bone) {
  mesh::Foot foot;
  foot.hl_proximal = 16;
  foot.hl_distal = 22;
  (void)complete(foot, {"foot.hl_proximal", "foot.hl_distal"});
  EXPECT_NEAR(foot.palmar_angle, 4 * degree + std::asin(6.0 / 56), 1e-4);
}

TEST(FootPose, what_is_given_is_never_changed) {
  mesh::Foot foot;
  foot.sole_depth_tip = 9;
  foot.sole_horn = 7;
  const auto followed = complete(foot, {"foot.sole_depth_tip", "foot.sole_horn"});
  EXPECT_EQ(foot.sole_horn, 7);
  EXPECT_EQ(std::count(followed.begin(), followed.end(), "foot.sole_horn"), 0);
}

}  // namespace
}  // namespace hoofload::scenarios
