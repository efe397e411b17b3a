#include "viz/tornado_figure.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "viz/row_scale.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

constexpr double row_height = 38, thickness = 17, name_width = 250, side = 90;
constexpr double name_size = 11.5, line_height = 13;
constexpr int name_columns = 44;
constexpr const char *low_colour = "#2f6690", *high_colour = "#c0702d";

Range range_of(const TornadoFigure& figure) {
  if (figure.rows.empty()) throw std::invalid_argument("a figure of swings needs at least one");
  double low = figure.middle, high = figure.middle;
  for (const TornadoRow& row : figure.rows)
    for (const double v : {row.at_low, row.at_high}) low = std::min(low, v), high = std::max(high, v);
  for (const TornadoRow& row : figure.rows)
    if (!std::isfinite(row.at_low) || !std::isfinite(row.at_high))
      throw std::invalid_argument("swing of \"" + row.name + "\" is not finite");
  return rounded_range(low, high, 6);
}

/// A bar from the middle to one end, with the input's value at that end. Both ends may lie on one side.
std::string half(const RowScale& rows, double middle, double value, const std::string& text, const char* colour,
                 double y, double height, bool is_left) {
  const double a = rows.x(middle), b = rows.x(value);
  std::string out =
      svg::rectangle({std::min(a, b), y}, {std::max(std::abs(b - a), 0.8), height}, {.fill = colour, .opacity = 0.85});
  return out + svg::text({is_left ? std::min(a, b) - 6 : std::max(a, b) + 6, y + height / 2 + 4}, text,
                         {.size = 11, .colour = colour, .anchor = is_left ? svg::Anchor::end : svg::Anchor::start});
}

std::string row_drawn(const RowScale& rows, double middle, const TornadoRow& row, double top) {
  const double y = top + (row_height - thickness) / 2;
  std::string out;
  const auto lines = wrapped(row.name, name_columns);
  double line = top + row_height / 2 + 4 - line_height * (static_cast<double>(lines.size()) - 1) / 2;
  for (const std::string& words : lines) {
    out += svg::text({rows.left - side + 10, line}, words, {.size = name_size, .anchor = svg::Anchor::end});
    line += line_height;
  }
  const bool is_one_sided = (row.at_low - middle) * (row.at_high - middle) > 0;
  if (is_one_sided) {
    const bool is_left = row.at_low < middle;
    out += half(rows, middle, row.at_low, row.low_text, low_colour, y - 5, 11, is_left);
    out += half(rows, middle, row.at_high, row.high_text, high_colour, y + 10, 11, is_left);
  } else {
    const bool low_is_left = row.at_low < row.at_high;
    out += half(rows, middle, row.at_low, row.low_text, low_colour, y, thickness, low_is_left);
    out += half(rows, middle, row.at_high, row.high_text, high_colour, y, thickness, !low_is_left);
  }
  return svg::group(row.name, out);
}

std::string grid(const RowScale& rows, const TornadoFigure& figure, double bottom) {
  std::string out;
  for (const double tick : ticks(rows.range.low, rows.range.high, 6)) {
    out += svg::line({rows.x(tick), rows.top}, {rows.x(tick), bottom}, {.stroke = "#e3e3e3"});
    out += svg::text({rows.x(tick), bottom + 16}, plain_text(tick), {.size = 12, .anchor = svg::Anchor::middle});
  }
  return out + svg::text({(rows.left + rows.right) / 2, bottom + 36}, figure.label,
                         {.size = 13, .anchor = svg::Anchor::middle});
}

std::string legend(double y) {
  const double x = page::margin;
  return svg::text({x, y}, "One at a time: all other inputs at their median; what inputs do together is not in it.",
                   {.size = 12, .weight = svg::Weight::bold}) +
         svg::rectangle({x, y + 9}, {22, 13}, {.fill = low_colour, .opacity = 0.85}) +
         svg::text({x + 28, y + 20}, "input at its 5 %", {.size = 12}) +
         svg::rectangle({x + 170, y + 9}, {22, 13}, {.fill = high_colour, .opacity = 0.85}) +
         svg::text({x + 198, y + 20}, "input at its 95 %", {.size = 12});
}

}  // namespace

std::string tornado_figure(const TornadoFigure& figure) {
  const RowScale rows{range_of(figure), page::margin + name_width + side, page::width - page::margin - side,
                      page::heading_height + 10};
  const double bottom = rows.top + row_height * static_cast<double>(figure.rows.size());
  std::string content = grid(rows, figure, bottom), description = "One at a time: " + figure.label + " by";
  for (std::size_t k = 0; k < figure.rows.size(); ++k) {
    content += row_drawn(rows, figure.middle, figure.rows[k], rows.top + row_height * static_cast<double>(k));
    description += " \"" + figure.rows[k].name + "\"";
  }
  const double middle = rows.x(figure.middle);
  content += svg::line({middle, rows.top - 4}, {middle, bottom}, {.stroke = page::ink, .width = 1.4});
  return framed(figure.heading, description + ".", bottom + 90, content + legend(bottom + 62));
}

}  // namespace hoofload::viz
