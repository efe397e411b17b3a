#include "mesh/side_view.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/breadths.hpp"
#include "mesh/section_facts.hpp"

namespace hoofload::mesh {
namespace {

// The reference foot, to which the landmarks below belong.
constexpr double reference_length = 128, reference_cup = 9, reference_palmar = 75, reference_cor_height = 50;
constexpr double frog_clearance = 0.8;  ///< the frog stands at least this far below the sole (half of a lower vault)
constexpr double cushion_front = 2.5;   ///< least height of the cushion
constexpr double wing_yields =
    0.5;  ///< the sole's ground surface moves by this share of its height under the wing at most
constexpr double corium_kept = 0.8;  ///< of the corium's depth at the tip, wherever the bone lies low

/// The lower of two values, rounded over +-k.
double smooth_min(double a, double b, double k) {
  const double h = std::max(k - std::abs(a - b), 0.0) / k;
  return std::min(a, b) - h * h * k / 4;
}

std::vector<Vec2> scaled(std::vector<Vec2> points, double sx, double sy) {
  for (Vec2& p : points) p = {p.x() * sx, p.y() * sy};
  return points;
}

Curve bone_curve(const Foot& f, double tip, double tip_y) {
  const double k = f.palmar_length / reference_palmar, run = tip - bone_end_x(f);
  // planum and semilunar insertion stand above the line from tip to palmar process
  const auto at = [&](double u, double above) {
    return Vec2{tip - u * run, tip_y + u * run * std::tan(f.palmar_angle) + k * above};
  };
  return curve_through({at(0, 0), at(0.267, 0.9), at(0.535, 2.7), at(1, 0)});
}

/// Change of the sole's ground surface under the palmar process, rounded to zero in front of and behind it.
Curve wing_curve(const Foot& f, const SideView& v) {
  // Measurements that disagree (a low palmar angle with the reference depth at the wing) must not turn the vault over.
  const double plain = v.ground(v.process);
  const double change =
      std::clamp(v.bone(v.process) - f.sole_depth_wing - plain, -wing_yields * plain, wing_yields * plain);
  Curve c = curve_through({{v.sole_end, 0}, {v.process, change}, {branch_start_x(f), 0}});
  c.slope.front() = c.slope.back() = 0;
  return c;
}

void check(const Foot& f, const SideView& v) {
  require(v.sole_end < v.process - 4, measured("palmar_length", f.palmar_length) + " behind " +
                                          measured("toe_to_tip", f.toe_to_tip) + " carries the bone to the heel of " +
                                          measured("bearing_length", f.bearing_length));
  require(v.bone(v.tip) + 12 < f.cor_height,
          "the sole is deeper than the bone is high: " + measured("sole_depth_tip", f.sole_depth_tip) +
              " under a joint at " + measured("cor_height", f.cor_height));
  require(v.tip < v.white_line - 3, measured("toe_to_tip", f.toe_to_tip) + " puts the bone's tip into the wall");
  for (int k = 0; k <= 40; ++k) {
    const double x = v.tip + (v.process - v.tip) * k / 40;
    const double left = horn_top(v, x) - sole_ground(v, x);
    require(left > std::max(1.5, 0.3 * f.sole_horn),
            "the sole is cupped higher than the bone allows: " + measured("sole_cup", f.sole_cup) + ", " +
                measured("sole_depth_tip", f.sole_depth_tip) + ", " + measured("sole_depth_wing", f.sole_depth_wing) +
                " and the palmar angle leave " + measured("horn", left));
  }
}

}  // namespace

double Curve::operator()(double at) const {
  if (at <= x.front()) return y.front() + slope.front() * (at - x.front());
  if (at >= x.back()) return y.back() + slope.back() * (at - x.back());
  const auto k = static_cast<std::size_t>(std::upper_bound(x.begin(), x.end(), at) - x.begin()) - 1;
  const double h = x[k + 1] - x[k], t = (at - x[k]) / h;
  const double a = t * t * (3 - 2 * t);
  return (1 - a) * y[k] + a * y[k + 1] + h * t * (1 - t) * ((1 - t) * slope[k] - t * slope[k + 1]);
}

Curve curve_through(std::vector<Vec2> points) {
  std::sort(points.begin(), points.end(), [](const Vec2& p, const Vec2& q) { return p.x() < q.x(); });
  Curve c;
  for (const Vec2& p : points) c.x.push_back(p.x()), c.y.push_back(p.y());
  const std::size_t n = points.size();
  const auto secant = [&](std::size_t k) { return (c.y[k + 1] - c.y[k]) / (c.x[k + 1] - c.x[k]); };
  c.slope.assign(n, 0);
  c.slope.front() = secant(0), c.slope.back() = secant(n - 2);
  for (std::size_t k = 1; k + 1 < n; ++k) {
    const double a = secant(k - 1), b = secant(k);
    if (a * b > 0) c.slope[k] = 2 * a * b / (a + b);  // the harmonic mean keeps each piece monotone
  }
  return c;
}

SideView side_view(const Foot& f) {
  require(f.bearing_length > 60 && f.sole_cup > 0.5, measured("bearing_length", f.bearing_length) + " and " +
                                                         measured("sole_cup", f.sole_cup) + " do not make a foot");
  require(f.sole_depth_tip - f.sole_horn > 0.79, measured("sole_depth_tip", f.sole_depth_tip) + " must exceed " +
                                                     measured("sole_horn", f.sole_horn) +
                                                     " by at least 0.8 mm: corium lies between horn and bone");
  require(f.sole_horn > 1, measured("sole_horn", f.sole_horn) + " is not a sole");
  const double sx = f.bearing_length / reference_length, sy = f.sole_cup / reference_cup;
  SideView v{};
  v.white_line = inner_toe_x(plan_outline(f));
  v.sole_end = -126 * sx;
  v.tip = bone_tip_x(f), v.process = bone_end_x(f);
  v.frog_apex = frog_apex_x(f), v.frog_base = frog_base_x(f);
  v.horn = f.sole_horn, v.corium = f.sole_depth_tip - f.sole_horn;
  v.ground = curve_through(scaled(
      {{-13, 0.3}, {-22, 1.2}, {-36, 3}, {-50, 5}, {-70, 8}, {-85, 9}, {-100, 8}, {-115, 4}, {-126, 0.5}}, sx, sy));
  v.bone = bone_curve(f, v.tip, v.ground(v.tip) + f.sole_depth_tip);
  v.wing = wing_curve(f, v);
  v.cushion = curve_through(
      scaled({{-80, 19}, {-100, 26}, {-109, 31}, {-124, 48}, {-132, 55}}, sx, f.cor_height / reference_cor_height));
  v.frog_apex_y = 4 * sy, v.frog_base_y = 3 * sy;
  check(f, v);
  return v;
}

double sole_ground(const SideView& v, double x) {
  const bool near_wing = x > v.wing.x.front() && x < v.wing.x.back();
  return v.ground(x) + (near_wing ? v.wing(x) : 0);
}

double bone_underside(const SideView& v, double x) { return v.bone(std::clamp(x, v.process, v.tip)); }

double horn_top(const SideView& v, double x) {
  return smooth_min(sole_ground(v, x) + v.horn, bone_underside(v, x) - corium_kept * v.corium, 0.05 * v.corium);
}

double frog_ground(const SideView& v, double x) {
  const double sole = sole_ground(v, x), u = (x - v.frog_base) / (v.frog_apex - v.frog_base);
  return smooth_min(v.frog_base_y + u * (v.frog_apex_y - v.frog_base_y), sole - std::min(frog_clearance, 0.5 * sole),
                    std::min(1.0, 0.6 * sole));
}

double cushion_top(const SideView& v, double x) {
  return -smooth_min(-v.cushion(x), -horn_top(v, x) - cushion_front, 1);
}

std::vector<Vec2> phalanx_outline(const Foot& f) {
  const SideView v = side_view(f);
  const double k = f.palmar_length / reference_palmar, turn = 4 * degree - f.palmar_angle;
  const Vec2 tip{v.tip, v.bone(v.tip)};
  const auto moved = [&](double x, double y) {
    const double dx = k * (x + 36), dy = k * (y - 18);
    return Vec2{tip.x() + std::cos(turn) * dx - std::sin(turn) * dy,
                tip.y() + std::sin(turn) * dx + std::cos(turn) * dy};
  };
  return {tip,
          moved(-72, 60.9),
          moved(-72.8, 60.3),
          moved(-69.6, 54.1),
          moved(-69.3, 47.2),
          moved(-71.9, 40.8),
          moved(-77, 36.1),
          moved(-85, 34),
          moved(-93, 36.1),
          moved(-95, 30.5),
          moved(-76, 23.5),
          moved(-56, 20.3)};
}

std::vector<Vec2> navicular_outline(const Foot& f) {
  const double k = f.palmar_length / reference_palmar;
  std::vector<Vec2> points{{-93.5, 36.4},  {-98.5, 41.3}, {-100.9, 47.8}, {-107.6, 44.3},
                           {-108.4, 39.3}, {-106, 34.7},  {-99.9, 30.8},  {-97.2, 30.4}};
  for (Vec2& p : points) p = {-f.toe_to_cor + k * (p.x() + 85), f.cor_height + k * (p.y() - 50)};
  return points;
}

std::vector<Vec2> wall_outline(const Foot& f) {
  return {{0, 0},
          {-f.toe_length * std::cos(f.toe_angle), f.toe_length * std::sin(f.toe_angle)},
          {-f.bearing_length - f.heel_length * std::cos(f.heel_angle), f.heel_length * std::sin(f.heel_angle)},
          {-f.bearing_length, 0}};
}

}  // namespace hoofload::mesh
