#include "viz/polar_figure.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "viz/curve_style.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

constexpr double radius = 330;  ///< of the outermost ring [px]

struct Polar {
  Vec2 centre;
  double scale;  ///< px per mm
};

Vec2 on_page(const Polar& polar, double angle, double length) {
  return polar.centre + polar.scale * length * Vec2(std::sin(angle), -std::cos(angle));
}

double longest(const PolarFigure& figure) {
  double most = 0;
  for (const auto& curve : figure.curves) {
    if (curve.angle.size() != curve.length.size())
      throw std::invalid_argument("curve \"" + curve.name + "\" has angles and lengths of different number");
    for (const double r : curve.length)
      if (std::isfinite(r)) most = std::max(most, r);
  }
  if (most <= 0) throw std::invalid_argument("a polar figure needs a positive length");
  return most;
}

/// Half circles at round lengths and rays every 30 degrees.
std::string grid(const Polar& polar, double most) {
  const svg::Pen faint{.stroke = "#dcdcdc"};
  std::string out;
  for (const double r : ticks(0, most, 5)) {
    std::vector<Vec2> arc;
    for (int k = -90; k <= 90; k += 3) arc.push_back(on_page(polar, k * std::numbers::pi / 180, r));
    out += svg::polyline(arc, faint);
    if (r > 0) out += svg::text(arc.back() + Vec2(0, 16), plain_text(r), {.size = 12, .anchor = svg::Anchor::middle});
  }
  for (int k = -90; k <= 90; k += 30)
    out += svg::line(polar.centre, on_page(polar, k * std::numbers::pi / 180, most), faint);
  return out;
}

std::string curve_drawn(const PolarCurve& curve, const Polar& polar, std::size_t k) {
  std::vector<Vec2> points;
  for (std::size_t i = 0; i < curve.angle.size(); ++i)
    if (std::isfinite(curve.length[i])) points.push_back(on_page(polar, curve.angle[i], curve.length[i]));
  return svg::group(curve.name, svg::polyline(points, curve_pen(k)));
}

}  // namespace

std::string polar_figure(const PolarFigure& figure) {
  const double most = rounded_range(0, longest(figure), 5).high;
  const Polar polar{{page::margin + page::plot_width / 2, page::heading_height + 30 + radius}, radius / most};
  std::string content = grid(polar, most), tags, description = "Length over direction for";
  std::vector<std::string> names;
  for (const auto& curve : figure.curves) {
    names.push_back(curve.name);
    description += " \"" + curve.name + "\"";
  }
  for (std::size_t k = figure.curves.size(); k-- > 0;) {
    const auto& curve = figure.curves[k];
    content += curve_drawn(curve, polar, k);
    // Tags fan out along the curves, each at another direction.
    const std::size_t at = (2 * k + 1) * curve.angle.size() / (2 * figure.curves.size());
    if (figure.curves.size() > 1 && at < curve.angle.size())
      tags += curve_tag(on_page(polar, curve.angle[at], curve.length[at]), k);
  }
  const svg::Type word{.size = 13, .anchor = svg::Anchor::middle};
  content += tags + svg::circle(polar.centre, 3.5, {.fill = page::ink});
  content += svg::text(polar.centre + Vec2(0, 34), figure.centre, word);
  content += svg::text(on_page(polar, 0, most) + Vec2(0, -8), figure.ahead, word);
  content += svg::text(on_page(polar, -std::numbers::pi / 2, most) + Vec2(0, -8), figure.left, word);
  content += svg::text(on_page(polar, std::numbers::pi / 2, most) + Vec2(0, -8), figure.right, word);
  const Piece legend = curve_legend(names);
  return framed(figure.heading, description + ".", std::max(polar.centre.y() + 48, legend.bottom),
                content + legend.drawing);
}

}  // namespace hoofload::viz
