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
// Degrees of the joints per degree of heel elevation, standing on wedges (Crevier-Denoix et al. 2001: 29.5, 7.3 and 6.9
// degrees over 30): coffin and pastern flex, the fetlock extends. Their sum, 0.99, is the foot's turn against the cannon.
constexpr double kCoffinFlexion = 0.98, kPasternFlexion = 0.24, kFetlockExtension = 0.23;
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

PostureShift posture_of(const Case& run) {
  if (run.load.posture == Posture::held || run.shoeing.shoe.type == mesh::ShoeType::bare) return {};
  const double e = run.shoeing.shoe.elevation;
  PostureShift shift{(1 - kCoffinFlexion) * e, kPasternFlexion * e, kFetlockExtension * e, 0};
  const auto path = solver::cable_path(tendon_path(run.foot, run.load.tendon_stiffness), 0);
  const LimbChain chain = limb_chain(run.foot, 0, 0);
  const auto arm = [&](const Vec2& joint) {
    const Vec2 r = path.B - joint;
    return std::abs(r.x() * path.e_B.y() - r.y() * path.e_B.x());
  };
  shift.slack = arm(chain.pastern) * shift.pastern_flexion - arm(chain.fetlock) * shift.fetlock_extension;
  return shift;
}

LimbChain limb_chain(const mesh::Foot& foot, double theta, double extension, double pastern_flexion) {
  const Vec2 up = turned(pastern_direction(foot), theta - extension);
  const Vec2 pastern = coffin_joint(foot) + kMiddlePhalanx * up;
  return {pastern, pastern + kProximalPhalanx * turned(up, pastern_flexion)};
}

}  // namespace hoofload::scenarios
