#include "viz/bar_figure.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "viz/curve_style.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

constexpr double thickness = 15;
constexpr double row_gap = 12;
constexpr double name_width = 290;
constexpr double value_width = 110;

/// Where values lie on the page.
struct Bars {
  Range range;
  double left, right, top, row_height;
  [[nodiscard]] double x(double value) const {
    return left + (value - range.low) / (range.high - range.low) * (right - left);
  }
};

Range range_of(const BarFigure& figure) {
  double low = 0, high = 0;
  bool any = false;
  for (const BarRow& row : figure.rows) {
    if (row.values.size() != figure.series.size())
      throw std::invalid_argument("row \"" + row.name + "\" has not one value for each series");
    for (const BarValue& v : row.values) {
      if (!std::isfinite(v.value)) continue;
      any = true;
      low = std::min(low, v.value - v.bar);
      high = std::max(high, v.value + v.bar);
    }
  }
  if (!any) throw std::invalid_argument("a bar figure needs a finite value");
  return rounded_range(low, high, 6);
}

std::string grid(const Bars& bars, const BarFigure& figure, double bottom) {
  std::string out;
  for (const double tick : ticks(bars.range.low, bars.range.high, 6)) {
    out += svg::line({bars.x(tick), bars.top}, {bars.x(tick), bottom}, {.stroke = "#dcdcdc"});
    out += svg::text({bars.x(tick), bottom + 16}, plain_text(tick), {.size = 12, .anchor = svg::Anchor::middle});
  }
  return out + svg::text({(bars.left + bars.right) / 2, bottom + 36}, figure.label,
                         {.size = 13, .anchor = svg::Anchor::middle});
}

std::string bar_drawn(const Bars& bars, const BarValue& v, double y, const std::string& colour) {
  const double mid = y + thickness / 2;
  if (!std::isfinite(v.value)) return svg::text({bars.x(0) + 6, mid + 4}, "not solved", {.size = 11});
  const double from = std::min(bars.x(0), bars.x(v.value)), to = std::max(bars.x(0), bars.x(v.value));
  std::string out = svg::rectangle({from, y}, {std::max(to - from, 1.0), thickness}, {.fill = colour, .opacity = 0.8});
  double end = to;
  if (v.bar > 0) {
    const svg::Pen pen{.stroke = page::ink, .width = 1.3};
    const double a = bars.x(v.value - v.bar), b = bars.x(v.value + v.bar);
    out += svg::line({a, mid}, {b, mid}, pen) + svg::line({a, mid - 4}, {a, mid + 4}, pen) +
           svg::line({b, mid - 4}, {b, mid + 4}, pen);
    end = std::max(end, b);
  }
  const std::string number = number_text(v.value) + (v.bar > 0 ? " ± " + number_text(v.bar, 2) : "");
  return out + svg::text({end + 6, mid + 4}, number, {.size = 11});
}

std::string row_drawn(const Bars& bars, const BarRow& row, double y) {
  std::string out;
  const auto lines = wrapped(row.name, 44);
  double line = y + bars.row_height / 2 - 7.0 * static_cast<double>(lines.size() - 1);
  for (const auto& part : lines) {
    out += svg::text({bars.left - 10, line}, part, {.size = 12, .anchor = svg::Anchor::end});
    line += 14;
  }
  for (std::size_t k = 0; k < row.values.size(); ++k)
    out += bar_drawn(bars, row.values[k], y + thickness * static_cast<double>(k), curve_pen(k + 1).stroke);
  return svg::group(row.name, out);
}

std::string legend(const BarFigure& figure) {
  std::string out;
  double y = page::heading_height + 18;
  for (std::size_t k = 0; k < figure.series.size(); ++k, y += 24) {
    out += svg::rectangle({page::panel_left, y - 10}, {24, 13}, {.fill = curve_pen(k + 1).stroke, .opacity = 0.8});
    out += svg::text({page::panel_left + 32, y}, figure.series[k], {.size = 12});
  }
  return out + svg::text({page::panel_left, y}, "whisker: mesh bar", {.size = 12});
}

}  // namespace

std::string bar_figure(const BarFigure& figure) {
  const Bars bars{range_of(figure), page::margin + name_width, page::margin + page::plot_width - value_width,
                  page::heading_height + 10, thickness * static_cast<double>(figure.series.size()) + row_gap};
  const double bottom = bars.top + bars.row_height * static_cast<double>(figure.rows.size());
  std::string content = grid(bars, figure, bottom), description = figure.label + " of";
  for (std::size_t k = 0; k < figure.rows.size(); ++k) {
    content += row_drawn(bars, figure.rows[k], bars.top + bars.row_height * static_cast<double>(k) + row_gap / 2);
    description += " \"" + figure.rows[k].name + "\"";
  }
  return framed(figure.heading, description + ".", bottom + 44, content + legend(figure));
}

}  // namespace hoofload::viz
