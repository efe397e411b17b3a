#include "viz/panel.hpp"

#include <algorithm>

#include "viz/marks.hpp"
#include "viz/region_style.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

constexpr double bar_width = 18, bar_height = 208, line_height = 19, text_size = 12;
constexpr int panel_columns = 30;

std::string sign_drawing(const KeyLine& line, const Vec2& corner) {
  const Vec2 middle = corner + Vec2(0, 7), end = corner + Vec2(24, 7);
  switch (line.sign) {
    case Sign::area:
      return svg::rectangle(corner + Vec2(2, 1), {20, 12}, {.stroke = page::ink, .width = 0.8, .fill = line.colour});
    case Sign::dashed:
      return svg::line(middle, end, {.stroke = line.colour, .width = 1, .dash = "5 3"});
    case Sign::arrow:
      return svg::line(middle, end - Vec2(8, 0), {.stroke = line.colour, .width = 2.6}) +
             arrow_head(end, {1, 0}, 12, line.colour);
    case Sign::joint:
      return svg::circle(corner + Vec2(12, 7), 5, {.stroke = line.colour, .width = 1.4, .fill = "#ffffff"}) +
             svg::circle(corner + Vec2(12, 7), 1.4, {.fill = line.colour});
    case Sign::ribbon:
      break;
  }
  std::string out;
  for (int k = 0; k <= 5; ++k)
    out += svg::line(corner + Vec2(2 + 4 * k, 1), corner + Vec2(2 + 4 * k, 13), {.stroke = line.colour, .width = 0.7});
  return out + svg::rectangle(corner + Vec2(2, 1), {20, 12}, {.stroke = line.colour, .width = 1.5});
}

}  // namespace

Piece colour_bar(const ColourScale& scale, const FieldRange& here, double top) {
  std::string out;
  double y = top + 12;
  for (const auto& line : wrapped(scale.label + ", " + scale.unit, panel_columns - 4)) {
    out += svg::text({page::panel_left, y}, line, {.size = 12.5, .weight = svg::Weight::bold});
    y += 16;
  }
  const auto levels = band_levels(scale);
  const double span = levels.back() - levels.front();
  const auto height_of = [&](double v) { return y + bar_height * (levels.back() - v) / span; };
  for (std::size_t k = 0; k + 1 < levels.size(); ++k) {
    const double high = height_of(levels[k + 1]), low = height_of(levels[k]);
    out += svg::rectangle({page::panel_left, high}, {bar_width, low - high},
                          {.stroke = page::ink, .width = 0.5, .fill = hex(band_colour(scale, k, levels.size() - 1))});
  }
  const std::size_t every = levels.size() > 12 ? 2 : 1;
  for (std::size_t k = 0; k < levels.size(); k += every) {
    const double at = height_of(levels[k]);
    out += svg::line({page::panel_left + bar_width, at}, {page::panel_left + bar_width + 5, at}, {.stroke = page::ink});
    out += svg::text({page::panel_left + bar_width + 9, at + 4}, plain_text(levels[k]), {.size = text_size});
  }
  y += bar_height + 20;
  out += svg::text({page::panel_left, y},
                   "here " + number_text(here.low) + " to " + number_text(here.high) + " " + scale.unit,
                   {.size = text_size, .colour = page::soft_ink});
  if (here.low < scale.low || here.high > scale.high) {
    y += 15;
    out += svg::text({page::panel_left, y}, "beyond the bar: its end colours", {.size = 11, .colour = page::soft_ink});
  }
  return {out, y + 14};
}

Piece key(const std::vector<KeyLine>& lines, double top) {
  std::string out;
  double y = top;
  for (const auto& line : lines) {
    out += sign_drawing(line, {page::panel_left, y});
    for (const auto& part : wrapped(line.meaning, panel_columns - 5)) {
      out += svg::text({page::panel_left + 32, y + 11}, part, {.size = text_size});
      y += 15;
    }
    y += line_height - 15;
  }
  return {out, y + 8};
}

std::vector<KeyLine> region_lines(const Section& section) {
  std::vector<KeyLine> lines;
  for (const auto& region : drawn_regions(section)) {
    if (shows_field(section, region)) continue;
    const RegionStyle style = region_style(region);
    const bool listed =
        std::any_of(lines.begin(), lines.end(), [&](const KeyLine& l) { return l.meaning == style.name; });
    if (!listed) lines.push_back({Sign::area, style.fill, style.name});
  }
  return lines;
}

Piece facts(const std::vector<std::string>& lines, double top) {
  if (lines.empty()) return {"", top};
  std::string out =
      svg::line({page::panel_left, top}, {page::width - page::margin, top}, {.stroke = page::rule, .width = 0.8});
  double y = top + 17;
  for (const auto& line : lines) {
    const auto gap = line.rfind("  ");
    const svg::Type plain{.size = text_size};
    if (gap == std::string::npos) {
      out += svg::text({page::panel_left, y}, line, plain);
    } else {
      out += svg::text({page::panel_left, y}, line.substr(0, gap), plain);
      out += svg::text({page::width - page::margin, y}, line.substr(gap + 2),
                       {.size = text_size, .anchor = svg::Anchor::end, .weight = svg::Weight::bold});
    }
    y += 17;
  }
  return {out, y};
}

}  // namespace hoofload::viz
