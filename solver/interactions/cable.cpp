#include "solver/interactions/cable.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace hoofload::solver {

namespace {

Vec2 rotated(const Vec2& v, double angle) { return Eigen::Rotation2Dd(angle) * v; }

/// Tangent point on the pulley of the line to an outside point P; `side` +1: P is reached turning clockwise from the
/// tangent point's radius, -1: counter-clockwise.
Vec2 tangent_point(const Vec2& centre, double radius, const Vec2& P, double side) {
  const Vec2 d = P - centre;
  const double gamma = std::acos(std::min(1.0, radius / d.norm()));
  return centre + radius * rotated(d.normalized(), side * gamma);
}

}  // namespace

CablePath cable_path(const Cable& cable, double theta) {
  CablePath path;
  const Vec2 B = cable.joint + rotated(cable.arm, theta - cable.extension);
  const Vec2 CA = cable.insertion - cable.pulley;
  const Vec2 CB = B - cable.pulley;
  path.A = cable.insertion;
  path.B = B;
  // The cable passes the pulley on the side away from the joint, clockwise from A to B or the other way round:
  // orientation is fixed by the sign of the area A -> far side -> B.
  const Vec2 away = cable.pulley - cable.joint;
  const double cross = CA.x() * away.y() - CA.y() * away.x();
  const double turn = cross < 0 ? -1.0 : 1.0;  // turning from CA towards `away`
  double angle = std::atan2(CA.x() * CB.y() - CA.y() * CB.x(), CA.dot(CB)) * turn;
  if (angle < 0) angle += 2 * std::numbers::pi;
  const double gA = std::acos(std::min(1.0, cable.radius / CA.norm()));
  const double gB = std::acos(std::min(1.0, cable.radius / CB.norm()));
  path.wrap = angle - gA - gB;
  Vec2 dB = rotated(cable.arm, theta - cable.extension + std::numbers::pi / 2);  // dB/dtheta
  const Vec2 d2B = -(B - cable.joint);
  if (path.wrap <= 0) {
    const Vec2 AB = B - cable.insertion;
    path.length = AB.norm();
    path.wrap = 0;
    path.e_B = AB / path.length;
    path.e_A = -path.e_B;
    path.T1 = path.T2 = 0.5 * (B + cable.insertion);
  } else {
    path.T1 = tangent_point(cable.pulley, cable.radius, cable.insertion, turn);
    path.T2 = tangent_point(cable.pulley, cable.radius, B, -turn);
    path.e_A = (cable.insertion - path.T1).normalized();
    path.e_B = (B - path.T2).normalized();
    path.length = (cable.insertion - path.T1).norm() + cable.radius * path.wrap + (B - path.T2).norm();
  }
  const double free_length = path.wrap > 0 ? (B - path.T2).norm() : path.length;
  const Vec2 n{-path.e_B.y(), path.e_B.x()};
  path.dL = path.e_B.dot(dB);
  path.d2L = n.dot(dB) * n.dot(dB) / free_length + path.e_B.dot(d2B);
  return path;
}

double cable_tension(const Cable& cable, const CablePath& path) {
  if (cable.tension) return *cable.tension;
  return cable.stiffness * std::max(0.0, path.length - cable.slack_length);
}

CableValue evaluate(const Cable& cable, double theta) {
  const CablePath path = cable_path(cable, theta);
  if (cable.tension) {
    const double T = *cable.tension;
    return {T * path.length, T * path.dL, T * path.d2L};
  }
  const double stretch = path.length - cable.slack_length;
  if (stretch <= 0) return {};
  const double k = cable.stiffness;
  return {0.5 * k * stretch * stretch, k * stretch * path.dL, k * path.dL * path.dL + k * stretch * path.d2L};
}

Vec2 pulley_force(const CablePath& path, double tension) { return tension * (path.e_A + path.e_B); }

}  // namespace hoofload::solver
