// A nodal field over a section as a figure of its own: filled bands, colour bar, scale bar, region names.
#pragma once

#include <optional>
#include <string>

#include "viz/section.hpp"

namespace hoofload::viz {

struct FieldFigure {
  Heading heading;
  Section section;
  ColourScale scale;
  std::optional<Window> window;  ///< what is shown; everything if not given
};

/// The SVG file. Throws std::invalid_argument on a field, displacement or window that does not fit its mesh.
[[nodiscard]] std::string field_figure(const FieldFigure& figure);

}  // namespace hoofload::viz
