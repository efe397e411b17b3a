#include "viz/side_view_figure.hpp"

#include <algorithm>
#include <cmath>

#include "viz/panel.hpp"
#include "viz/region_labels.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

constexpr double label_size = 13;
constexpr const char* wall_tone = "#e4dac6";
constexpr const char* bone_tone = "#f7f5ee";

void append(std::vector<Vec2>& to, const std::vector<Vec2>& more) { to.insert(to.end(), more.begin(), more.end()); }

/// Everything that must be seen, arrow tips included.
Window whole_window(const SideView& side, const std::vector<Vec2>& x) {
  std::vector<Vec2> points = x;
  append(points, side.outer_wall);
  append(points, side.coronet);
  for (const auto& bone : side.bones) append(points, bone.points);
  for (const auto& cable_path : side.cables) append(points, cable_path.path);
  for (const auto& force : side.forces) {
    points.push_back(force.at);
    points.emplace_back(force.at + side.mm_per_newton * force.force);
  }
  Window window = window_of(points, 6);
  window.low.y() -= 8;  // the scale bar's place
  return window;
}

/// Wall in the mid-plane between its two faces, behind everything else; the silhouette's lines lie over it.
std::string capsule_tone(const SideView& side, const View& view) {
  if (side.outer_wall.size() < 2 || side.inner_wall.size() < 2) return "";
  std::vector<Vec2> band = side.outer_wall;
  band.insert(band.end(), side.inner_wall.rbegin(), side.inner_wall.rend());
  return svg::polygons({to_page(view, band)}, {.fill = wall_tone});
}

std::string capsule_lines(const SideView& side, const View& view) {
  const svg::Pen thick{.stroke = page::ink, .width = 1.8};
  return svg::polyline(to_page(view, side.outer_wall), thick) + svg::polyline(to_page(view, side.coronet), thick) +
         svg::polyline(to_page(view, side.inner_wall), {.stroke = page::ink, .width = 0.9});
}

Vec2 centroid(const std::vector<Vec2>& polygon) {
  Vec2 sum(0, 0);
  double twice = 0;
  for (std::size_t k = 0; k < polygon.size(); ++k) {
    const Vec2 &a = polygon[k], &b = polygon[(k + 1) % polygon.size()];
    const double cross = a.x() * b.y() - b.x() * a.y();
    sum += cross * (a + b);
    twice += cross;
  }
  return std::abs(twice) > 0 ? Vec2(sum / (3 * twice)) : polygon.front();
}

Mark bone_mark(const Shape& bone, const View& view) {
  if (bone.points.size() < 3) return {};
  const auto px = to_page(view, bone.points);
  Box box{px.front(), px.front()};
  for (const Vec2& p : px) box = {box.low.cwiseMin(p), box.high.cwiseMax(p)};
  // A bone too small for its name is kept free, so that the name goes beside it.
  const bool fits = box.high.x() - box.low.x() > 1.2 * svg::text_width(bone.name, label_size);
  return {svg::polygons({px}, {.stroke = page::ink, .width = 1.2, .fill = bone_tone}),
          {{centroid(px), bone.name, {0, 0}, page::soft_ink}},
          fits ? std::vector<Box>{} : std::vector<Box>{box}};
}

Mark joint_mark(const Vec2& joint, const View& view) {
  const Vec2 c = to_page(view, joint), half(7, 7);
  return {svg::circle(c, 5.5, {.stroke = page::ink, .width = 1.6, .fill = "#ffffff"}) +
              svg::circle(c, 1.6, {.fill = page::ink}),
          {},
          {{c - half, c + half}}};
}

void add(Mark& sum, const Mark& more) {
  sum.drawing += more.drawing;
  sum.labels.insert(sum.labels.end(), more.labels.begin(), more.labels.end());
  sum.taken.insert(sum.taken.end(), more.taken.begin(), more.taken.end());
}

/// Marks over the section, forces last so that they lie on top; their labels come first in importance.
Mark all_marks(const SideView& side, const View& view) {
  Mark marks = ribbon(side.sole, side.mm_per_kpa, view);
  for (const auto& path : side.cables) add(marks, cable(path, view));
  for (const auto& force : side.forces) add(marks, force_arrow(force, side.mm_per_newton, view));
  if (side.joint) add(marks, joint_mark(*side.joint, view));
  return marks;
}

std::string plot(const SideView& side, const std::vector<Vec2>& x, const View& view) {
  Mark bones;
  for (const auto& bone : side.bones) add(bones, bone_mark(bone, view));
  Mark marks = all_marks(side, view);
  marks.labels.insert(marks.labels.end(), bones.labels.begin(), bones.labels.end());
  marks.taken.insert(marks.taken.end(), bones.taken.begin(), bones.taken.end());
  const auto names = region_labels(side.section, x, view, label_size);
  marks.labels.insert(marks.labels.end(), names.begin(), names.end());
  const Mark bar = scale_bar(side.section.deformation_scale, view);
  marks.taken.insert(marks.taken.end(), bar.taken.begin(), bar.taken.end());

  std::string out = side.ground ? ground(*side.ground, view) : "";
  out += capsule_tone(side, view) + bones.drawing + drawn_section(side.section, x, side.scale, view);
  if (!side.section.u.empty()) out += dashed_outline(side.section, side.section.mesh->X, view);
  out += capsule_lines(side, view) + marks.drawing;
  const Box bounds{view.corner, view.corner + view.size};
  return svg::clipped(view.corner, view.size, out) +
         drawn(place(marks.labels, marks.taken, bounds, label_size), label_size) + bar.drawing;
}

std::vector<KeyLine> key_lines(const SideView& side) {
  auto lines = region_lines(side.section);
  if (!side.outer_wall.empty()) lines.push_back({Sign::area, wall_tone, "hoof wall (3D capsule), mid-plane"});
  if (!side.section.u.empty()) lines.push_back({Sign::dashed, "#000000", "unloaded"});
  const auto peak = std::max_element(side.sole.pressure.begin(), side.sole.pressure.end());
  if (peak != side.sole.pressure.end())
    lines.push_back({Sign::ribbon, ribbon_colour,
                     *peak > 0 ? "pressure on the sole, at most " + number_text(*peak) +
                                     " kPa (10 mm = " + number_text(10 / side.mm_per_kpa) + " kPa)"
                               : "pressure on the sole: none"});
  if (!side.forces.empty())
    lines.push_back({Sign::arrow, force_colour, "force (10 mm = " + number_text(10 / side.mm_per_newton) + " N)"});
  if (!side.cables.empty()) lines.push_back({Sign::arrow, cable_colour, "tendon along its path"});
  if (side.joint) lines.push_back({Sign::joint, page::ink, "coffin joint, centre"});
  return lines;
}

std::string described(const SideView& side) {
  std::string out = "Side view of the foot.";
  for (const auto& force : side.forces) out += " " + force.name + " " + number_text(force.force.norm()) + " N.";
  for (const auto& path : side.cables) out += " " + path.name + " " + number_text(path.tension) + " N.";
  for (const auto& fact : side.heading.facts) out += " " + fact + ".";
  return out;
}

}  // namespace

std::string side_view_figure(const SideView& side) {
  const auto x = drawn_positions(side.section);
  const Window window = side.window.value_or(whole_window(side, x));
  const View view = fitted_view(window, {page::margin, page::heading_height}, {page::plot_width, page::plot_height});
  const bool has_field = !side.section.field.empty();
  const Piece bar = has_field ? colour_bar(side.scale, field_range(side.section), page::heading_height)
                              : Piece{"", page::heading_height};
  const Piece signs = key(key_lines(side), bar.bottom);
  const Piece numbers = facts(side.heading.facts, signs.bottom);
  return framed(side.heading, described(side), std::max(view.corner.y() + view.size.y(), numbers.bottom),
                plot(side, x, view) + bar.drawing + signs.drawing + numbers.drawing);
}

}  // namespace hoofload::viz
