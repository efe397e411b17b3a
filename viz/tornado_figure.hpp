// One-at-a-time swings of a quantity as bars about its middle value, the widest on top.
#pragma once

#include <string>
#include <vector>

#include "viz/frame.hpp"

namespace hoofload::viz {

/// The quantity with one input at its low and at its high value, and these values as they are shown.
struct TornadoRow {
  std::string name, low_text, high_text;
  double at_low, at_high;
};

/// `label` carries the unit; rows in the order in which they are drawn, from the top.
struct TornadoFigure {
  Heading heading;
  std::string label;
  double middle = 0;
  std::vector<TornadoRow> rows;
};

/// The SVG file; it says that it is one at a time. Throws std::invalid_argument without rows or with a number that is
/// not finite.
[[nodiscard]] std::string tornado_figure(const TornadoFigure& figure);

}  // namespace hoofload::viz
