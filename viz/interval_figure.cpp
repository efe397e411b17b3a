#include "viz/interval_figure.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "viz/row_scale.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

constexpr double row_height = 46, name_width = 270, value_width = 205;
constexpr double letter_width = 0.56;  ///< of a letter's size, of the widest usual fonts
constexpr const char *band = "#9db8d2", *dot = "#7a1f3d";

Range range_of(const IntervalFigure& figure) {
  double low = 0, high = 0;
  bool any = false;
  const auto hold = [&](double v) {
    if (!std::isfinite(v)) throw std::invalid_argument("a change that is not finite cannot be drawn");
    low = std::min(low, v), high = std::max(high, v), any = true;
  };
  for (const IntervalRow& row : figure.rows) {
    if (row.change) hold(*row.change - row.mesh_bar), hold(*row.change + row.mesh_bar);
    if (row.spread) hold(row.spread->low), hold(row.spread->high);
  }
  if (!any) throw std::invalid_argument("a figure of changes needs at least one");
  return rounded_range(low, high, 6);
}

std::string grid(const RowScale& rows, const std::string& label, double bottom) {
  std::string out;
  for (const double tick : ticks(rows.range.low, rows.range.high, 6)) {
    const double x = rows.x(tick);
    out += svg::line({x, rows.top}, {x, bottom}, {.stroke = "#e3e3e3"});
    out += svg::text({x, bottom + 16}, plain_text(tick), {.size = 12, .anchor = svg::Anchor::middle});
  }
  out += svg::line({rows.x(0), rows.top}, {rows.x(0), bottom}, {.stroke = page::ink, .width = 1.4});
  return out +
         svg::text({(rows.left + rows.right) / 2, bottom + 36}, label, {.size = 13, .anchor = svg::Anchor::middle});
}

std::string numbers(const IntervalRow& row) {
  std::string text = row.change ? signed_text(*row.change) : "";
  if (row.change && row.mesh_bar > 0) text += " ± " + number_text(row.mesh_bar, 2);
  if (row.spread)
    text += (text.empty() ? "" : "  ") + std::string("(") + signed_text(row.spread->low) + " to " +
            signed_text(row.spread->high) + ")";
  return text.empty() ? "not solved" : text;
}

std::string marks_drawn(const RowScale& rows, const IntervalRow& row, double mid) {
  std::string out;
  if (row.spread) {
    const double a = rows.x(row.spread->low), b = rows.x(row.spread->high), m = rows.x(row.spread->median);
    out += svg::rectangle({a, mid - 7}, {std::max(b - a, 1.0), 14}, {.fill = band});
    out += svg::line({m, mid - 7}, {m, mid + 7}, {.stroke = page::ink, .width = 1.6});
  }
  if (!row.change) return out;
  const svg::Pen pen{.stroke = dot, .width = 1.4};
  if (row.mesh_bar > 0) {
    const double a = rows.x(*row.change - row.mesh_bar), b = rows.x(*row.change + row.mesh_bar);
    out += svg::line({a, mid}, {b, mid}, pen);
    for (const double end : {a, b}) out += svg::line({end, mid - 4}, {end, mid + 4}, pen);
  }
  return out + svg::circle({rows.x(*row.change), mid}, 4.2, {.stroke = "#ffffff", .width = 0.8, .fill = dot});
}

std::string row_drawn(const RowScale& rows, const IntervalRow& row, double mid) {
  std::string out;
  const auto lines = wrapped(row.name, 38);
  double y = mid + 4 - 7.5 * static_cast<double>(lines.size() - 1);
  for (const auto& line : lines) {
    out += svg::text({rows.left - 12, y}, line, {.size = 12.5, .anchor = svg::Anchor::end});
    y += 15;
  }
  out += marks_drawn(rows, row, mid);
  const std::string said = numbers(row);
  const double size = std::min(11.5, (value_width - 14) / (letter_width * static_cast<double>(said.size())));
  out += svg::text({rows.right + 14, mid + (row.remark.empty() ? 4.0 : -3.0)}, said, {.size = size});
  if (!row.remark.empty())
    out += svg::text({rows.right + 14, mid + 12}, row.remark, {.size = 11, .colour = page::soft_ink});
  return svg::group(row.name, out);
}

std::string legend(const IntervalFigure& figure, double y) {
  bool is_sampled = false, is_solved = false;
  for (const IntervalRow& row : figure.rows) is_sampled |= row.spread.has_value(), is_solved |= row.change.has_value();
  double x = page::margin;
  std::string out;
  if (is_sampled) {
    out += svg::rectangle({x, y - 11}, {34, 13}, {.fill = band}) +
           svg::line({x + 17, y - 11}, {x + 17, y + 2}, {.stroke = page::ink, .width = 1.6}) +
           svg::text({x + 42, y}, "5, 50 and 95 % over the draws of what is uncertain", {.size = 12});
    x += 370;
  }
  if (is_solved)
    out += svg::circle({x + 12, y - 4}, 4.2, {.fill = dot}) +
           svg::text({x + 24, y}, "change of the values at hand, whisker: the mesh's bar alone", {.size = 12});
  return out;
}

}  // namespace

std::string interval_figure(const IntervalFigure& figure) {
  const RowScale rows{range_of(figure), page::margin + name_width, page::width - page::margin - value_width,
                      page::heading_height + 10};
  const double bottom = rows.top + row_height * static_cast<double>(figure.rows.size());
  std::string content = grid(rows, figure.label, bottom), description = figure.label + " of";
  for (std::size_t k = 0; k < figure.rows.size(); ++k) {
    content += row_drawn(rows, figure.rows[k], rows.top + row_height * (static_cast<double>(k) + 0.5));
    description += " \"" + figure.rows[k].name + "\" " + numbers(figure.rows[k]) + ",";
  }
  description.back() = '.';
  return framed(figure.heading, description, bottom + 70, content + legend(figure, bottom + 62));
}

}  // namespace hoofload::viz
