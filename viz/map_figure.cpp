#include "viz/map_figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <stdexcept>

#include "viz/contour.hpp"
#include "viz/panel.hpp"

namespace hoofload::viz {
namespace {

/// Nodes on the page, values and six-node triangles of the whole cells.
struct Surface {
  std::vector<Vec2> x;
  std::vector<double> value;
  Triangles triangles;
  std::map<std::pair<int, int>, int> between;  ///< middle nodes by their ends

  int middle(int a, int b) {
    const auto [it, is_new] = between.try_emplace(std::minmax(a, b), static_cast<int>(x.size()));
    if (is_new) {
      const auto i = static_cast<std::size_t>(a), j = static_cast<std::size_t>(b);
      const Vec2 at = (x[i] + x[j]) / 2;
      const double v = (value[i] + value[j]) / 2;
      x.push_back(at);
      value.push_back(v);
    }
    return it->second;
  }
  void add(int a, int b, int c) { triangles.push_back({a, b, c, middle(a, b), middle(b, c), middle(c, a)}); }
};

void check(const MapFigure& f) {
  const bool is_rising = std::is_sorted(f.x_values.begin(), f.x_values.end(), std::less_equal<>()) &&
                         std::is_sorted(f.y_values.begin(), f.y_values.end(), std::less_equal<>());
  if (f.x_values.size() < 2 || f.y_values.size() < 2 || !is_rising)
    throw std::invalid_argument("a map needs two rising values of each input at least");
  if (f.value.size() != f.x_values.size() * f.y_values.size())
    throw std::invalid_argument("a map needs a value for each point of its grid");
}

/// y up, so that triangles turn the way contours expect; the page turns them over.
Surface surface_of(const MapFigure& f) {
  Surface s;
  const std::size_t nx = f.x_values.size(), ny = f.y_values.size();
  for (const double y : f.y_values)
    for (const double x : f.x_values) s.x.emplace_back(x, y);
  s.value = f.value;
  for (std::size_t j = 0; j + 1 < ny; ++j)
    for (std::size_t i = 0; i + 1 < nx; ++i) {
      const auto a = static_cast<int>(j * nx + i), b = a + 1, c = a + static_cast<int>(nx) + 1, d = c - 1;
      const std::array<int, 4> corners{a, b, c, d};
      if (!std::all_of(corners.begin(), corners.end(),
                       [&](int n) { return std::isfinite(f.value[static_cast<std::size_t>(n)]); }))
        continue;
      s.add(a, b, c);
      s.add(a, c, d);
    }
  if (s.triangles.empty()) throw std::invalid_argument("no cell of the map has all its values");
  return s;
}

std::vector<std::vector<Vec2>> on_page(const Axes& axes, const std::vector<Loop>& loops) {
  std::vector<std::vector<Vec2>> drawn;
  for (const Loop& loop : loops) {
    drawn.emplace_back();
    for (const Vec2& p : loop) drawn.back().push_back(viz::on_page(axes, p.x(), p.y()));
  }
  return drawn;
}

/// The boundary of each band belongs to it: its line is drawn with the fill.
std::string bands(const MapFigure& f, const Surface& s, const Axes& axes) {
  const auto levels = band_levels(f.scale);
  const std::size_t count = levels.size() - 1;
  std::string out =
      svg::polygons(on_page(axes, outline(s.x, s.triangles)), {.fill = hex(band_colour(f.scale, 0, count))});
  for (std::size_t k = 1; k < count; ++k) {
    const auto loops = region_above(s.x, s.triangles, s.value, levels[k]);
    if (loops.empty()) break;
    out += svg::polygons(on_page(axes, loops),
                         {.stroke = "#333333", .width = 0.6, .fill = hex(band_colour(f.scale, k, count))});
  }
  return out;
}

std::string points(const MapFigure& f, const Axes& axes) {
  std::string out;
  for (std::size_t j = 0; j < f.y_values.size(); ++j)
    for (std::size_t i = 0; i < f.x_values.size(); ++i) {
      const bool is_there = std::isfinite(f.value[j * f.x_values.size() + i]);
      out += svg::circle(viz::on_page(axes, f.x_values[i], f.y_values[j]), 2.2,
                         {.stroke = "#ffffff", .width = 0.7, .fill = is_there ? page::ink : "none"});
    }
  return svg::group("solved runs", out);
}

FieldRange range_of(const MapFigure& f) {
  FieldRange range{INFINITY, -INFINITY};
  for (const double v : f.value)
    if (std::isfinite(v)) range = {std::min(range.low, v), std::max(range.high, v)};
  return range;
}

}  // namespace

std::string map_figure(const MapFigure& figure) {
  check(figure);
  const Surface surface = surface_of(figure);
  const Axes axes = axes_spanning({figure.x_values.front(), figure.x_values.back()},
                                  {figure.y_values.front(), figure.y_values.back()});
  const Piece bar = colour_bar(figure.scale, range_of(figure), page::heading_height);
  const std::string note =
      svg::circle({page::panel_left + 6, bar.bottom + 14}, 2.2, {.fill = page::ink}) +
      svg::text({page::panel_left + 18, bar.bottom + 18}, "solved; straight between", {.size = 12});
  const std::string description =
      figure.scale.label + " in " + figure.scale.unit + " over " + figure.x.label + " and " + figure.y.label + ".";
  return framed(figure.heading, description, axes.floor() + axis_bottom,
                axes_drawn(axes, figure.x.label, figure.y.label) + bands(figure, surface, axes) + points(figure, axes) +
                    bar.drawing + note);
}

}  // namespace hoofload::viz
