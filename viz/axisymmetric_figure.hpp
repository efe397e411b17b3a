// The axisymmetric section (x = r, y = z), mirrored to both sides for reading: field, contact pressure on the sole,
// ground and total load.
#pragma once

#include <optional>
#include <string>

#include "viz/marks.hpp"
#include "viz/section.hpp"

namespace hoofload::viz {

/// Points in (r, z) [mm], r >= 0, displaced by the section's deformation_scale. The mirror image is added here.
struct AxisymmetricView {
  Heading heading;
  Section section;
  ColourScale scale;             ///< one for all options of a comparison
  std::optional<Window> window;  ///< the right half's; everything if not given. Mirrored too.

  PressureRibbon sole;           ///< pressure on the horn's outer face, walked with the body on the left
  std::optional<double> ground;  ///< its height z [mm]
  double load = 0;               ///< vertical force on the whole ring [N], drawn on the axis if positive
  double mm_per_newton = 0.008;
  double mm_per_kpa = 0.04;
};

/// The SVG file. Throws std::invalid_argument on lists that do not fit together or numbers that are not finite.
[[nodiscard]] std::string axisymmetric_figure(const AxisymmetricView& view);

}  // namespace hoofload::viz
