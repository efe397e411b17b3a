#include "scenarios/tendon.hpp"

#include <Eigen/Geometry>
#include <cmath>

namespace hoofload::scenarios {

namespace {

using Vec2 = Eigen::Vector2d;

constexpr double kReferencePalmarAngle = 4 * mesh::degree;
constexpr double kReferencePastern = 50 * mesh::degree;
constexpr double kReferenceArm = 27.9;
constexpr double kMiddlePhalanx = 44, kProximalPhalanx = 86;
constexpr double kFreeTendon = 150;  ///< navicular to the anchor on the pastern frame

Vec2 turned(const Vec2& v, double angle) { return Eigen::Rotation2Dd(angle) * v; }

/// Unit vector up the pastern (proximal, palmar) in the ground's frame.
Vec2 pastern_direction(const mesh::Foot& foot) { return {-std::cos(foot.pastern_angle), std::sin(foot.pastern_angle)}; }

}  // namespace

Eigen::Vector2d coffin_joint(const mesh::Foot& foot) { return {-foot.toe_to_cor, foot.cor_height}; }

solver::Cable tendon_path(const mesh::Foot& foot, double stiffness) {
  // A larger palmar angle is the bone turned toe-down: clockwise with x forward, y up.
  const double turn = -(foot.palmar_angle - kReferencePalmarAngle);
  const double scale = foot.ddft_arm / kReferenceArm;
  solver::Cable cable;
  cable.joint = coffin_joint(foot);
  cable.insertion = cable.joint + scale * turned({9.0, -26.5}, turn);
  cable.pulley = cable.joint + scale * turned({-11.8, -7.6}, turn);
  cable.radius = 14 * scale;
  // The reference tendon leaves the navicular at (-22.5, -16.6) from the joint, parallel to a pastern at 50 degrees.
  const Vec2 leave =
      scale * Vec2{-22.5, -16.6} + kFreeTendon * Vec2{-std::cos(kReferencePastern), std::sin(kReferencePastern)};
  cable.arm = turned(leave, -(foot.pastern_angle - kReferencePastern));
  cable.stiffness = stiffness;
  return cable;
}

LimbChain limb_chain(const mesh::Foot& foot, double theta, double extension) {
  const Vec2 up = turned(pastern_direction(foot), theta - extension);
  const Vec2 coffin = coffin_joint(foot);
  return {coffin + kMiddlePhalanx * up, coffin + (kMiddlePhalanx + kProximalPhalanx) * up};
}

}  // namespace hoofload::scenarios
