// The colour scale that several pictures share, and the bands it is drawn in.
#pragma once

#include <string>
#include <vector>

#include "viz/colour.hpp"

namespace hoofload::viz {

enum class Map { sequential, diverging };

/// Values below `low` and above `high` take the end colours. One scale serves every option of a comparison.
struct ColourScale {
  double low = 0, high = 1;
  std::string label;  ///< what is shown, e.g. "pressure"
  std::string unit;   ///< e.g. "kPa"
  Map map = Map::sequential;
};

/// Bounds of the bands, from low to high (whole tick steps): one more than there are bands.
/// Throws std::invalid_argument unless low < high, both finite.
[[nodiscard]] std::vector<double> band_levels(const ColourScale& scale);

/// Colour of the band between level k and k + 1 of `bands` bands.
[[nodiscard]] Rgb band_colour(const ColourScale& scale, std::size_t k, std::size_t bands);

/// A scale with round ends that holds [low, high]; a diverging one is symmetric about zero.
[[nodiscard]] ColourScale rounded_scale(double low, double high, std::string label, std::string unit,
                                        Map map = Map::sequential);

}  // namespace hoofload::viz
