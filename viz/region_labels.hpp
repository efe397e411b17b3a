// Names of the regions that show a field: on the region where it is wide enough, else beside it with a line to it.
#pragma once

#include <vector>

#include "viz/labels.hpp"
#include "viz/section.hpp"

namespace hoofload::viz {

/// One label a name, for regions at the places x [mm]; `size` is the type size that they will be drawn in [px].
[[nodiscard]] std::vector<Label> region_labels(const Section& section, const std::vector<Vec2>& x, const View& view,
                                               double size);

}  // namespace hoofload::viz
