// A quantity over two inputs as filled contours, with the solved points marked.
#pragma once

#include <string>
#include <vector>

#include "viz/axes.hpp"
#include "viz/scale.hpp"

namespace hoofload::viz {

/// Values on a grid: value[row * columns + column], rows along y; one that is not finite leaves its cells blank.
struct MapFigure {
  Heading heading;
  Axis x, y;
  std::vector<double> x_values, y_values;  ///< rising, at least two each
  std::vector<double> value;
  ColourScale scale;
};

/// The SVG file. Throws std::invalid_argument if the grid is not as said or has no whole cell. Between grid points
/// the value is taken as linear in the two triangles of a cell.
[[nodiscard]] std::string map_figure(const MapFigure& figure);

}  // namespace hoofload::viz
