#include "viz/curve_style.hpp"

#include <algorithm>
#include <array>

#include "viz/colour.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {

svg::Pen curve_pen(std::size_t k) {
  constexpr std::array<std::string_view, 9> dashes{"",     "9 4", "2.5 3", "14 4 2.5 4", "", "5 2.5 1.5 2.5",
                                                   "16 5", "6 6", "1.5 5"};
  return {.stroke = hex(curve_colour(k)), .width = k == 0 ? 2.6 : 1.9, .dash = std::string(dashes[k % dashes.size()])};
}

std::string curve_tag(const Vec2& at, std::size_t k) {
  const std::string colour = hex(curve_colour(k)), number = std::to_string(k);
  return svg::circle(at, 8.5, {.stroke = colour, .width = 1.4, .fill = "#ffffff"}) +
         svg::text(at + Vec2(0, 3.8), number,
                   {.size = 10.5, .colour = colour, .anchor = svg::Anchor::middle, .weight = svg::Weight::bold});
}

Piece curve_legend(const std::vector<std::string>& names) {
  std::string out;
  double y = page::heading_height + 18;
  for (std::size_t k = 0; k < names.size(); ++k) {
    const Vec2 left(page::panel_left, y);
    out += svg::line(left, left + Vec2(40, 0), curve_pen(k));
    if (names.size() > 1) out += curve_tag(left + Vec2(54, 0), k);
    double line = y + 4;
    for (const auto& part : wrapped(names[k], 20)) {
      out += svg::text({page::panel_left + 69, line}, part, {.size = 12});
      line += 15;
    }
    y = std::max(line, y + 19) + 6;
  }
  return {out, y};
}

}  // namespace hoofload::viz
