#include "scenarios/bars.hpp"

#include <algorithm>
#include <cmath>

namespace hoofload::scenarios {

namespace {

constexpr double kSizeOfValue = 0.01;                          ///< Eq. (77)
constexpr double kPartOfChange = 0.05, kSizeOfChange = 0.002;  ///< Eq. (78)

}  // namespace

double bar_of_value(const TwinReading& r) { return std::abs(r.value - r.twin) + kSizeOfValue * r.size; }

double bar_of_change(const TwinReading& baseline, const TwinReading& option) {
  const double change = option.value - baseline.value, on_twin = option.twin - baseline.twin;
  return std::abs(change - on_twin) + kPartOfChange * std::abs(change) +
         kSizeOfChange * std::max(baseline.size, option.size);
}

}  // namespace hoofload::scenarios
