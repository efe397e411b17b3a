// Lengths over direction, seen from above: straight ahead is up, medial and lateral at the sides.
#pragma once

#include <string>
#include <vector>

#include "viz/frame.hpp"

namespace hoofload::viz {

/// Length [mm] at angles [rad] from straight ahead, positive to the right; of the same length.
struct PolarCurve {
  std::string name;
  std::vector<double> angle, length;
};

struct PolarFigure {
  Heading heading;
  std::string centre, left, right, ahead;  ///< what the centre and the three directions are called
  std::vector<PolarCurve> curves;          ///< the first is the baseline
};

/// The SVG file. Throws std::invalid_argument if there is no finite point or a curve's lists differ in length.
[[nodiscard]] std::string polar_figure(const PolarFigure& figure);

}  // namespace hoofload::viz
