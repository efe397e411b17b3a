#include "scenarios/stance_smooth.hpp"

#include <algorithm>
#include <cmath>

namespace hoofload::scenarios {

namespace {

double three_point(double h0, double h1, double d0, double d1) { return (h1 * d0 + h0 * d1) / (h0 + h1); }

/// One-sided slope at an end, of the data's own sign.
double end_slope(double h0, double h1, double d0, double d1) {
  const double s = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  return s * d0 <= 0 ? 0 : s;
}

std::size_t piece_of(const SmoothCurve& c, double x) {
  const auto it = std::upper_bound(c.x.begin() + 1, c.x.end() - 1, x);
  return static_cast<std::size_t>(it - c.x.begin()) - 1;
}

/// The crossing within piece i, by bisection: a piece is monotone.
double crossing_in(const SmoothCurve& c, std::size_t i, double level) {
  double a = c.x[i], b = c.x[i + 1];
  const bool rises = c.y[i + 1] > c.y[i];
  for (int k = 0; k < 60; ++k) {
    const double m = 0.5 * (a + b);
    ((value_at(c, m) < level) == rises ? a : b) = m;
  }
  return 0.5 * (a + b);
}

bool crosses(const SmoothCurve& c, std::size_t i, double level, Crossing sense) {
  return sense == Crossing::rising ? c.y[i] < level && c.y[i + 1] >= level : c.y[i] >= level && c.y[i + 1] < level;
}

}  // namespace

SmoothCurve smooth_curve(std::vector<double> x, std::vector<double> y) {
  const std::size_t n = x.size();
  std::vector<double> h(n - 1), d(n - 1), m(n);
  for (std::size_t i = 0; i + 1 < n; ++i) h[i] = x[i + 1] - x[i], d[i] = (y[i + 1] - y[i]) / h[i];
  if (n == 2) return {std::move(x), std::move(y), {d[0], d[0]}};
  m[0] = end_slope(h[0], h[1], d[0], d[1]);
  m[n - 1] = end_slope(h[n - 2], h[n - 3], d[n - 2], d[n - 3]);
  for (std::size_t i = 1; i + 1 < n; ++i) m[i] = d[i - 1] * d[i] <= 0 ? 0 : three_point(h[i - 1], h[i], d[i - 1], d[i]);
  for (std::size_t i = 0; i + 1 < n; ++i) {
    if (d[i] == 0) {
      m[i] = m[i + 1] = 0;
      continue;
    }
    const double size = std::hypot(m[i] / d[i], m[i + 1] / d[i]);
    if (size > 3) m[i] *= 3 / size, m[i + 1] *= 3 / size;
  }
  return {std::move(x), std::move(y), std::move(m)};
}

double value_at(const SmoothCurve& c, double at) {
  const double x = std::clamp(at, c.x.front(), c.x.back());
  const std::size_t i = piece_of(c, x);
  const double h = c.x[i + 1] - c.x[i], t = (x - c.x[i]) / h, s = 1 - t;
  return s * s * (1 + 2 * t) * c.y[i] + t * t * (3 - 2 * t) * c.y[i + 1] +
         h * t * s * (s * c.slope[i] - t * c.slope[i + 1]);
}

std::optional<double> first_crossing(const SmoothCurve& c, double level, Crossing sense) {
  for (std::size_t i = 0; i + 1 < c.x.size(); ++i)
    if (crosses(c, i, level, sense)) return crossing_in(c, i, level);
  return {};
}

std::optional<double> last_crossing(const SmoothCurve& c, double level, Crossing sense) {
  for (std::size_t i = c.x.size() - 1; i-- > 0;)
    if (crosses(c, i, level, sense)) return crossing_in(c, i, level);
  return {};
}

Peak peak_of(const std::vector<double>& x, const std::vector<double>& y) {
  std::size_t k = 0;
  for (std::size_t i = 1; i < y.size(); ++i)
    if (std::abs(y[i]) > std::abs(y[k])) k = i;
  return peak_at(x, y, k);
}

Peak peak_at(const std::vector<double>& x, const std::vector<double>& y, std::size_t k) {
  Peak peak{x[k], y[k]};
  if (k == 0 || k + 1 == y.size()) return peak;
  // Newton's form through the three points.
  const double d0 = (y[k] - y[k - 1]) / (x[k] - x[k - 1]), d1 = (y[k + 1] - y[k]) / (x[k + 1] - x[k]);
  const double curvature = (d1 - d0) / (x[k + 1] - x[k - 1]);
  if (curvature == 0) return peak;
  peak.x = std::clamp(0.5 * (x[k - 1] + x[k] - d0 / curvature), x[k - 1], x[k + 1]);
  peak.y = y[k - 1] + d0 * (peak.x - x[k - 1]) + curvature * (peak.x - x[k - 1]) * (peak.x - x[k]);
  return peak;
}

}  // namespace hoofload::scenarios
