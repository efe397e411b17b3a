#include "scenarios/foot_pose.hpp"

#include <algorithm>
#include <cmath>

namespace hoofload::scenarios {
namespace {

using mesh::degree;

// Landmarks of the reference foot (docs/reference-foot.md): at a palmar angle of 4 deg the bone's dorsal face stands at
// 50 deg, the joint centre lies 49 mm behind and 32 mm above the tip, and the sole is 3 mm high below the tip for a cup
// of 9 mm. A corium of 5 mm under 10 mm of horn.
constexpr double kFaceToSolarLine = 46 * degree;
constexpr double kReferencePalmarAngle = 4 * degree;
constexpr double kCorBehindTip = 49;
constexpr double kCorAboveTip = 32;
constexpr double kReferenceDorsalLength = 56;
constexpr double kCupAtTip = 1.0 / 3.0;
constexpr double kCorium = 5;

// Left-out values that reproduce the reference within this are the reference: its landmarks are rounded to 0.1 mm.
constexpr double kSame = 0.15;
constexpr double kSameAngle = 0.01 * degree;

struct Point {
  double x, y;
};

/// The joint centre, palmar of and above the tip, with the bone turned to this palmar angle.
Point cor_from_tip(const mesh::Foot& foot) {
  const double size = foot.dorsal_length / kReferenceDorsalLength;
  const double turn = foot.palmar_angle - kReferencePalmarAngle;
  // Positive palmar angle raises the palmar side: a turn about the tip that lifts what lies behind it.
  return {size * (kCorBehindTip * std::cos(turn) - kCorAboveTip * std::sin(turn)),
          size * (kCorAboveTip * std::cos(turn) + kCorBehindTip * std::sin(turn))};
}

}  // namespace

double tip_height(const mesh::Foot& foot) { return foot.sole_depth_tip + kCupAtTip * foot.sole_cup; }

double bone_height(const mesh::Foot& foot) {
  return foot.dorsal_length * std::sin(std::min(foot.palmar_angle + kFaceToSolarLine, 90 * degree));
}

double implied_hl_distal(const mesh::Foot& foot) {
  return foot.hl_proximal + foot.dorsal_length * std::sin(foot.palmar_angle + kFaceToSolarLine - foot.toe_angle);
}

double implied_toe_to_tip(const mesh::Foot& foot) {
  return tip_height(foot) / std::tan(foot.toe_angle) + foot.hl_distal / std::sin(foot.toe_angle);
}

double implied_sole_depth_wing(const mesh::Foot& foot) {
  const mesh::Foot reference;
  return reference.sole_depth_wing + (foot.sole_depth_tip - reference.sole_depth_tip) +
         foot.palmar_length * std::sin(foot.palmar_angle) - reference.palmar_length * std::sin(reference.palmar_angle);
}

std::vector<std::string> complete_foot(mesh::Foot& foot, const IsGiven& is_given, Stated stated) {
  std::vector<std::string> followed;
  const auto follow = [&](std::string_view key, double& member, double value, double same, double unit) {
    const bool is_exact = stated == Stated::exactly;
    if (is_given(key) || (!is_exact && std::abs(value - member) < same)) return;
    member = is_exact ? value : std::round(value / unit * 1000) / 1000 * unit;
    followed.emplace_back(key);
  };
  const bool proximal = is_given("foot.hl_proximal");
  const bool distal = is_given("foot.hl_distal");
  const double spread = proximal && distal ? (foot.hl_distal - foot.hl_proximal) / foot.dorsal_length : 0;
  const double turned = std::asin(std::clamp(spread, -1.0, 1.0));
  if (is_given("foot.palmar_angle")) {
    follow("foot.toe_angle", foot.toe_angle, foot.palmar_angle + kFaceToSolarLine - turned, kSameAngle, degree);
  } else {
    follow("foot.palmar_angle", foot.palmar_angle, foot.toe_angle - kFaceToSolarLine + turned, kSameAngle, degree);
  }
  if (distal)
    follow("foot.hl_proximal", foot.hl_proximal, foot.hl_proximal + foot.hl_distal - implied_hl_distal(foot), kSame, 1);
  follow("foot.hl_distal", foot.hl_distal, implied_hl_distal(foot), kSame, 1);
  follow("foot.sole_horn", foot.sole_horn, std::max(foot.sole_depth_tip - kCorium, foot.sole_depth_tip / 2), kSame, 1);
  follow("foot.toe_to_tip", foot.toe_to_tip, implied_toe_to_tip(foot), kSame, 1);
  const Point cor = cor_from_tip(foot);
  follow("foot.toe_to_cor", foot.toe_to_cor, foot.toe_to_tip + cor.x, kSame, 1);
  follow("foot.cor_height", foot.cor_height, tip_height(foot) + cor.y, kSame, 1);
  follow("foot.sole_depth_wing", foot.sole_depth_wing, implied_sole_depth_wing(foot), kSame, 1);
  std::sort(followed.begin(), followed.end());
  return followed;
}

}  // namespace hoofload::scenarios
