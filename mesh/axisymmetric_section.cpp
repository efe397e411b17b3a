#include "mesh/axisymmetric_section.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/axisymmetric_shape.hpp"
#include "mesh/layered_grid.hpp"
#include "mesh/section_parts.hpp"

namespace hoofload::mesh {
namespace {

// Column lines: 0 axis, 1 edge of a partial packing, 2 shoe's inner edge, 3 inside of white line and lamella,
// 4 wall's inner face, 5 wall's outer face.
constexpr int columns = 5;

/// What every sheet is built from.
struct Plan {
  AxisymmetricShape a;
  Shoeing s;
  double density;
  std::vector<Interval> across;
  std::array<double, 5> station;             ///< radii of column lines 0..4 on the sole's underside
  std::array<std::array<double, 2>, 2> rim;  ///< on the horn's and on the corium's top: radii of column lines 3 and 4

  [[nodiscard]] double top() const { return a.heights.back(); }
  [[nodiscard]] bool shod() const { return s.shoe.type != ShoeType::bare; }
  [[nodiscard]] bool packed() const { return s.packing.region != PackingRegion::none; }
  /// First and past-the-last void column that the packing fills.
  [[nodiscard]] int packed_from() const { return s.packing.region == PackingRegion::dorsal_half ? 1 : 0; }
  [[nodiscard]] int packed_to() const {
    const auto r = s.packing.region;
    return r == PackingRegion::palmar_two_thirds || r == PackingRegion::frog_rear ? 1 : 2;
  }
};

Plan plan_of(const AxisymmetricShape& a, const Shoeing& s, double density) {
  const double horn = a.horn, corium = a.horn + a.corium;
  Plan p{a,
         s,
         density,
         {},
         {0, a.split, a.inner, a.meet(0, a.strip), a.wall_inner},
         {{{a.meet(horn, a.strip), a.meet(horn, 0)}, {a.meet(corium, a.strip), a.meet(corium, 0)}}}};
  const bool partial = p.packed() && s.packing.region != PackingRegion::full_sole;
  // The mesh is graded toward the packing's rim and the shoe's inner edge, where the pressure changes fastest.
  p.across = {{divided(13, density), partial ? 0.5 : 0.8},
              {divided(13, density), 0.5},
              {divided(8, density), 1},
              {divided(3, density), 1},
              {divided(5, density), 1}};
  return p;
}

double interpolate(const Plan& p, double s) {
  const int k = std::min(static_cast<int>(std::floor(s)), 3);
  const auto i = static_cast<std::size_t>(k);
  return p.station[i] + (s - k) * (p.station[i + 1] - p.station[i]);
}

/// Point at abscissa s on a flat line: stations, then the bearing face of the wall.
Vec2 flat(const Plan& p, double s, double y) {
  if (s <= 4) return {interpolate(p, s), y};
  return {p.a.wall_inner + (s - 4) * (p.a.radius - p.a.wall_inner), y};
}

/// The dome raised by `up`, to the top of the horn (0) or corium (1): radii shrink in proportion to the wall's inner face,
/// lamella and wall keep their width.
Vec2 raised_dome(const Plan& p, double s, std::size_t which, double up) {
  const auto [inside, wall] = p.rim[which];
  const double r =
      s <= 3 ? interpolate(p, s) * inside / p.station[3] : inside + (std::min(s, 4.0) - 3) * (wall - inside);
  const double y = p.a.dome(r) + up;
  if (s <= 4) return {r, y};
  return {wall + (s - 4) * (p.a.wall_in(y) + p.a.radius - p.a.wall_inner - wall), y};
}

/// A flat line across bone, lamella and wall at height y.
Vec2 raised_flat(const Plan& p, double s, double y) {
  const double inside = p.a.wall_in(y, p.a.strip), wall = p.a.wall_in(y);
  if (s <= 3) return {interpolate(p, s) * inside / p.station[3], y};
  if (s <= 4) return {inside + (s - 3) * (wall - inside), y};
  return {wall + (s - 4) * (p.a.radius - p.a.wall_inner), y};
}

Sheet foot_sheet(const Plan& p) {
  Sheet sheet;
  sheet.columns = p.across;
  for (const int n : {6, 4, 11, 6}) sheet.rows.push_back({divided(n, p.density), 1});
  for (int c = 0; c < 3; ++c)
    for (const auto& [row, region] : {std::pair{0, "sole"}, {1, "corium"}, {2, "bone"}})
      sheet.patches.push_back({c, row, region});
  for (const auto& [row, region] : {std::pair{0, "white_line"}, {1, "lamella"}, {2, "lamella"}})
    sheet.patches.push_back({3, row, region});
  for (int row = 0; row < 4; ++row) sheet.patches.push_back({4, row, "wall"});
  sheet.line = [p](int line, double s) -> Vec2 {
    const AxisymmetricShape& a = p.a;
    if (line == 0) return s <= 4 ? Vec2{interpolate(p, s), a.dome(interpolate(p, s))} : flat(p, s, 0);
    if (line == 1) return raised_dome(p, s, 0, a.horn);
    if (line == 2) return raised_dome(p, s, 1, a.horn + a.corium);
    return raised_flat(p, s, line == 3 ? a.lamella_top : a.coronet);
  };
  return sheet;
}

/// Rows between the height lines `from` and `to`: six divisions shared among the shoe's rows, two in the pad.
std::vector<Interval> height_rows(const Plan& p, int from, int to) {
  std::vector<Interval> rows;
  for (int k = from; k < to; ++k) {
    const int n = k >= p.a.shoe_to ? 2 : std::max(2, 6 / std::max(1, p.a.shoe_to));
    rows.push_back({divided(n, p.density), 1});
  }
  return rows;
}

Sheet shoe_sheet(const Plan& p) {
  Sheet sheet;
  sheet.columns = p.across;
  sheet.rows = height_rows(p, 0, p.a.shoe_to);
  for (int row = 0; row < p.a.shoe_to; ++row) {
    const bool plate = row >= p.a.plate_from && row < p.a.plate_to;
    for (int c = plate ? 0 : 2; c < columns; ++c)
      sheet.patches.push_back({c, row, c < 2 ? "plate" : row < p.a.layer_to ? "shoe_layer" : "shoe"});
  }
  sheet.line = [p](int line, double s) { return flat(p, s, p.a.heights[static_cast<std::size_t>(line)]); };
  return sheet;
}

Sheet pad_sheet(const Plan& p) {
  Sheet sheet;
  sheet.columns = p.across;
  sheet.rows = height_rows(p, p.a.shoe_to, static_cast<int>(p.a.heights.size()) - 1);
  for (int c = p.s.pad.type == PadType::full ? 0 : 2; c < columns; ++c) sheet.patches.push_back({c, 0, "pad"});
  sheet.line = [p](int line, double s) {
    return flat(p, s, p.a.heights[static_cast<std::size_t>(p.a.shoe_to + line)]);
  };
  return sheet;
}

/// The packing stands `proud_below` out of the ground face, rounded off to flush within 4 mm of its rims.
double proud_at(const Plan& p, double r) {
  const double from = p.station[static_cast<std::size_t>(p.packed_from())],
               to = p.station[static_cast<std::size_t>(p.packed_to())];
  const double rim = std::min(to - r, p.packed_from() == 0 ? to - r : r - from);
  const double t = std::clamp(1 - rim / 4, 0.0, 1.0);
  return p.a.proud_below * (1 - t * t);
}

Sheet packing_sheet(const Plan& p) {
  Sheet sheet;
  const int floor = p.a.floor, below = p.a.fill_to - floor;
  sheet.columns = p.across;
  sheet.rows = height_rows(p, floor, p.a.fill_to);
  if (p.a.fill_top > 0) sheet.rows.push_back({divided(5, p.density), 1});
  for (int row = 0; row < static_cast<int>(sheet.rows.size()); ++row)
    for (int c = p.packed_from(); c < p.packed_to(); ++c) sheet.patches.push_back({c, row, "packing"});
  sheet.line = [p, floor, below](int line, double s) -> Vec2 {
    const double r = interpolate(p, s);
    if (line > below) return {r, std::min(p.a.dome(r), p.a.fill_top)};
    return {r, p.a.heights[static_cast<std::size_t>(floor + line)] - (line == 0 ? proud_at(p, r) : 0)};
  };
  return sheet;
}

void name_foot_edges(PlaneMesh& mesh, const Plan& p, const Part& foot) {
  mesh.edges["sole_surface"] = rows_of(foot, 0, 0, 4, Body::above);
  mesh.edges["bone_corium"] = rows_of(foot, 2, 0, 3, Body::above);
  mesh.edges["bone_lamella"] = columns_of(foot, 3, 2, 3, Body::left);
  mesh.edges["bone_top"] = rows_of(foot, 3, 0, 3, Body::below);
  mesh.edges["wall_outer"] = columns_of(foot, 5, 0, 4, Body::left);
  mesh.edges["wall_top"] = rows_of(foot, 4, 4, 5, Body::below);
  mesh.edges["axis"] = columns_of(foot, 0, 0, 3, Body::right);
  if (p.shod()) return;
  mesh.edges["ground_sole"] = mesh.edges["sole_surface"];
  mesh.edges["ground_wall"] = rows_of(foot, 0, 4, 5, Body::above);
}

/// Shoe, plate and pad: what the foot stands on. `top` is the sheet whose upper face meets the wall, on its line `top_line`.
struct Stand {
  Part shoe, top;
  int top_line;
};

Stand add_stand(PlaneMesh& mesh, const Plan& p) {
  const Part shoe = add_sheet(mesh, shoe_sheet(p));
  const int n = p.a.shoe_to;
  mesh.edges["ground_shoe"] = rows_of(shoe, 0, 2, 5, Body::above);
  mesh.edges["shoe_top"] = rows_of(shoe, n, 2, 5, Body::below);
  if (p.a.plate_from >= 0) {
    mesh.edges["ground_plate"] = rows_of(shoe, p.a.plate_from, 0, 2, Body::above);
    mesh.edges["plate_top"] = rows_of(shoe, p.a.plate_to, 0, 2, Body::below);
    extend(mesh.edges["axis"], columns_of(shoe, 0, p.a.plate_from, p.a.plate_to, Body::right));
  }
  if (p.s.pad.type == PadType::none) return {shoe, shoe, n};
  const Part pad = add_sheet(mesh, pad_sheet(p));
  join(mesh, "pad_shoe", rows_of(pad, 0, 2, 5, Body::above), mesh.edges["shoe_top"], Along::x);
  if (p.s.pad.type == PadType::full) {
    extend(mesh.edges["axis"], columns_of(pad, 0, 0, 1, Body::right));
    mesh.edges["pad_top"] = rows_of(pad, 1, 0, 5, Body::below);
    if (p.a.plate_from >= 0)
      join(mesh, "pad_plate", rows_of(pad, 0, 0, 2, Body::above), mesh.edges["plate_top"], Along::x, {p.a.inner});
  }
  return {shoe, pad, 1};
}

void join_foot_to_stand(PlaneMesh& mesh, const Plan& p, const Part& foot, const Stand& stand) {
  join(mesh, "wall_shoe", rows_of(foot, 0, 4, 5, Body::above), rows_of(stand.top, stand.top_line, 4, 5, Body::below),
       Along::x);
  join(mesh, "sole_shoe", rows_of(foot, 0, 2, 4, Body::above), rows_of(stand.top, stand.top_line, 2, 4, Body::below),
       Along::x, {p.a.inner, p.a.wall_inner});
  const bool pad = p.s.pad.type == PadType::full;
  if (!pad && p.a.plate_from < 0) return;
  // Where no packing lies between, the sole may come down on the plate or pad.
  std::vector<double> except{p.a.inner};
  if (p.packed()) except.push_back(p.a.split);
  for (int c = 0; c < 2; ++c) {
    if (p.packed() && c >= p.packed_from() && c < p.packed_to()) continue;
    const EdgeSet floor =
        pad ? rows_of(stand.top, 1, c, c + 1, Body::below) : rows_of(stand.shoe, p.a.plate_to, c, c + 1, Body::below);
    join(mesh, pad ? "sole_pad" : "sole_plate", rows_of(foot, 0, c, c + 1, Body::above), floor, Along::x, except);
    if (!p.packed()) except.push_back(p.a.split);  // the shared station is listed once
  }
}

void add_packing(PlaneMesh& mesh, const Plan& p, const Part& foot, const Stand& stand) {
  const Part packing = add_sheet(mesh, packing_sheet(p));
  const int from = p.packed_from(), to = p.packed_to(), rows = p.a.fill_to - p.a.floor;
  const int top = rows + (p.a.fill_top > 0 ? 1 : 0);
  join(mesh, "sole_packing", rows_of(packing, top, from, to, Body::below), rows_of(foot, 0, from, to, Body::above),
       Along::x);
  const EdgeSet under = rows_of(packing, 0, from, to, Body::above);
  if (p.s.pad.type == PadType::full)
    join(mesh, "packing_backing", under, rows_of(stand.top, 1, from, to, Body::below), Along::x);
  else if (p.a.plate_from >= 0)
    join(mesh, "packing_backing", under, rows_of(stand.shoe, p.a.plate_to, from, to, Body::below), Along::x);
  else
    mesh.edges["ground_packing"] = under;
  if (from == 0) extend(mesh.edges["axis"], columns_of(packing, 0, 0, top, Body::right));
  if (to < 2) return;
  const int shoe_rows = std::clamp(p.a.shoe_to - p.a.floor, 0, rows);
  if (shoe_rows > 0)
    join(mesh, "packing_shoe", columns_of(packing, 2, 0, shoe_rows, Body::left),
         columns_of(stand.shoe, 2, p.a.floor, p.a.floor + shoe_rows, Body::right), Along::y);
  if (p.s.pad.type == PadType::rim && rows > shoe_rows)
    join(mesh, "packing_pad", columns_of(packing, 2, shoe_rows, rows, Body::left),
         columns_of(stand.top, 2, 0, 1, Body::right), Along::y);
}

}  // namespace

AxisymmetricSection axisymmetric_section(const Foot& foot, const Shoeing& shoeing, double lamella_area,
                                         double density) {
  const Plan p = plan_of(axisymmetric_shape(foot, shoeing, lamella_area), shoeing, density);
  AxisymmetricSection out{};
  const Part body = add_sheet(out.mesh, foot_sheet(p));
  name_foot_edges(out.mesh, p, body);
  if (p.shod()) {
    const Stand stand = add_stand(out.mesh, p);
    join_foot_to_stand(out.mesh, p, body, stand);
    if (p.packed()) add_packing(out.mesh, p, body, stand);
    out.shoe_inner = p.a.inner;
  }
  for (const int id : nodes_of(out.mesh.edges["axis"])) out.mesh.X[static_cast<std::size_t>(id)].x() = 0;
  out.quality = checked_quality(out.mesh, "axisymmetric");
  out.radius = p.a.radius;
  if (p.packed()) {
    out.packing_from = p.station[static_cast<std::size_t>(p.packed_from())];
    out.packing_to = p.station[static_cast<std::size_t>(p.packed_to())];
  }
  out.void_from = p.a.heights[static_cast<std::size_t>(p.a.floor)];
  out.void_to = p.a.cup;
  out.lamella_from = p.a.dome(p.a.meet(p.a.horn, 0)) + p.a.horn;
  out.lamella_to = p.a.lamella_top;
  out.coronet = p.a.coronet;
  out.notes = p.a.notes;
  return out;
}

}  // namespace hoofload::mesh
