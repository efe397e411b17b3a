#include "mesh/sagittal_sheets.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/section_facts.hpp"

namespace hoofload::mesh {
namespace {

constexpr double least_breadth = 1;
constexpr double square_depth = 8;    ///< a square toe's edge is as broad as the outline this far behind the toe
constexpr double proud_rounding = 4;  ///< proud packing is rounded off to flush at its ends
constexpr double least_filling = 0.4;
constexpr double sulci = 0.5;  ///< breadth of a filling of the frog's sulci, of the frog's breadth

bool has_end_bar(const Shoe& s) { return s.type == ShoeType::straight_bar || s.type == ShoeType::egg_bar; }

ColumnRange packing_columns(const Shoeing& s, const SagittalTemplate& t) {
  using T = SagittalTemplate;
  const int rear = has_end_bar(s.shoe) ? T::process : T::frog_rear;  // a bar takes the room at the heels
  switch (s.packing.region) {
    case PackingRegion::none:
      return {};
    case PackingRegion::full_sole:
      return {rear, t.inner_toe};
    case PackingRegion::dorsal_half:
      return {t.limit, t.inner_toe};
    case PackingRegion::palmar_two_thirds:
      return {rear, std::max(t.limit, t.apex)};
    case PackingRegion::frog_rear:
      return {rear, T::cushion};
  }
  return {};
}

ColumnRange under_frog(const ColumnRange& packing, const Shoeing& s, const SagittalTemplate& t) {
  if (packing.empty()) return {};
  const bool heart = s.shoe.type == ShoeType::heart_bar && s.pad.type != PadType::full;
  return {packing.from, std::min({packing.to, t.apex, heart ? t.limit : t.apex})};
}

ColumnRange plate_columns(const Shoeing& s, const SagittalTemplate& t) {
  if (s.shoe.type == ShoeType::full_plate) return {0, t.inner_toe};
  if (s.shoe.type == ShoeType::heart_bar) return {0, t.limit};
  return {};
}

/// Height of the face that the packing lies on.
double floor_at(const SagittalPlan& p, bool under_the_frog, double x) {
  if (p.full_pad()) return 0;
  if (under_the_frog ? p.frog_backed() : p.backed()) return plate_top(p.shoe, x);
  return ground_face(p.shoe, x);
}

/// Lower face: the floor, or beyond the ground face by `proud` where nothing holds it.
double packing_bottom(const SagittalPlan& p, bool under_the_frog, const ColumnRange& range, double x) {
  const double floor = floor_at(p, under_the_frog, x);
  if (under_the_frog ? p.frog_backed() : p.backed()) return floor;
  const auto at = [&](int line) { return p.columns.x[static_cast<std::size_t>(line)]; };
  const double rim = std::min(x - at(range.from), at(range.to) - x);
  const double t = std::clamp(1 - rim / proud_rounding, 0.0, 1.0);
  return floor - p.shoe.proud * (1 - t * t);
}

double packing_top(const SagittalPlan& p, bool under_the_frog, double x) {
  const double roof = under_the_frog ? frog_ground(p.view, x) : sole_ground(p.view, x);
  const double filled = p.shoeing.packing.thickness;
  return filled > 0 ? std::min(roof, floor_at(p, under_the_frog, x) + filled) : roof;
}

Sheet sheet_on(const SagittalPlan& p, std::vector<Interval> columns, const std::vector<int>& rows) {
  Sheet sheet;
  sheet.columns = std::move(columns);
  for (const int n : rows) sheet.rows.push_back({divided(n, p.density), 1});
  sheet.breadth = [p](const std::string& region, double x) { return region_breadth(p, region, x); };
  return sheet;
}

void fill(Sheet& sheet, int row, const ColumnRange& range, const std::string& region) {
  for (int c = range.from; c < range.to; ++c) sheet.patches.push_back({c, row, region});
}

double outer_chord(const SagittalPlan& p, double x) {
  const Shoe& s = p.shoeing.shoe;
  const double chord = shoe_outer_chord(p.plan, s, x);
  const double square_from = p.shoe.front - square_depth;
  return s.toe == ToeShape::square && x > square_from ? std::max(chord, shoe_outer_chord(p.plan, s, square_from))
                                                      : chord;
}

double packing_breadth(const SagittalPlan& p, double x) {
  const double frog = w_frog(p.plan, x);
  const double room = shoe_inner_chord(p.plan, p.shoeing.shoe, x) - frog;
  return p.shoeing.packing.region == PackingRegion::frog_rear ? std::min(room, sulci * frog) : room;
}

double breadth_unlimited(const SagittalPlan& p, const std::string& region, double x) {
  if (region == "sole") return b_sole(p.plan, x) - w_frog(p.plan, x);
  if (region == "corium") return b_corium(p.plan, x);
  if (region == "packing") return packing_breadth(p, x);
  if (region == "plate") return plate_breadth(p.plan, p.shoeing.shoe, x);
  // What the branches clamp of a full pad is part of the joint above them: the sheet is its span between them.
  if (region == "pad" && p.full_pad()) return shoe_inner_chord(p.plan, p.shoeing.shoe, x);
  if (region == "pad_toe") return outer_chord(p, x);
  if (region == "shoe" || region == "shoe_layer" || region == "pad")
    return outer_chord(p, x) - shoe_inner_chord(p.plan, p.shoeing.shoe, x);
  return w_frog(p.plan, x);  // frog, frog_plate, cushion, packing_frog
}

void check_void(const SagittalPlan& p) {
  const auto least = [&](const ColumnRange& range, bool frog) {
    for (int k = 0; k <= 20 && !range.empty(); ++k) {
      const double x = p.columns.at(range.from + (range.to - range.from) * k / 20.0);
      const double height = packing_top(p, frog, x) - floor_at(p, frog, x);
      require(height > least_filling, std::string("there is no void to fill under the ") + (frog ? "frog" : "sole") +
                                          " at " + measured("x", x) + ": " + measured("sole_cup", p.foot.sole_cup) +
                                          ", " + measured("web", p.shoeing.shoe.web) + ", " +
                                          measured("height of the void", height));
    }
  };
  least(p.packing, false);
  least(p.packing_frog, true);
}

}  // namespace

SagittalPlan sagittal_plan(const Foot& foot, const Shoeing& s, double density) {
  SagittalPlan p{foot, s, breadths(foot), side_view(foot), {}, {}, density, {}, {}, {}};
  if (!p.shod()) {
    require(s.pad.type == PadType::none, "a pad needs a shoe to hold it");
    require(s.packing.region == PackingRegion::none, "packing needs a shoe to hold it");
  } else {
    p.shoe = shoe_view(foot, s);
  }
  p.columns = sagittal_template(p.view, p.shoe, s, density);
  p.packing = packing_columns(s, p.columns);
  p.packing_frog = under_frog(p.packing, s, p.columns);
  p.plate = plate_columns(s, p.columns);
  if (p.shod()) check_void(p);
  return p;
}

double region_breadth(const SagittalPlan& p, const std::string& region, double x) {
  // stations at the very ends of the shoe must not fall outside it by rounding
  const double inside =
      p.shod() && region != "sole" ? std::clamp(x, p.shoe.end + 1e-9, std::max(x, p.shoe.end + 1e-9)) : x;
  return std::max(least_breadth, breadth_unlimited(p, region, inside));
}

Sheet core_sheet(const SagittalPlan& p) {
  using T = SagittalTemplate;
  Sheet sheet = sheet_on(p, p.columns.columns, {2, 3, 3, 4});
  fill(sheet, 0, {T::frog_rear, p.columns.apex}, "frog");
  fill(sheet, 1, {T::sole_rear, T::sole_front}, "sole");
  fill(sheet, 2, {T::sole_rear, T::sole_front}, "sole");
  fill(sheet, 3, {T::process, p.columns.tip}, "corium");
  sheet.line = [p](int line, double s) -> Vec2 {
    const double x = p.columns.at(s);
    if (line == 0) return {x, frog_ground(p.view, x)};
    if (line == 1) return {x, sole_ground(p.view, x)};
    if (line == 2) return {x, 0.5 * (sole_ground(p.view, x) + horn_top(p.view, x))};
    return {x, line == 3 ? horn_top(p.view, x) : bone_underside(p.view, x)};
  };
  return sheet;
}

Sheet cushion_sheet(const SagittalPlan& p) {
  using T = SagittalTemplate;
  Sheet sheet = sheet_on(p, p.columns.columns, {6});
  fill(sheet, 0, {T::sole_rear, T::cushion}, "cushion");
  sheet.line = [p](int line, double s) -> Vec2 {
    const double x = p.columns.at(s);
    return {x, line == 0 ? horn_top(p.view, x) : cushion_top(p.view, x)};
  };
  return sheet;
}

Sheet shoe_sheet(const SagittalPlan& p) {
  Sheet sheet = sheet_on(p, p.columns.shoe_columns, {3, 3});
  const ColumnRange all{0, static_cast<int>(sheet.columns.size())};
  fill(sheet, 0, all, p.shoeing.shoe.layer_thickness > 0 ? "shoe_layer" : "shoe");
  fill(sheet, 1, all, "shoe");
  sheet.line = [p](int line, double s) -> Vec2 {
    const double x = p.columns.shoe_at(s);
    return {x, line == 0 ? ground_face(p.shoe, x) : line == 1 ? shoe_middle(p.shoe, x) : p.shoe.top};
  };
  return sheet;
}

Sheet plate_sheet(const SagittalPlan& p) {
  Sheet sheet = sheet_on(p, p.columns.columns, {2, 2});
  for (const int row : {0, 1}) fill(sheet, row, p.plate, "plate");
  sheet.line = [p](int line, double s) -> Vec2 {
    const double x = p.columns.at(s), low = plate_bottom(p.shoe, x), high = plate_top(p.shoe, x);
    return {x, line == 0 ? low : line == 1 ? 0.5 * (low + high) : high};
  };
  return sheet;
}

Sheet pad_sheet(const SagittalPlan& p) {
  Sheet sheet = sheet_on(p, p.columns.shoe_columns, {2});
  const int end = static_cast<int>(sheet.columns.size()), span = p.full_pad() ? p.columns.inner_toe : end;
  fill(sheet, 0, {0, span}, "pad");
  fill(sheet, 0, {span, end}, "pad_toe");
  sheet.line = [p](int line, double s) -> Vec2 { return {p.columns.shoe_at(s), line == 0 ? p.shoe.top : 0}; };
  return sheet;
}

Sheet packing_sheet(const SagittalPlan& p) {
  Sheet sheet = sheet_on(p, p.columns.columns, {p.full_pad() ? 4 : 6});  // over a pad the void is shallow
  fill(sheet, 0, p.packing, "packing");
  sheet.line = [p](int line, double s) -> Vec2 {
    const double x = p.columns.at(s);
    return {x, line == 0 ? packing_bottom(p, false, p.packing, x) : packing_top(p, false, x)};
  };
  return sheet;
}

Sheet packing_frog_sheet(const SagittalPlan& p) {
  Sheet sheet = sheet_on(p, p.columns.columns, {p.full_pad() ? 2 : 4});
  fill(sheet, 0, p.packing_frog, "packing_frog");
  sheet.line = [p](int line, double s) -> Vec2 {
    const double x = p.columns.at(s);
    return {x, line == 0 ? packing_bottom(p, true, p.packing_frog, x) : packing_top(p, true, x)};
  };
  return sheet;
}

}  // namespace hoofload::mesh
