#include "mesh/plan_outline.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

namespace hoofload::mesh {
namespace {

constexpr double half_pi = std::numbers::pi / 2;
/// The outline's proportions that a foot's measurements do not give (docs/capsule.md): from the 3D reference capsule.
constexpr double quarter_position = 70.0 / 128.0;  ///< widest point, of the bearing length
constexpr double heel_narrowing = 0.73;            ///< half-width at the buttress over the widest half-width
constexpr double corner = 0.15;             ///< part of the branch over which it turns from the ellipse's tangent
constexpr double coronet_narrowing = 0.12;  ///< of z over the height of the dorsal coronet

void require(bool condition, const char* sentence) {
  if (!condition) throw std::invalid_argument(sentence);
}

void check(const Foot& f) {
  require(f.bearing_length > 0 && f.bearing_width > 0, "bearing_length and bearing_width must be positive");
  require(f.toe_length > 0 && f.heel_length > 0, "toe_length and heel_length must be positive");
  require(f.toe_angle > 20 * degree && f.toe_angle < 90 * degree, "toe_angle must lie between 20 and 90 deg");
  require(f.heel_angle > 15 * degree && f.heel_angle < 90 * degree, "heel_angle must lie between 15 and 90 deg");
  const double thin = std::min({f.wall_thickness_toe, f.wall_thickness_quarter, f.wall_thickness_heel});
  require(thin > 0, "the wall thicknesses must be positive");
  const double thick = std::max({f.wall_thickness_toe, f.wall_thickness_quarter, f.wall_thickness_heel});
  require(thick < 0.2 * f.bearing_width, "the wall is thicker than a fifth of bearing_width");
  require(f.toe_length * std::sin(f.toe_angle) > f.heel_length * std::sin(f.heel_angle),
          "the coronet must be higher at the toe (toe_length, toe_angle) than at the heel (heel_length, heel_angle)");
  require(f.bearing_length + f.heel_length * std::cos(f.heel_angle) > f.toe_length * std::cos(f.toe_angle),
          "the dorsal coronet lies behind the heel coronet: toe_length is too long for bearing_length");
}

double angle_slope(const PlanOutline& o) { return (o.heel_angle - o.toe_angle) / o.heel_x; }
double angle_at(const PlanOutline& o, double x) { return o.toe_angle + angle_slope(o) * x; }

/// Narrowing of the branch over its whole, r in [0, 1], and its slope: straight behind a parabola of length `corner`.
double narrowing(double r) { return (r < corner ? r * r / (2 * corner) : r - corner / 2) / (1 - corner / 2); }
double narrowing_slope(double r) { return std::min(r / corner, 1.0) / (1 - corner / 2); }

/// d(x, z)/dt of the bearing outline.
Eigen::Vector2d bearing_tangent(const PlanOutline& o, double t) {
  if (t <= 1) {
    const double phi = t * half_pi;
    return half_pi * Eigen::Vector2d(o.quarter_x * std::sin(phi), o.half_width * std::cos(phi));
  }
  return {o.heel_x - o.quarter_x, narrowing_slope(t - 1) * (o.heel_half_width - o.half_width)};
}

/// Outward unit normal of the outer surface.
Eigen::Vector3d wall_normal(const PlanOutline& o, double t, double y) {
  const Eigen::Vector2d b = bearing_point(o, t), db = bearing_tangent(o, t);
  const double angle = angle_at(o, b.x()), s = std::sin(angle);
  const Eigen::Vector3d along(db.x() * (1 + y * angle_slope(o) / (s * s)), 0, db.y() * (1 - o.lean * y));
  const Eigen::Vector3d up(-1 / std::tan(angle), 1, -o.lean * b.y());
  return up.cross(along).normalized();
}

/// z where a curve, t -> (x, z) with x falling, reaches x: 0 ahead of its front, its end value behind its end.
template <class Curve>
double half_width_at(const Curve& curve, double x) {
  if (x >= curve(0.0).x()) return 0;
  if (x <= curve(2.0).x()) return std::max(0.0, curve(2.0).y());
  double front = 0, back = 2;
  for (int k = 0; k < 54; ++k) {
    const double mid = 0.5 * (front + back);
    (curve(mid).x() > x ? front : back) = mid;
  }
  return std::max(0.0, curve(0.5 * (front + back)).y());
}

/// Integral of f over [lo, hi] by 5-point Gauss on n equal parts.
template <class Function>
double integrate(const Function& f, double lo, double hi, int n) {
  constexpr std::array<double, 5> xi{-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831,
                                     0.9061798459386640};
  constexpr std::array<double, 5> w{0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665,
                                    0.2369268850561891};
  const double h = (hi - lo) / n;
  double sum = 0;
  for (int i = 0; i < n; ++i)
    for (std::size_t q = 0; q < xi.size(); ++q) sum += 0.5 * h * w[q] * f(lo + h * (i + 0.5 + 0.5 * xi[q]));
  return sum;
}

}  // namespace

PlanOutline plan_outline(const Foot& f) {
  check(f);
  PlanOutline o;
  o.quarter_x = -quarter_position * f.bearing_length;
  o.half_width = f.bearing_width / 2;
  o.heel_x = -f.bearing_length;
  o.heel_half_width = heel_narrowing * o.half_width;
  o.toe_angle = f.toe_angle;
  o.heel_angle = f.heel_angle;
  o.coronet_toe = f.toe_length * Eigen::Vector2d(-std::cos(f.toe_angle), std::sin(f.toe_angle));
  o.coronet_heel =
      Eigen::Vector2d(o.heel_x, 0) + f.heel_length * Eigen::Vector2d(-std::cos(f.heel_angle), std::sin(f.heel_angle));
  o.lean = coronet_narrowing / o.coronet_toe.y();
  o.thickness_toe = f.wall_thickness_toe;
  o.thickness_quarter = f.wall_thickness_quarter;
  o.thickness_heel = f.wall_thickness_heel;
  return o;
}

Eigen::Vector2d bearing_point(const PlanOutline& o, double t) {
  if (t <= 1) {
    const double phi = t * half_pi;
    return {o.quarter_x * (1 - std::cos(phi)), o.half_width * std::sin(phi)};
  }
  const double r = t - 1;
  return {o.quarter_x + r * (o.heel_x - o.quarter_x), o.half_width + narrowing(r) * (o.heel_half_width - o.half_width)};
}

Eigen::Vector3d wall_point(const PlanOutline& o, double t, double y) {
  const Eigen::Vector2d b = bearing_point(o, t);
  return {b.x() - y / std::tan(angle_at(o, b.x())), y, b.y() * (1 - o.lean * y)};
}

Eigen::Vector3d inside_point(const PlanOutline& o, double t, double y, double depth) {
  const Eigen::Vector3d n = wall_normal(o, t, y);
  const double sin2 = n.x() * n.x() + n.z() * n.z();  // squared sine of the slope against the horizontal
  return wall_point(o, t, y) - depth / sin2 * Eigen::Vector3d(n.x(), 0, n.z());
}

double coronet_height(const PlanOutline& o, double t, double forward) {
  const Eigen::Vector2d run = o.coronet_toe - o.coronet_heel;
  const double m = run.y() / run.x();
  const double xb = bearing_point(o, t).x();
  return (o.coronet_toe.y() + m * (xb - forward - o.coronet_toe.x())) / (1 + m / std::tan(angle_at(o, xb)));
}

double wall_thickness(const PlanOutline& o, double t) {
  // Cubic Hermite in x_b; the slope at the quarter is the mean of the two chords, so three equal steps stay straight.
  const double x = bearing_point(o, t).x();
  const double h1 = -o.quarter_x, h2 = o.quarter_x - o.heel_x;
  const double d1 = (o.thickness_quarter - o.thickness_toe) / h1, d2 = (o.thickness_heel - o.thickness_quarter) / h2;
  const double dq = 0.5 * (d1 + d2);
  const bool fore = t <= 1;
  const double h = fore ? h1 : h2, u = fore ? -x / h1 : (o.quarter_x - x) / h2;
  const double p0 = fore ? o.thickness_toe : o.thickness_quarter, p1 = fore ? o.thickness_quarter : o.thickness_heel;
  const double m0 = h * (fore ? d1 : dq), m1 = h * (fore ? dq : d2);
  const double v = 1 - u;
  return p0 * (1 + 2 * u) * v * v + m0 * u * v * v + p1 * u * u * (3 - 2 * u) - m1 * u * u * v;
}

double outer_half_width(const PlanOutline& o, double x, double y) {
  return half_width_at(
      [&](double t) {
        const Eigen::Vector3d p = wall_point(o, t, y);
        return Eigen::Vector2d(p.x(), p.z());
      },
      x);
}

double inner_half_width(const PlanOutline& o, double x, double y, double depth) {
  return half_width_at(
      [&](double t) {
        const Eigen::Vector3d p = inside_point(o, t, y, wall_thickness(o, t) + depth);
        return Eigen::Vector2d(p.x(), p.z());
      },
      x);
}

double parallel_half_width(const PlanOutline& o, double x, double offset) {
  return half_width_at(
      [&](double t) -> Eigen::Vector2d {
        const Eigen::Vector2d d = bearing_tangent(o, t).normalized();
        return bearing_point(o, t) - offset * Eigen::Vector2d(d.y(), -d.x());
      },
      x);
}

double inner_toe_x(const PlanOutline& o, double y, double depth) {
  return inside_point(o, 0, y, wall_thickness(o, 0) + depth).x();
}

double arc_length(const PlanOutline& o, double t) {
  const auto speed = [&](double s) { return bearing_tangent(o, s).norm(); };
  if (t <= 1) return integrate(speed, 0, t, 8);
  const double turn = std::min(t, 1 + corner);
  return integrate(speed, 0, 1, 8) + integrate(speed, 1, turn, 1) + (t - turn) * speed(2);
}

double parameter_at_arc(const PlanOutline& o, double s) {
  double lo = 0, hi = 2;
  for (int k = 0; k < 54; ++k) {
    const double mid = 0.5 * (lo + hi);
    (arc_length(o, mid) < s ? lo : hi) = mid;
  }
  return 0.5 * (lo + hi);
}

double outline_area(const PlanOutline& o) {
  // the mean of narrowing(r) over [0, 1], in closed form
  const double mean = (corner * corner / 6 + (1 - corner) / 2) / (1 - corner / 2);
  const double branch = o.half_width + mean * (o.heel_half_width - o.half_width);
  return std::numbers::pi / 2 * -o.quarter_x * o.half_width + 2 * (o.quarter_x - o.heel_x) * branch;
}

double inner_area(const PlanOutline& o) {
  const double front = inner_toe_x(o);
  // z ~ sqrt(distance) at the toe: substitute x = front - r^2, so that the integrand is smooth
  const double r_end = std::sqrt(front - o.heel_x);
  return 2 * integrate([&](double r) { return 2 * r * inner_half_width(o, front - r * r); }, 0, r_end, 24);
}

double wall_ring_area(const PlanOutline& o) { return outline_area(o) - inner_area(o); }

}  // namespace hoofload::mesh
