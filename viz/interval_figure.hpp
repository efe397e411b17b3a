// Changes of several options as rows: the spread over the draws as a band, the change of the values at hand as a dot
// with the mesh's bar. The two are drawn apart, since neither holds the other.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viz/frame.hpp"

namespace hoofload::viz {

/// 5, 50 and 95 % of the draws.
struct Spread {
  double low, median, high;
};

struct IntervalRow {
  std::string name;
  std::optional<double> change;  ///< of the values at hand; none: only drawn
  double mesh_bar = 0;           ///< of the change
  std::optional<Spread> spread;
  std::string remark;  ///< "not distinguishable", ...
};

/// `label` carries the unit: "change of the pressure on the sole, kPa".
struct IntervalFigure {
  Heading heading;
  std::string label;
  std::vector<IntervalRow> rows;
};

/// The SVG file. Throws std::invalid_argument without a finite number.
[[nodiscard]] std::string interval_figure(const IntervalFigure& figure);

}  // namespace hoofload::viz
