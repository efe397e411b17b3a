// How well bars cover errors: coverage, median effectivity, and the factor that would bring the coverage to 95 %.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

namespace hoofload::tests {

/// Bar and true error of one value, same unit.
struct BarAndError {
  double bar = 0, error = 0;
};

/// `effectivity`: median of bar / error. `factor`: the bars times it cover 95 % exactly. `spread` = factor x effectivity is
/// what the median effectivity would be then: no scaling of such bars meets 95 % and an effectivity below 2 if it is above 2.
struct BarStatistics {
  std::size_t values = 0, within = 0;
  double effectivity = 0, factor = 0;
  [[nodiscard]] double coverage() const { return 100.0 * static_cast<double>(within) / static_cast<double>(values); }
  [[nodiscard]] double spread() const { return factor * effectivity; }
};

/// Order statistic: at least `share` of the numbers are not larger. Numbers must not be empty.
inline double quantile(std::vector<double> numbers, double share) {
  const double place = std::ceil(share * static_cast<double>(numbers.size()));
  const auto k = static_cast<std::ptrdiff_t>(std::clamp(place - 1, 0.0, static_cast<double>(numbers.size() - 1)));
  std::nth_element(numbers.begin(), numbers.begin() + k, numbers.end());
  return numbers[static_cast<std::size_t>(k)];
}

/// Errors must be positive: values below round-off are not to be among them.
inline BarStatistics bar_statistics(const std::vector<BarAndError>& pairs) {
  BarStatistics s;
  s.values = pairs.size();
  if (pairs.empty()) return s;
  std::vector<double> need;
  for (const auto& [bar, error] : pairs) {
    s.within += error <= bar ? 1 : 0;
    need.push_back(error / std::max(bar, 1e-300));
  }
  s.factor = quantile(need, 0.95);
  s.effectivity = 1 / quantile(need, 0.5);
  return s;
}

}  // namespace hoofload::tests
