#include "viz/axisymmetric_figure.hpp"

#include <algorithm>
#include <cmath>

#include "viz/panel.hpp"
#include "viz/region_labels.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

constexpr double label_size = 13;

std::vector<Vec2> mirrored(std::vector<Vec2> points) {
  for (Vec2& p : points) p.x() = -p.x();
  return points;
}

/// Both halves as one mesh: nodes on the axis are shared, so no line and no seam shows there.
mesh::PlaneMesh doubled(const mesh::PlaneMesh& half, std::vector<int>& image) {
  mesh::PlaneMesh whole;
  whole.X = half.X;
  image.resize(half.X.size());
  for (std::size_t k = 0; k < half.X.size(); ++k) {
    const bool on_axis = std::abs(half.X[k].x()) < 1e-9;
    image[k] = static_cast<int>(on_axis ? k : whole.X.size());
    if (!on_axis) whole.X.emplace_back(-half.X[k].x(), half.X[k].y());
  }
  const auto of = [&](int n) { return image.at(static_cast<std::size_t>(n)); };
  for (const auto& block : half.blocks) {
    whole.blocks.push_back({block.region, block.tri, {}});
    for (const auto& t : block.tri)  // the mirror turns the triangle round, so its corners are walked the other way
      whole.blocks.back().tri.push_back({of(t[0]), of(t[2]), of(t[1]), of(t[5]), of(t[4]), of(t[3])});
  }
  return whole;
}

Section doubled(const Section& half, const mesh::PlaneMesh& whole, const std::vector<int>& image) {
  Section section = half;
  section.mesh = &whole;
  if (!half.u.empty()) section.u.resize(whole.X.size());
  if (!half.field.empty()) section.field.resize(whole.X.size());
  for (std::size_t k = 0; k < image.size(); ++k) {
    const auto other = static_cast<std::size_t>(image[k]);
    if (other == k) continue;
    if (!half.u.empty()) section.u[other] = {-half.u[k].x(), half.u[k].y()};
    if (!half.field.empty()) section.field[other] = half.field.at(k);
  }
  return section;
}

/// Both halves of the window, with room above for the load's arrow and below for the scale bar.
Window whole_window(const AxisymmetricView& axial, const std::vector<Vec2>& x) {
  Window half = axial.window.value_or(window_of(x, 5));
  if (!axial.window) {
    half.high.y() += axial.load > 0 ? axial.mm_per_newton * axial.load : 0;
    half.low.y() -= 9;
  }
  return {{-half.high.x(), half.low.y()}, half.high};
}

/// The mirror walks the surface the other way round, so that the body stays on its left.
PressureRibbon mirrored(const PressureRibbon& profile) {
  PressureRibbon other{mirrored(profile.at), profile.pressure};
  std::reverse(other.at.begin(), other.at.end());
  std::reverse(other.pressure.begin(), other.pressure.end());
  return other;
}

/// The load presses down on the top of the body at the axis.
Mark load_mark(const AxisymmetricView& axial, const std::vector<Vec2>& x, const View& view) {
  if (axial.load <= 0) return {};
  double top = x.front().y();
  for (const Vec2& p : x) top = std::max(top, p.y());
  const double length = axial.mm_per_newton * axial.load;
  const Vec2 from = to_page(view, Vec2(0, top + length)), to = to_page(view, Vec2(0, top));
  return {svg::line(from, to - Vec2(0, 10), {.stroke = force_colour, .width = 2.6}) +
              arrow_head(to, {0, 1}, 15, force_colour),
          {{from, "load " + number_text(axial.load) + " N", {1, 0.5}, force_colour}},
          {{from - Vec2(5, 0), to + Vec2(5, 0)}}};
}

std::string plot(const AxisymmetricView& axial, const Section& whole, const std::vector<Vec2>& x, const View& view) {
  std::string out = axial.ground ? ground({{0, *axial.ground}, {1, 0}}, view) : "";
  out += drawn_section(whole, x, axial.scale, view);
  if (!whole.u.empty()) out += dashed_outline(whole, whole.mesh->X, view);
  Mark marks = ribbon(axial.sole, axial.mm_per_kpa, view);
  const Mark other = ribbon(mirrored(axial.sole), axial.mm_per_kpa, view), load = load_mark(axial, x, view);
  const Mark bar = scale_bar(whole.deformation_scale, view);
  out += marks.drawing + other.drawing;
  out += svg::line(to_page(view, Vec2(0, view.window.low.y())), to_page(view, Vec2(0, view.window.high.y())),
                   {.stroke = page::soft_ink, .width = 0.8, .dash = "12 3 2 3"});
  for (const Mark* m : {&other, &load, &bar}) {
    marks.taken.insert(marks.taken.end(), m->taken.begin(), m->taken.end());
    marks.labels.insert(marks.labels.end(), m->labels.begin(), m->labels.end());
  }
  const auto names = region_labels(whole, x, view, label_size);
  marks.labels.insert(marks.labels.end(), names.begin(), names.end());
  const Box bounds{view.corner, view.corner + view.size};
  return svg::clipped(view.corner, view.size, out + load.drawing) +
         drawn(place(marks.labels, marks.taken, bounds, label_size), label_size) + bar.drawing;
}

std::vector<KeyLine> key_lines(const AxisymmetricView& axial) {
  auto lines = region_lines(axial.section);
  if (!axial.section.u.empty()) lines.push_back({Sign::dashed, "#000000", "unloaded"});
  const auto peak = std::max_element(axial.sole.pressure.begin(), axial.sole.pressure.end());
  if (peak != axial.sole.pressure.end())
    lines.push_back({Sign::ribbon, ribbon_colour,
                     *peak > 0 ? "pressure on the sole, at most " + number_text(*peak) +
                                     " kPa (10 mm = " + number_text(10 / axial.mm_per_kpa) + " kPa)"
                               : "pressure on the sole: none"});
  return lines;
}

}  // namespace

std::string axisymmetric_figure(const AxisymmetricView& axial) {
  const auto half = drawn_positions(axial.section);
  std::vector<int> image;
  const mesh::PlaneMesh mesh = doubled(*axial.section.mesh, image);
  const Section whole = doubled(axial.section, mesh, image);
  const auto x = drawn_positions(whole);
  const View view = fitted_view(whole_window(axial, half), {page::margin, page::heading_height},
                                {page::plot_width, page::plot_height});
  const bool has_field = !axial.section.field.empty();
  const Piece bar = has_field ? colour_bar(axial.scale, field_range(axial.section), page::heading_height)
                              : Piece{"", page::heading_height};
  const Piece signs = key(key_lines(axial), bar.bottom);
  const Piece numbers = facts(axial.heading.facts, signs.bottom);
  std::string description = "Axisymmetric section, mirrored about its axis.";
  for (const auto& fact : axial.heading.facts) description += " " + fact + ".";
  return framed(axial.heading, description, std::max(view.corner.y() + view.size.y(), numbers.bottom),
                plot(axial, whole, x, view) + bar.drawing + signs.drawing + numbers.drawing);
}

}  // namespace hoofload::viz
