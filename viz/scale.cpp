#include "viz/scale.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

constexpr int wanted_bands = 14;

}  // namespace

std::vector<double> band_levels(const ColourScale& scale) {
  std::vector<double> levels = ticks(scale.low, scale.high, wanted_bands);
  const double tolerance = 1e-6 * (scale.high - scale.low);
  if (levels.empty() || levels.front() > scale.low + tolerance) levels.insert(levels.begin(), scale.low);
  if (levels.back() < scale.high - tolerance) levels.push_back(scale.high);
  return levels;
}

Rgb band_colour(const ColourScale& scale, std::size_t k, std::size_t bands) {
  const double t = bands < 2 ? 0.5 : static_cast<double>(k) / static_cast<double>(bands - 1);
  return scale.map == Map::sequential ? sequential(t) : diverging(2 * t - 1);
}

ColourScale rounded_scale(double low, double high, std::string label, std::string unit, Map map) {
  if (map == Map::diverging) {
    high = std::max(std::abs(low), std::abs(high));
    low = -high;
  }
  const Range range = rounded_range(low, high, wanted_bands);
  return {range.low, range.high, std::move(label), std::move(unit), map};
}

}  // namespace hoofload::viz
