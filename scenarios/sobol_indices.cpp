#include "scenarios/sobol_indices.hpp"

#include "scenarios/study.hpp"
#include "scenarios/unit_points.hpp"

#include <algorithm>
#include <numeric>

namespace hoofload::scenarios {

namespace {

using Rows = std::vector<std::size_t>;

/// Over the rows of A and B together, Eq. (105).
double variance_of(const DesignValues& v, const Rows& rows) {
  const double n = 2 * static_cast<double>(rows.size());
  double sum = 0;
  for (const std::size_t r : rows) sum += v.a[r] + v.b[r];
  const double mean = sum / n;
  double square = 0;
  for (const std::size_t r : rows) square += (v.a[r] - mean) * (v.a[r] - mean) + (v.b[r] - mean) * (v.b[r] - mean);
  return square / (n - 1);
}

double half_mean_square(const std::vector<double>& x, const std::vector<double>& y, const Rows& rows) {
  double sum = 0;
  for (const std::size_t r : rows) sum += (x[r] - y[r]) * (x[r] - y[r]);
  return sum / (2 * static_cast<double>(rows.size()));
}

struct Point {
  std::vector<double> first, total;
};

Point estimate(const DesignValues& v, const Rows& rows, double variance) {
  Point p;
  for (const std::vector<double>& ab : v.ab) {
    p.first.push_back(variance > 0 ? 1 - half_mean_square(v.b, ab, rows) / variance : 0);
    p.total.push_back(variance > 0 ? half_mean_square(v.a, ab, rows) / variance : 0);
  }
  return p;
}

IndexEstimate with_interval(double value, std::vector<double> resampled) {
  std::sort(resampled.begin(), resampled.end());
  return {value, quantile_of(resampled, 0.025), quantile_of(resampled, 0.975)};
}

}  // namespace

SobolIndices sobol_indices(const DesignValues& v, std::size_t resamples, std::uint64_t seed) {
  const std::size_t n = v.a.size(), inputs = v.ab.size();
  Rows rows(n);
  std::iota(rows.begin(), rows.end(), std::size_t{0});
  SobolIndices out;
  out.samples = n;
  out.variance = variance_of(v, rows);
  const Point best = estimate(v, rows, out.variance);
  std::vector<std::vector<double>> first(inputs), total(inputs);
  for (std::size_t k = 0; k < resamples; ++k) {
    for (std::size_t r = 0; r < n; ++r) rows[r] = hashed(seed, k, r) % n;
    const Point again = estimate(v, rows, variance_of(v, rows));
    for (std::size_t i = 0; i < inputs; ++i) {
      first[i].push_back(again.first[i]);
      total[i].push_back(again.total[i]);
    }
  }
  for (std::size_t i = 0; i < inputs; ++i) {
    out.first.push_back(with_interval(best.first[i], std::move(first[i])));
    out.total.push_back(with_interval(best.total[i], std::move(total[i])));
  }
  return out;
}

}  // namespace hoofload::scenarios
