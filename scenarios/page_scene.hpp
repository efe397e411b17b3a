// A drawing as numbers for the page: outlines, bands, forces and what a probe reads, in mm of the bone's frame, y up.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "scenarios/drawings.hpp"

namespace hoofload::scenarios {

/// {"window": [x0, y0, x1, y1], "parts": [{"region", "name", "layer", "fill", "path"}], "bands": [{"level", "path"}],
/// "rest",
/// "ribbon": {"at", "kPa", "mm_per_kpa"}, "forces", "probe": {"x", "y", "kPa", "tri", "names"}, ...}; paths are SVG
/// path data.
/// `probed`: with what a probe reads, most of the bytes.
[[nodiscard]] nlohmann::json scene_json(const SideDrawing& drawing, bool probed = true);
[[nodiscard]] nlohmann::json scene_json(const RingDrawing& drawing, bool probed = true);

/// {"levels": [...], "colours": ["#rrggbb", ...], "label", "unit"}; one colour fewer than levels.
[[nodiscard]] nlohmann::json scale_json(const viz::ColourScale& scale);

}  // namespace hoofload::scenarios
