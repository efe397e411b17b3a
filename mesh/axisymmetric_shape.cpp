#include "mesh/axisymmetric_shape.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "mesh/section_facts.hpp"

namespace hoofload::mesh {
namespace {

constexpr double merge_below = 0.25;  ///< row lines nearer than this [mm] become one: thinner rows would be slivers
constexpr double thinnest_void = 0.6;

void check_lengths(const Foot& f, const Shoeing& s) {
  require(f.bearing_width > 40, measured("bearing_width", f.bearing_width) + " is too narrow for a foot");
  require(f.sole_cup > 0.5, measured("sole_cup", f.sole_cup) + " leaves no void: it must exceed 0.5 mm");
  require(f.sole_horn > 1, measured("sole_horn", f.sole_horn) + " is not a sole");
  require(f.sole_cup + f.sole_depth_tip + 12 < f.cor_height,
          "the sole is deeper than the bone is high: " + measured("sole_depth_tip", f.sole_depth_tip) + " and " +
              measured("sole_cup", f.sole_cup) + " under a joint at " + measured("cor_height", f.cor_height));
  require(f.sole_depth_tip - f.sole_horn > 0.79, measured("sole_depth_tip", f.sole_depth_tip) + " must exceed " +
                                                     measured("sole_horn", f.sole_horn) +
                                                     " by at least 0.8 mm: corium lies between horn and bone");
  if (s.shoe.type == ShoeType::bare) {
    require(s.pad.type == PadType::none, "a pad needs a shoe to hold it");
    require(s.packing.region == PackingRegion::none, "packing needs a shoe to hold it");
    return;
  }
  require(s.shoe.thickness > 1, measured("shoe thickness", s.shoe.thickness) + " is too thin");
  require(s.shoe.layer_thickness >= 0 && s.shoe.layer_thickness < s.shoe.thickness,
          measured("layer_thickness", s.shoe.layer_thickness) + " must be less than " +
              measured("shoe thickness", s.shoe.thickness));
  require(s.pad.type == PadType::none || s.pad.thickness > 0.5,
          measured("pad thickness", s.pad.thickness) + " is too thin");
  require(
      s.shoe.type != ShoeType::full_plate || (s.shoe.plate_thickness > 0.5 && s.shoe.plate_recess >= 0 &&
                                              s.shoe.plate_recess + s.shoe.plate_thickness <= s.shoe.thickness + 1e-9),
      measured("plate_thickness", s.shoe.plate_thickness) + " and " + measured("plate_recess", s.shoe.plate_recess) +
          " do not fit in " + measured("shoe thickness", s.shoe.thickness));
  require(s.packing.proud >= 0 && s.packing.thickness >= 0, "packing proud and thickness must not be negative");
}

/// Wall and lamella: the lamella's outer face is the part of the wall's inner cone with the given area.
void set_wall(AxisymmetricShape& a, const Foot& f, double lamella_area) {
  const double lean = std::sqrt(1 + a.slope * a.slope);
  a.radius = f.bearing_width / 2;
  a.wall_inner = a.radius - lean * (f.wall_thickness_toe + 2 * f.wall_thickness_quarter + f.wall_thickness_heel) / 4;
  a.strip = lean * f.lamella_thickness;
  a.cup = f.sole_cup, a.horn = f.sole_horn, a.corium = f.sole_depth_tip - f.sole_horn;
  require(a.wall_inner > 15,
          "the wall's thickness leaves no sole inside " + measured("bearing_width", f.bearing_width));
  const double from = a.dome(a.meet(a.horn, 0)) + a.horn, r = a.wall_in(from);
  // area = pi lean (2 r h - slope h^2)
  const double root = r * r - a.slope * lamella_area / (std::numbers::pi * lean);
  require(root > 0, "the lamellar area does not fit on the wall of " + measured("bearing_width", f.bearing_width));
  a.lamella_top = from + (r - std::sqrt(root)) / a.slope;
  const double bone_under = a.cup + a.horn + a.corium;
  require(a.lamella_top > bone_under + 3,
          "the sole is thicker than the bone is high: " + measured("sole_cup", f.sole_cup) + " and " +
              measured("sole_depth_tip", f.sole_depth_tip) + " reach above the lamella's top at " +
              measured("height", a.lamella_top));
  const double dorsal = f.toe_length * std::sin(f.toe_angle), heel = f.heel_length * std::sin(f.heel_angle);
  require(a.lamella_top < dorsal, "the lamellar area needs a wall higher than toe_length and toe_angle give: " +
                                      measured("height", a.lamella_top));
  a.coronet = std::max(0.5 * (dorsal + heel), a.lamella_top + 3);
}

/// Merges lines that nearly coincide and returns the index of the line that stands for `height`.
int line_at(std::vector<double>& heights, double height) {
  for (std::size_t k = 0; k < heights.size(); ++k)
    if (std::abs(heights[k] - height) < merge_below) return static_cast<int>(k);
  heights.insert(std::upper_bound(heights.begin(), heights.end(), height), height);
  return line_at(heights, height);
}

void set_heights(AxisymmetricShape& a, const Shoeing& s) {
  const bool bare = s.shoe.type == ShoeType::bare, plate = s.shoe.type == ShoeType::full_plate;
  const double pad = s.pad.type == PadType::none ? 0 : s.pad.thickness;
  const double ground = bare ? 0 : -pad - s.shoe.thickness;
  const double plate_top = ground + s.shoe.plate_recess + s.shoe.plate_thickness;
  const double floor = s.pad.type == PadType::full ? 0 : plate ? plate_top : ground;
  a.fill_top = s.packing.thickness > 0 ? floor + s.packing.thickness : std::numeric_limits<double>::infinity();
  // A flat top within a hair of the bearing plane would leave a sliver of a row below the dome.
  if (std::abs(a.fill_top) < thinnest_void) a.fill_top = 0;
  std::vector<double> h = bare ? std::vector<double>{0} : std::vector<double>{ground, -pad};
  if (pad > 0) line_at(h, 0);
  if (plate) line_at(h, ground + s.shoe.plate_recess), line_at(h, plate_top);
  if (s.shoe.layer_thickness > 0) line_at(h, ground + s.shoe.layer_thickness);
  if (s.packing.region != PackingRegion::none && a.fill_top <= 0) line_at(h, a.fill_top);
  if (plate) a.plate_from = line_at(h, ground + s.shoe.plate_recess), a.plate_to = line_at(h, plate_top);
  if (s.shoe.layer_thickness > 0) a.layer_to = line_at(h, ground + s.shoe.layer_thickness);
  a.shoe_to = bare ? 0 : line_at(h, -pad);
  a.floor = line_at(h, floor);
  a.fill_to = a.fill_top <= 0 ? line_at(h, a.fill_top) : static_cast<int>(h.size()) - 1;
  if (a.floor == 0 && a.plate_from != 0 && s.pad.type != PadType::full) a.proud_below = s.packing.proud;
  a.heights = std::move(h);
}

void set_packing(AxisymmetricShape& a, const Foot& f, const Shoeing& s) {
  const double frog = 0.75 * 0.5 * f.frog_width * f.frog_length;
  switch (s.packing.region) {
    case PackingRegion::none:
    case PackingRegion::full_sole:
      a.split = 0.6 * a.inner;
      return;
    case PackingRegion::dorsal_half:
      a.split = a.inner * std::sqrt(0.5);
      break;
    case PackingRegion::palmar_two_thirds:
      a.split = a.inner * std::sqrt(2.0 / 3);
      break;
    case PackingRegion::frog_rear:
      a.split = std::clamp(std::sqrt(frog / std::numbers::pi), 0.2 * a.inner, 0.85 * a.inner);
      break;
  }
  a.notes.push_back("packing region: represented by the same share of the void's area, round the axis");
}

void add_notes(AxisymmetricShape& a, const Shoe& s) {
  if (s.type == ShoeType::straight_bar || s.type == ShoeType::egg_bar || s.type == ShoeType::heart_bar)
    a.notes.push_back("bar: no axisymmetric counterpart, treated as an open shoe");
  if (s.setback != 0) a.notes.push_back("setback: no axisymmetric counterpart, left out");
  if (s.elevation != 0) a.notes.push_back("elevation: no axisymmetric counterpart, left out");
  if (s.toe != ToeShape::flat) a.notes.push_back("toe shape: no axisymmetric counterpart, left out");
}

}  // namespace

double AxisymmetricShape::meet(double up, double off) const {
  double a = 0, b = wall_inner;
  for (int k = 0; k < 200; ++k) {
    const double m = 0.5 * (a + b);
    (m > wall_in(dome(m) + up, off) ? b : a) = m;
  }
  return 0.5 * (a + b);
}

AxisymmetricShape axisymmetric_shape(const Foot& foot, const Shoeing& shoeing, double lamella_area) {
  check_lengths(foot, shoeing);
  AxisymmetricShape a{};
  a.plate_from = a.plate_to = -1;
  a.slope = 18.0 / 80;
  set_wall(a, foot, lamella_area);
  const bool bare = shoeing.shoe.type == ShoeType::bare;
  const double rim = a.meet(0, a.strip);
  a.inner = bare ? 0.77 * a.wall_inner : a.radius - shoeing.shoe.web;
  require(a.inner < rim - 2, measured("web", shoeing.shoe.web) + " is too narrow: it must cover wall and white line (" +
                                 measured("at least", a.radius - rim + 2) + ")");
  require(a.inner > 0.3 * a.radius,
          measured("web", shoeing.shoe.web) + " is too wide for " + measured("bearing_width", foot.bearing_width));
  set_packing(a, foot, shoeing);
  set_heights(a, shoeing);
  require(shoeing.packing.region == PackingRegion::none || a.dome(a.inner) > thinnest_void,
          "there is no void to fill at the shoe's inner edge: " + measured("sole_cup", foot.sole_cup) + ", " +
              measured("web", shoeing.shoe.web));
  require(shoeing.packing.region == PackingRegion::none || a.fill_to != a.floor || a.fill_top > 0,
          measured("packing thickness", shoeing.packing.thickness) + " is too thin");
  if (!bare) add_notes(a, shoeing.shoe);
  return a;
}

}  // namespace hoofload::mesh
