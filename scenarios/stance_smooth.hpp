// A smooth curve through points that never overshoots them: monotone cubic interpolation.
//
// Cubic Hermite pieces whose slopes are three-point differences, zero where the data turn, and limited so that each piece is
// monotone, Eq. (88) (Fritsch & Carlson 1980). Continuous with its first derivative; third order away from turning points.
#pragma once

#include <optional>
#include <vector>

namespace hoofload::scenarios {

struct SmoothCurve {
  std::vector<double> x;  ///< strictly rising, at least two
  std::vector<double> y, slope;
};

/// Precondition: x strictly rising, as many y as x, at least two.
[[nodiscard]] SmoothCurve smooth_curve(std::vector<double> x, std::vector<double> y);

/// Value at a place, clamped to the ends.
[[nodiscard]] double value_at(const SmoothCurve& curve, double x);

enum class Crossing { rising, falling };

/// Place of the last crossing of `level` in that sense, to 1e-12 of the range; nothing if there is none.
[[nodiscard]] std::optional<double> last_crossing(const SmoothCurve& curve, double level, Crossing sense);
/// The first one.
[[nodiscard]] std::optional<double> first_crossing(const SmoothCurve& curve, double level, Crossing sense);

/// Value of the largest size and its place: on the parabola through the largest point and its neighbours, Eq. (93).
struct Peak {
  double x = 0, y = 0;
};
[[nodiscard]] Peak peak_of(const std::vector<double>& x, const std::vector<double>& y);
/// The same of the parabola about point k; the point itself at an end.
[[nodiscard]] Peak peak_at(const std::vector<double>& x, const std::vector<double>& y, std::size_t k);

}  // namespace hoofload::scenarios
