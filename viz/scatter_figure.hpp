// Points of two columns against each other.
#pragma once

#include <string>
#include <vector>

#include "viz/axes.hpp"

namespace hoofload::viz {

/// x and y of the same length; a point with a number that is not finite is left out.
struct ScatterFigure {
  Heading heading;
  Axis x, y;
  std::vector<double> x_values, y_values;
};

/// The SVG file. Throws std::invalid_argument if there is no finite point or the lists differ in length.
[[nodiscard]] std::string scatter_figure(const ScatterFigure& figure);

}  // namespace hoofload::viz
