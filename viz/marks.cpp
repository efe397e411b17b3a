#include "viz/marks.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

/// Small boxes along a stroke, so that labels keep off it.
std::vector<Box> boxes_along(const std::vector<Vec2>& px, double half_width) {
  std::vector<Box> boxes;
  const Vec2 half(half_width, half_width);
  for (std::size_t k = 1; k < px.size(); ++k) {
    const double length = (px[k] - px[k - 1]).norm();
    const int pieces = std::max(1, static_cast<int>(length / 8));
    for (int i = 0; i <= pieces; ++i) {
      const Vec2 p = px[k - 1] + static_cast<double>(i) / pieces * (px[k] - px[k - 1]);
      boxes.push_back({p - half, p + half});
    }
  }
  return boxes;
}

std::string force_text(const std::string& name, double newton) {
  return (name.empty() ? "" : name + " ") + number_text(newton, 3) + " N";
}

/// A stroke with a white rim stays visible over dark bands and in grey.
std::string rimmed(const std::vector<Vec2>& px, double width, const std::string& colour) {
  return svg::polyline(px, {.stroke = "#ffffff", .width = width + 2.4}) +
         svg::polyline(px, {.stroke = colour, .width = width});
}

/// Unit normal at point k of a polyline walked with the body on its left: to the right [mm frame, y up].
Vec2 outward(const std::vector<Vec2>& at, std::size_t k) {
  const Vec2 along = at[std::min(k + 1, at.size() - 1)] - at[k == 0 ? 0 : k - 1];
  const double length = along.norm();
  return length > 0 ? Vec2(along.y() / length, -along.x() / length) : Vec2(0, -1);
}

/// The area between surface and rim, combed along the normals so that it reads without colour.
std::string ribbon_patch(const std::vector<Vec2>& surface, const std::vector<Vec2>& rim) {
  if (surface.size() < 2) return "";
  std::vector<Vec2> loop = surface;
  loop.insert(loop.end(), rim.rbegin(), rim.rend());
  std::string out = svg::polygons({loop}, {.fill = "#ffffff", .opacity = 0.72});
  const std::size_t step = std::max<std::size_t>(1, surface.size() / 60);
  for (std::size_t k = 0; k < surface.size(); k += step)
    out += svg::line(surface[k], rim[k], {.stroke = ribbon_colour, .width = 0.7});
  return out + svg::polygons({loop}, {.stroke = ribbon_colour, .width = 1.5});
}

double rounded_length(double wanted) {
  const double power = std::pow(10, std::floor(std::log10(wanted)));
  return (wanted >= 5 * power ? 5 : wanted >= 2 * power ? 2 : 1) * power;
}

}  // namespace

std::string arrow_head(const Vec2& tip, const Vec2& direction, double size, const std::string& colour) {
  const Vec2 d = direction.normalized(), n(-d.y(), d.x());
  return svg::polygons(
      {{tip, tip - size * d + 0.42 * size * n, tip - 0.78 * size * d, tip - size * d - 0.42 * size * n}},
      {.stroke = "#ffffff", .width = 0.8, .fill = colour});
}

Mark force_arrow(const ForceArrow& arrow, double mm_per_newton, const View& view) {
  const Vec2 from = to_page(view, arrow.at);
  const Vec2 to = to_page(view, Vec2(arrow.at + mm_per_newton * arrow.force));
  const Vec2 along = to - from;
  const Label label{to, force_text(arrow.name, arrow.force.norm()), {along.x() + 30, along.y()}, force_colour};
  if (along.norm() < 4) return {svg::circle(from, 3, {.fill = force_colour}), {label}, {}};
  const double head = std::min(15.0, 0.6 * along.norm());
  const Vec2 neck = to - 0.8 * head * along.normalized();
  return {rimmed({from, neck}, 2.6, force_colour) + arrow_head(to, along, head, force_colour) +
              svg::circle(from, 3.4, {.stroke = "#ffffff", .width = 0.8, .fill = force_colour}),
          {label},
          boxes_along({from, to}, 5)};
}

Mark cable(const CablePath& path, const View& view) {
  const std::vector<Vec2> px = to_page(view, path.path);
  if (px.size() < 2) throw std::invalid_argument("a cable is drawn along at least two points");
  const Vec2 end = px.back(), along = end - px[px.size() - 2];
  const Label label{end, force_text(path.name, path.tension), {-40, -10}, cable_colour};
  if (along.norm() == 0) throw std::invalid_argument("a cable's last two points coincide");
  auto shaft = px;
  shaft.back() = end - 10 * along.normalized();
  const std::string colour = cable_colour;
  // A slack cable pulls nothing: no arrow head, and a broken line.
  const std::string drawing = path.tension > 0 ? rimmed(shaft, 3, colour) + arrow_head(end, along, 15, colour)
                                               : svg::polyline(px, {.stroke = colour, .width = 1.4, .dash = "6 4"});
  return {drawing, {label}, boxes_along(px, 5)};
}

Mark ribbon(const PressureRibbon& profile, double mm_per_kpa, const View& view) {
  if (profile.pressure.size() != profile.at.size())
    throw std::invalid_argument("a pressure ribbon needs one pressure per point");
  Mark mark;
  std::vector<Vec2> surface, rim;  // of the patch in contact that is being walked
  for (std::size_t k = 0; k < profile.at.size(); ++k) {
    if (profile.pressure[k] > 0) {
      const Vec2 off = mm_per_kpa * profile.pressure[k] * outward(profile.at, k);
      surface.push_back(to_page(view, profile.at[k]));
      rim.push_back(to_page(view, Vec2(profile.at[k] + off)));
      mark.taken.push_back({surface.back().cwiseMin(rim.back()), surface.back().cwiseMax(rim.back())});
    } else {
      mark.drawing += ribbon_patch(surface, rim);
      surface.clear();
      rim.clear();
    }
  }
  mark.drawing += ribbon_patch(surface, rim);
  return mark;
}

std::string ground(const GroundLine& line, const View& view) {
  const Vec2 d = line.direction.normalized();
  const double reach = (view.window.high - view.window.low).norm();
  const Vec2 n(d.y(), -d.x());
  std::string out;
  for (double s = -reach; s <= reach; s += 3) {
    const Vec2 p = line.point + s * d;
    out += svg::line(to_page(view, p), to_page(view, Vec2(p + 2.2 * (n - d))), {.stroke = "#8a8a8a", .width = 0.7});
  }
  return out + svg::line(to_page(view, Vec2(line.point - reach * d)), to_page(view, Vec2(line.point + reach * d)),
                         {.stroke = page::ink, .width = 1.4});
}

Mark scale_bar(double deformation_scale, const View& view) {
  const double mm = rounded_length(0.18 * (view.window.high.x() - view.window.low.x()));
  const Vec2 left(view.corner.x() + 12, view.corner.y() + view.size.y() - 14), right = left + Vec2(mm * view.scale, 0);
  const Vec2 tick(0, 4);
  const svg::Pen pen{.stroke = page::ink, .width = 1.6};
  const std::string text = plain_text(mm) + " mm  ·  deformation × " + plain_text(deformation_scale);
  const Vec2 at = left - Vec2(0, 9);
  return {svg::line(left, right, pen) + svg::line(left - tick, left + tick, pen) +
              svg::line(right - tick, right + tick, pen) + svg::text(at, text, {.size = 12, .halo = 2.5}),
          {},
          {{at - Vec2(2, 14), Vec2(std::max(right.x(), at.x() + svg::text_width(text, 12)), left.y() + 6)}}};
}

}  // namespace hoofload::viz
