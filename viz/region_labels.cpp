#include "viz/region_labels.hpp"

#include <algorithm>
#include <cmath>

#include "viz/contour.hpp"
#include "viz/region_style.hpp"

namespace hoofload::viz {
namespace {

double twice_area(const Vec2& a, const Vec2& b, const Vec2& c) {
  return (b - a).x() * (c - a).y() - (b - a).y() * (c - a).x();
}

const Vec2& corner(const std::vector<Vec2>& x, const std::array<int, 6>& triangle, std::size_t k) {
  return x.at(static_cast<std::size_t>(triangle[k]));
}

/// True if a triangle of the region (edges taken straight) holds the point.
bool holds(const std::vector<Vec2>& x, const Triangles& triangles, const Vec2& p) {
  return std::any_of(triangles.begin(), triangles.end(), [&](const auto& t) {
    const Vec2 &a = corner(x, t, 0), &b = corner(x, t, 1), &c = corner(x, t, 2);
    return twice_area(a, b, p) >= 0 && twice_area(b, c, p) >= 0 && twice_area(c, a, p) >= 0;
  });
}

/// Centre of a triangle about a sixth of the breadth from the left, at mid-height.
Vec2 inner_point(const std::vector<Vec2>& x, const Triangles& triangles) {
  const auto centre = [&](const std::array<int, 6>& t) {
    return Vec2((corner(x, t, 0) + corner(x, t, 1) + corner(x, t, 2)) / 3);
  };
  std::vector<Vec2> centres(triangles.size());
  std::transform(triangles.begin(), triangles.end(), centres.begin(), centre);
  const auto by_x = [](const Vec2& a, const Vec2& b) { return a.x() < b.x(); };
  const auto [left, right] = std::minmax_element(centres.begin(), centres.end(), by_x);
  const double breadth = right->x() - left->x(), wish = left->x() + 0.17 * breadth;
  std::vector<Vec2> column;
  for (const Vec2& c : centres)
    if (std::abs(c.x() - wish) <= 0.05 * breadth + 1e-12) column.push_back(c);
  if (column.empty()) column = centres;
  std::sort(column.begin(), column.end(), [](const Vec2& a, const Vec2& b) { return a.y() < b.y(); });
  return column[column.size() / 2];
}

}  // namespace

std::vector<Label> region_labels(const Section& section, const std::vector<Vec2>& x, const View& view, double size) {
  std::vector<Label> labels;
  for (const auto& region : drawn_regions(section)) {
    const Triangles triangles = triangles_of(*section.mesh, {region});
    const std::string name = region_style(region).name;
    const bool is_named = std::any_of(labels.begin(), labels.end(), [&](const Label& l) { return l.text == name; });
    if (!shows_field(section, region) || triangles.empty() || is_named) continue;
    const Vec2 at = inner_point(x, triangles);
    const Vec2 half(svg::text_width(name, size) / (2 * view.scale), 0);
    const bool fits = holds(x, triangles, at - half) && holds(x, triangles, at + half);
    labels.push_back({to_page(view, at), name, fits ? Vec2(0, 0) : Vec2(1, -1), page::ink, fits ? 14.0 : 0.0});
  }
  return labels;
}

}  // namespace hoofload::viz
