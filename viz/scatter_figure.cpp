#include "viz/scatter_figure.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace hoofload::viz {

std::string scatter_figure(const ScatterFigure& figure) {
  if (figure.x_values.size() != figure.y_values.size()) throw std::invalid_argument("the two columns differ in length");
  constexpr double inf = std::numeric_limits<double>::infinity();
  Range x{inf, -inf}, y{inf, -inf};
  std::vector<Vec2> points;
  for (std::size_t k = 0; k < figure.x_values.size(); ++k) {
    const double a = figure.x_values[k], b = figure.y_values[k];
    if (!std::isfinite(a) || !std::isfinite(b)) continue;
    points.emplace_back(a, b);
    x = {std::min(x.low, a), std::max(x.high, a)};
    y = {std::min(y.low, b), std::max(y.high, b)};
  }
  if (points.empty()) throw std::invalid_argument("no run has both numbers");
  const Axes axes = axes_spanning(figure.x.range.value_or(rounded_range(x.low, x.high, 8)),
                                  figure.y.range.value_or(rounded_range(y.low, y.high, 7)));
  // Many points are drawn small and faint, so that where they lie densely stays visible.
  const bool is_many = points.size() > 500;
  std::string dots;
  for (const Vec2& p : points)
    dots += svg::circle(on_page(axes, p.x(), p.y()), is_many ? 1.8 : 3.4,
                        {.fill = "#2f6690", .opacity = is_many ? 0.45 : 0.75});
  const std::string description =
      figure.y.label + " against " + figure.x.label + ", " + std::to_string(points.size()) + " points.";
  const double middle = page::heading_height + 22;
  const std::string count =
      svg::text({page::panel_left, middle}, std::to_string(points.size()) + " runs", {.size = 12});
  return framed(figure.heading, description, axes.floor() + axis_bottom,
                axes_drawn(axes, figure.x.label, figure.y.label) + svg::group("runs", dots) + count);
}

}  // namespace hoofload::viz
