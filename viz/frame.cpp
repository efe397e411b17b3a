#include "viz/frame.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "viz/cautions.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

constexpr double caution_size = 11, caution_line = 15;

std::string heading_text(const Heading& heading) {
  std::string out;
  double y = page::margin + 16;
  // A long name is set smaller and broken once rather than run off the page.
  auto lines = wrapped(heading.option, 74);
  const bool is_long = lines.size() > 1;
  if (is_long) lines = wrapped(heading.option, 92);
  for (std::size_t k = 0; k < std::min<std::size_t>(lines.size(), 2); ++k) {
    const std::string line = k == 1 && lines.size() > 2 ? left_aligned(lines[1] + " " + lines[2], 92) : lines[k];
    out += svg::text({page::margin, y}, left_aligned(line, std::min(columns(line), 92)),
                     {.size = is_long ? 16.0 : 20.0, .colour = page::ink, .weight = svg::Weight::bold});
    y += is_long ? 18 : 23;
  }
  if (is_long) y += 2;
  const std::string between = heading.phase.empty() || heading.model.empty() ? "" : "  ·  ";
  return out + svg::text({page::margin, y}, heading.phase + between + heading.model,
                         {.size = 13.5, .colour = page::soft_ink});
}

}  // namespace

Window window_of(const std::vector<Vec2>& points, double margin) {
  if (points.empty()) throw std::invalid_argument("a picture needs at least one point");
  Window w{points.front(), points.front()};
  for (const Vec2& p : points) {
    w.low = w.low.cwiseMin(p);
    w.high = w.high.cwiseMax(p);
  }
  w.low.array() -= margin;
  w.high.array() += margin;
  return w;
}

View fitted_view(const Window& window, const Vec2& corner, const Vec2& room) {
  const Vec2 extent = window.high - window.low;
  if (!extent.allFinite() || extent.minCoeff() <= 0)
    throw std::invalid_argument("the window of a picture must have a finite, positive width and height");
  const double scale = std::min(room.x() / extent.x(), room.y() / extent.y());
  return {window, corner, Vec2(room.x(), extent.y() * scale), scale};
}

Vec2 to_page(const View& view, const Vec2& mm) {
  const Vec2 middle = (view.window.low + view.window.high) / 2;
  return {view.corner.x() + view.size.x() / 2 + (mm.x() - middle.x()) * view.scale,
          view.corner.y() + (view.window.high.y() - mm.y()) * view.scale};
}

std::vector<Vec2> to_page(const View& view, const std::vector<Vec2>& mm) {
  std::vector<Vec2> px(mm.size());
  std::transform(mm.begin(), mm.end(), px.begin(), [&](const Vec2& p) { return to_page(view, p); });
  return px;
}

std::string framed(const Heading& heading, std::string_view description, double bottom, std::string_view content) {
  std::string out = heading_text(heading) + std::string(content);
  double y = bottom + 20;
  out += svg::line({page::margin, y}, {page::width - page::margin, y}, {.stroke = page::rule, .width = 0.8});
  for (const auto& line : wrapped(caution_short, 172)) {
    y += caution_line;
    out += svg::text({page::margin, y + 3}, line, {.size = caution_size, .colour = page::soft_ink});
  }
  const std::string title = heading.option + (heading.phase.empty() ? "" : ", " + heading.phase) +
                            (heading.model.empty() ? "" : ", " + heading.model);
  const std::string alternative = std::string(description) + " " + std::string(caution_short);
  return svg::document({page::width, std::ceil(y + 18)}, title, alternative, out);
}

}  // namespace hoofload::viz
