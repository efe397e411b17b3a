// How a region looks where no field is drawn in it: a quiet tone, a layer (what lies behind what) and a readable name.
#pragma once

#include <string>
#include <string_view>

namespace hoofload::viz {

/// Drawn from back to front.
enum class Layer { behind, body, front };

struct RegionStyle {
  std::string name;  ///< as it stands in the key
  std::string fill;
  Layer layer;
};

/// Style of the regions that our sections have; an unknown region keeps its name in a neutral tone.
[[nodiscard]] RegionStyle region_style(std::string_view region);

}  // namespace hoofload::viz
