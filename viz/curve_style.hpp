// How the curves of one figure are told apart: number, dash and colour together, so that none of the three is needed alone.
#pragma once

#include <string>
#include <vector>

#include "viz/panel.hpp"

namespace hoofload::viz {

/// The first curve is the baseline: black and full.
[[nodiscard]] svg::Pen curve_pen(std::size_t k);

/// The curve's number in a circle.
[[nodiscard]] std::string curve_tag(const Vec2& at, std::size_t k);

/// Sample line, number and name of each curve, in the panel.
[[nodiscard]] Piece curve_legend(const std::vector<std::string>& names);

}  // namespace hoofload::viz
