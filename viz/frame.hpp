// What all figures have in common: a heading, a plot area in millimetres, a panel of keys at its right, the cautions.
#pragma once

#include <string>
#include <vector>

#include "viz/svg.hpp"

namespace hoofload::viz {

using svg::Vec2;

/// `option` is the title; `phase` and `model` stand below it; facts are short "quantity value" lines for the panel.
struct Heading {
  std::string option, phase, model;
  std::vector<std::string> facts;
};

/// Part of the plane that is shown [mm], y up. Pass the same one to pictures that are to be compared.
struct Window {
  Vec2 low, high;
};

/// The smallest window that holds the points, widened by a margin [mm]. Throws std::invalid_argument without points.
[[nodiscard]] Window window_of(const std::vector<Vec2>& points, double margin);

/// Where the window lies on the page [px, y down] and how large a millimetre is [px].
struct View {
  Window window;
  Vec2 corner, size;
  double scale;
};

/// The window in a plot area of given width and at most given height, at equal scale in both directions.
/// Throws std::invalid_argument if the window is empty or not finite.
[[nodiscard]] View fitted_view(const Window& window, const Vec2& corner, const Vec2& room);

[[nodiscard]] Vec2 to_page(const View& view, const Vec2& mm);
[[nodiscard]] std::vector<Vec2> to_page(const View& view, const std::vector<Vec2>& mm);

namespace page {
inline constexpr double width = 1080;
inline constexpr double margin = 28;
inline constexpr double heading_height = 84;
inline constexpr double panel_width = 214;
inline constexpr double panel_gap = 26;
inline constexpr double plot_width = width - 2 * margin - panel_width - panel_gap;
inline constexpr double plot_height = 640;
inline constexpr double panel_left = width - margin - panel_width;
inline constexpr const char* ink = "#222222";
inline constexpr const char* soft_ink = "#5a5a5a";
inline constexpr const char* rule = "#b9b9b9";
}  // namespace page

/// A whole figure: heading, content (drawn below it), the short cautions. `bottom`: lowest pixel of the content.
[[nodiscard]] std::string framed(const Heading& heading, std::string_view description, double bottom,
                                 std::string_view content);

}  // namespace hoofload::viz
