// Curves over one axis, told apart by number, dash and colour together, so that none of the three is needed alone.
#pragma once

#include <string>
#include <vector>

#include "viz/axes.hpp"

namespace hoofload::viz {

/// x and y of the same length; a y that is not finite interrupts the curve.
struct Curve {
  std::string name;
  std::vector<double> x, y;
};

/// A dashed upright line at a place worth knowing.
struct Landmark {
  std::string name;
  double x;
};

struct CurveFigure {
  Heading heading;
  Axis x, y;
  Growing x_growing = Growing::rightwards;
  std::vector<Curve> curves;  ///< the first is the baseline: black and full
  std::vector<Landmark> landmarks;
};

/// The SVG file. Throws std::invalid_argument if there is no finite point or a curve's lists differ in length.
[[nodiscard]] std::string curve_figure(const CurveFigure& figure);

}  // namespace hoofload::viz
