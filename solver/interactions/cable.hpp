// A frictionless cable over a round pulley: insertion A and pulley fixed in the frame, the far end B turns about a joint.
//
// Length L = |A - T1| + R w + |T2 - B| with tangent points T1, T2 and wrap w (theory.md, cable). By the envelope theorem
// dL/dB is the unit tangent at B, pointing away from the pulley; d2L/dB2 = n n^T / l_B, n normal to that tangent.
// B(theta) = C + Rot(theta - extension) a, so dL/dtheta = e_B . dB/dtheta is minus the moment arm about the joint.
// Force: tension-only, T = k <L - L0>; or a given dead tension. Lengths mm, k N/mm, angles rad.
#pragma once

#include <Eigen/Core>
#include <optional>

namespace hoofload::solver {

using Vec2 = Eigen::Vector2d;

struct Cable {
  Vec2 insertion = Vec2::Zero();  ///< A
  Vec2 pulley = Vec2::Zero();     ///< centre of the pulley
  double radius = 1;              ///< of the cable's centreline on the pulley
  Vec2 joint = Vec2::Zero();      ///< C, the centre about which B turns
  Vec2 arm = Vec2::Zero();        ///< a = B - C at theta = extension = 0
  double extension = 0;           ///< prescribed rotation of B against the ground [rad]
  double stiffness = 0;           ///< k
  double slack_length = 0;        ///< L0
  std::optional<double> tension;  ///< given tension instead of the elastic law
};

/// Length and its first two derivatives by theta, wrap angle, tangent points and unit tangents (away from the pulley).
struct CablePath {
  double length = 0, dL = 0, d2L = 0, wrap = 0;
  Vec2 A, T1, T2, B, e_A, e_B;
};

[[nodiscard]] CablePath cable_path(const Cable& cable, double theta);

/// Tension at a path [N].
[[nodiscard]] double cable_tension(const Cable& cable, const CablePath& path);

struct CableValue {
  double energy = 0, moment = 0, stiffness = 0;  ///< potential, d/dtheta, d2/dtheta2
};
[[nodiscard]] CableValue evaluate(const Cable& cable, double theta);

/// Resultant that the cable presses into the pulley, T (e_A + e_B) [N].
[[nodiscard]] Vec2 pulley_force(const CablePath& path, double tension);

}  // namespace hoofload::solver
