#include "mesh/breadths.hpp"

#include <algorithm>
#include <cmath>

namespace hoofload::mesh {
namespace {

constexpr double frog_overhang = 2;     ///< the frog's base lies behind the buttress line
constexpr double frog_rounding = 0.15;  ///< of the frog's length: its apex is round
constexpr double branch_opening = 20;   ///< over this length the bone's footprint opens round the frog [mm]
constexpr double branch_rounding = 14;  ///< of the palmar process [mm]
constexpr double bar_ramp = 4;          ///< a bar's front edge [mm]
constexpr double heart_width = 0.8, heart_start = 15;

double smoothstep(double u) {
  u = std::clamp(u, 0.0, 1.0);
  return u * u * (3 - 2 * u);
}

/// Quarter of an ellipse: 1 at u <= 0 with slope 0, falling to 0 at u = 1.
double rounded(double u) { return u <= 0 ? 1 : u >= 1 ? 0 : std::sqrt(1 - u * u); }

bool has_end_bar(const Shoe& s) { return s.type == ShoeType::straight_bar || s.type == ShoeType::egg_bar; }

/// Half-breadth of the bone's solar margin: the wall's inner surface at the height of the bone's tip, inside it by the
/// soft part of the horn-lamellar distance, moved along x so that it starts at the tip.
double bone_half_width(const Breadths& b, double x) {
  const Foot& f = b.foot;
  const double y = f.sole_depth_tip + 3;
  const double soft = std::max(f.hl_distal - f.wall_thickness_toe, f.lamella_thickness);
  return inner_half_width(b.outline, x - bone_tip_x(f) + inner_toe_x(b.outline, y, soft), y, soft);
}

/// x on the foot's bearing outline that a point of the shoe corresponds to, and how far the branch may follow it.
double outline_x(const Shoe& s, double x) { return x + s.setback; }

double egg_length(const Shoe& s) { return 2.5 * s.bar_width; }

}  // namespace

Breadths breadths(const Foot& foot) { return {foot, plan_outline(foot)}; }

double b_sole(const Breadths& b, double x) { return 2 * inner_half_width(b.outline, x); }

double frog_base_x(const Foot& f) { return -f.bearing_length - frog_overhang; }
double frog_apex_x(const Foot& f) { return frog_base_x(f) + f.frog_length; }

double w_frog(const Breadths& b, double x) {
  const double u = (frog_apex_x(b.foot) - x) / b.foot.frog_length;
  if (u <= 0) return 0;
  const double r = frog_rounding;
  const double rise = u < r ? u * u / (2 * r) : std::min(u, 1.0) - r / 2;
  return b.foot.frog_width * rise / (1 - r / 2);
}

double bone_tip_x(const Foot& f) { return -f.toe_to_tip; }
double bone_end_x(const Foot& f) { return bone_tip_x(f) - f.palmar_length * std::cos(f.palmar_angle); }
double branch_start_x(const Foot& f) { return bone_tip_x(f) - 0.59 * f.palmar_length * std::cos(f.palmar_angle); }

double b_corium(const Breadths& b, double x) {
  const double end = bone_end_x(b.foot);
  if (x >= bone_tip_x(b.foot) || x <= end) return 0;
  const double whole = 2 * bone_half_width(b, x);
  const double middle = w_frog(b, x) * smoothstep((branch_start_x(b.foot) - x) / branch_opening);
  return std::max(0.0, whole - middle) * rounded(1 - (x - end) / branch_rounding);
}

double shoe_front_x(const Breadths&, const Shoe& s) { return s.type == ShoeType::bare ? 0 : -s.setback; }

double shoe_end_x(const Breadths& b, const Shoe& s) {
  return s.type == ShoeType::bare ? 0 : b.outline.heel_x - s.setback - s.heel_extension;
}

double shoe_outer_chord(const Breadths& b, const Shoe& s, double x) {
  const double end = shoe_end_x(b, s);
  if (s.type == ShoeType::bare || x < end) return 0;
  const double chord = 2 * parallel_half_width(b.outline, outline_x(s, x), 0);
  return s.type == ShoeType::egg_bar ? chord * rounded(1 - (x - end) / egg_length(s)) : chord;
}

double shoe_inner_chord(const Breadths& b, const Shoe& s, double x) {
  const double end = shoe_end_x(b, s);
  if (s.type == ShoeType::bare || x < end) return 0;
  const double chord = 2 * parallel_half_width(b.outline, outline_x(s, x), s.web);
  if (!has_end_bar(s)) return chord;
  const double inside = x - end - s.bar_width;
  if (s.type == ShoeType::straight_bar) return chord * smoothstep(inside / bar_ramp);
  return chord * rounded(1 - std::max(inside, 0.0) / egg_length(s));
}

double shoe_breadth(const Breadths& b, const Shoe& s, double x) {
  return std::max(0.0, shoe_outer_chord(b, s, x) - shoe_inner_chord(b, s, x));
}

double plate_breadth(const Breadths& b, const Shoe& s, double x) {
  if (s.type == ShoeType::full_plate) return shoe_inner_chord(b, s, x);
  if (s.type != ShoeType::heart_bar) return 0;
  // a frog plate, broadening with the frog and carried back to the ends of the branches, which it joins
  const double start = frog_apex_x(b.foot) - heart_start, end = shoe_end_x(b, s);
  if (x >= start || x < end) return 0;
  const double frog = heart_width * w_frog(b, x) * rounded(1 - (start - x) / heart_start);
  const double join = smoothstep((end + s.bar_width + bar_ramp - x) / bar_ramp);
  const double opening = shoe_inner_chord(b, s, x);
  return std::min(opening, frog + join * std::max(0.0, opening - frog));
}

double wall_on_shoe_breadth(const Breadths& b, const Shoe& s, double x) {
  if (x < b.outline.heel_x) return 0;
  const double outer = std::min(2 * outer_half_width(b.outline, x), shoe_outer_chord(b, s, x));
  const double inner = std::max(b_sole(b, x), shoe_inner_chord(b, s, x));
  return std::max(0.0, outer - inner);
}

}  // namespace hoofload::mesh
