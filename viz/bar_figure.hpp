// Horizontal bars, one row a run and one bar a series, with a whisker for each bar's uncertainty and its number in words.
#pragma once

#include <string>
#include <vector>

#include "viz/frame.hpp"

namespace hoofload::viz {

/// A value with its bar, both in the figure's unit; not finite: no bar is drawn and the row says so.
struct BarValue {
  double value, bar;
};

/// One value for each series.
struct BarRow {
  std::string name;
  std::vector<BarValue> values;
};

/// `label` carries the unit: "pressure on the sole, kPa".
struct BarFigure {
  Heading heading;
  std::string label;
  std::vector<std::string> series;
  std::vector<BarRow> rows;
};

/// The SVG file. Throws std::invalid_argument without a finite value or if a row's values are not one for each series.
[[nodiscard]] std::string bar_figure(const BarFigure& figure);

}  // namespace hoofload::viz
