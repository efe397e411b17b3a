#include "viz/axes.hpp"

namespace hoofload::viz {

namespace {

constexpr double axis_left = 64, plot_height = 430;

}  // namespace

Axes axes_spanning(const Range& x, const Range& y, Growing growing) {
  return {x,
          y,
          growing,
          {page::margin + axis_left, page::heading_height + 10},
          {page::plot_width - axis_left, plot_height}};
}

Vec2 on_page(const Axes& axes, double x, double y) {
  const double s = (x - axes.x.low) / (axes.x.high - axes.x.low);
  const double t = (y - axes.y.low) / (axes.y.high - axes.y.low);
  return {axes.corner.x() + axes.size.x() * (axes.growing == Growing::rightwards ? s : 1 - s),
          axes.corner.y() + axes.size.y() * (1 - t)};
}

std::string axes_drawn(const Axes& axes, const std::string& x_label, const std::string& y_label) {
  std::string out;
  const svg::Pen faint{.stroke = "#e3e3e3"}, ink{.stroke = page::ink, .width = 1.2};
  for (const double v : ticks(axes.y.low, axes.y.high, 7)) {
    const Vec2 at = on_page(axes, axes.x.low, v);
    out += svg::line({axes.corner.x(), at.y()}, {axes.corner.x() + axes.size.x(), at.y()}, faint);
    out += svg::text({axes.corner.x() - 9, at.y() + 4}, plain_text(v), {.size = 12, .anchor = svg::Anchor::end});
  }
  const double floor = axes.floor();
  for (const double v : ticks(axes.x.low, axes.x.high, 8)) {
    const Vec2 at = on_page(axes, v, axes.y.low);
    out += svg::line({at.x(), floor}, {at.x(), floor + 5}, ink);
    out += svg::text({at.x(), floor + 20}, plain_text(v), {.size = 12, .anchor = svg::Anchor::middle});
  }
  const Vec2 foot(axes.corner.x(), floor);
  out += svg::line(axes.corner, foot, ink) + svg::line(foot, foot + Vec2(axes.size.x(), 0), ink);
  out += svg::text({axes.corner.x() + axes.size.x() / 2, floor + 43}, x_label,
                   {.size = 13, .anchor = svg::Anchor::middle});
  return out + svg::upright_text({page::margin + 13, axes.corner.y() + axes.size.y() / 2}, y_label,
                                 {.size = 13, .anchor = svg::Anchor::middle});
}

}  // namespace hoofload::viz
