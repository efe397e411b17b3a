#include "mesh/shoe_view.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/section_facts.hpp"

namespace hoofload::mesh {
namespace {

constexpr double rocker_rounding = 4;  ///< half length over which a rocker turns up
constexpr double most_taken = 0.75;    ///< of the thickness, by a toe shape

double roll_start(const Shoe& s) {
  const double rise = std::min(0.5 * s.thickness, s.roll_radius);
  return std::max(s.breakover, std::sqrt(rise * (2 * s.roll_radius - rise)));
}

/// Where the ground face starts to rise, behind the front edge.
double rise_start(const Shoe& s) {
  if (s.toe == ToeShape::rolled) return roll_start(s);
  if (s.toe == ToeShape::rocker) return s.rocker_start;
  return s.breakover;
}

/// Rise of the ground face, d in front of its start.
double rise(const Shoe& s, double d) {
  if (s.toe == ToeShape::rocker) {
    const double c = rocker_rounding, slope = std::tan(s.rocker_angle);
    return d <= -c ? 0 : d < c ? slope * (d + c) * (d + c) / (4 * c) : slope * d;
  }
  if (d <= 0) return 0;
  if (s.toe == ToeShape::rolled) {
    const double r = s.roll_radius, bend = std::min(d, 0.8 * r);
    return r - std::sqrt(r * r - bend * bend) + (d - bend) * (0.8 / 0.6);
  }
  const double edge = std::min(2.0, s.thickness / 4);
  return edge * (d / s.breakover) * (d / s.breakover);
}

void check(const Foot& f, const Shoeing& all, const ShoeView& v) {
  const Shoe& s = all.shoe;
  require(s.thickness > 1, measured("shoe thickness", s.thickness) + " is too thin");
  require(
      s.layer_thickness >= 0 && s.layer_thickness < s.thickness,
      measured("layer_thickness", s.layer_thickness) + " must be less than " + measured("shoe thickness", s.thickness));
  require(s.breakover >= 0 && s.setback > -f.bearing_length / 4 && s.setback < f.bearing_length / 4,
          measured("breakover", s.breakover) + " or " + measured("setback", s.setback) + " is out of range");
  require(v.front - v.end < 2 * f.bearing_length, "the shoe (" + measured("length", v.front - v.end) +
                                                      ") is longer than twice the foot's " +
                                                      measured("bearing_length", f.bearing_length));
  require(s.web > 5 && 2 * s.web < 0.9 * f.bearing_width,
          measured("web", s.web) + " does not fit " + measured("bearing_width", f.bearing_width));
  require(s.elevation > -0.35 && s.elevation < 0.35, "the elevation must lie within 20 degrees");
  require(rise(s, rise_start(s)) < most_taken * s.thickness + 1e-9,
          "the toe shape takes away more than three quarters of " + measured("shoe thickness", s.thickness));
  require(s.thickness + std::min(0.0, (v.front - v.end) * std::tan(s.elevation)) > 1,
          "the elevation leaves no heel of " + measured("shoe thickness", s.thickness));
  const bool plate = s.type == ShoeType::full_plate || s.type == ShoeType::heart_bar;
  require(!plate || (s.plate_thickness > 0.5 && s.plate_recess >= 0 &&
                     s.plate_recess + s.plate_thickness <= s.thickness + 1e-9),
          measured("plate_thickness", s.plate_thickness) + " and " + measured("plate_recess", s.plate_recess) +
              " do not fit in " + measured("shoe thickness", s.thickness));
}

}  // namespace

ShoeView shoe_view(const Foot& foot, const Shoeing& shoeing) {
  const Shoe& s = shoeing.shoe;
  ShoeView v{s, 0, 0, 0, 0, 0, shoeing.packing.proud};
  require(shoeing.pad.type == PadType::none || shoeing.pad.thickness > 0.5,
          measured("pad thickness", shoeing.pad.thickness) + " is too thin");
  require(shoeing.packing.proud >= 0 && shoeing.packing.thickness >= 0,
          "packing proud and thickness must not be negative");
  v.front = -s.setback;
  v.end = -foot.bearing_length - s.setback - s.heel_extension;
  v.inner_toe = v.front - s.web;
  v.breakover = v.front - rise_start(s);
  v.top = shoeing.pad.type == PadType::none ? 0 : -shoeing.pad.thickness;
  check(foot, shoeing, v);
  return v;
}

double ground_face(const ShoeView& v, double x) {
  const double lifted = rise(v.shoe, x - v.breakover);
  return v.top - v.shoe.thickness - (v.front - x) * std::tan(v.shoe.elevation) + lifted;
}

double shoe_middle(const ShoeView& v, double x) {
  const double low = ground_face(v, x);
  return v.shoe.layer_thickness > 0 ? std::min(low + v.shoe.layer_thickness, v.top - 0.2 * (v.top - low))
                                    : 0.5 * (low + v.top);
}

double plate_top(const ShoeView& v, double x) {
  return std::min(ground_face(v, x) + v.shoe.plate_recess + v.shoe.plate_thickness, v.top);
}

double plate_bottom(const ShoeView& v, double x) {
  return std::min(ground_face(v, x) + v.shoe.plate_recess, plate_top(v, x) - 0.5 * v.shoe.plate_thickness);
}

}  // namespace hoofload::mesh
