// Bars against the true errors that readings on several meshes show: on the density h of a study and, by the same solutions, on 2h,
// each with the twin of half its divisions, and the study's finest mesh as the truth.
#pragma once

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>
#include <vector>

#include "scenarios/bars.hpp"
#include "tests/support/bar_readings.hpp"
#include "tests/support/bar_statistics.hpp"

namespace hoofload::tests {

constexpr double kRoundOff = 1e-5;  ///< of S: below it the solver's own tolerance speaks

/// `plain`: the bar without its factor k. `single`: the bars of both values of a change, as if independent (root of squares).
struct JudgedBar {
  const VariantReading* of = nullptr;
  BarAndError pair;
  double plain = 0, single_bars = 0, single_errors = 0;
};

/// `is_between`: the density is twice that of the study, which solved it as the mesh between.
struct JudgedMesh {
  double density = 0.5;
  bool is_between = true;
};

inline scenarios::TwinReading twin_reading(const MeshReadings& m, const std::string& key, const JudgedMesh& mesh) {
  const auto* quantity = scenarios::find_quantity(key);
  const double size = std::max(m.size, quantity == nullptr ? 0 : scenarios::least_size(quantity->unit));
  return mesh.is_between ? scenarios::TwinReading{m.between, m.value, size}
                         : scenarios::TwinReading{m.value, m.twin, size};
}

inline bool has_error(double error, double size) { return error > kRoundOff * size; }

inline std::vector<JudgedBar> judged_values(const std::vector<VariantReading>& readings, const JudgedMesh& mesh) {
  std::vector<JudgedBar> judged;
  for (const auto& r : readings) {
    const auto take = [&](const MeshReadings& m) {
      const auto on_twin = twin_reading(m, r.key, mesh);
      const double error = std::abs(m.finer - on_twin.value);
      const double factor = scenarios::bar_factor(mesh.density, scenarios::is_of_the_whole(r.key));
      if (!has_error(error, on_twin.size)) return;
      judged.push_back({&r, {scenarios::bar_of_value(on_twin, factor), error}, scenarios::bar_of_value(on_twin, 1)});
    };
    take(r.drawn);
    if (r.is_paired) take(r.set_back);
  }
  return judged;
}

inline std::vector<JudgedBar> judged_changes(const std::vector<VariantReading>& readings, const JudgedMesh& mesh) {
  std::vector<JudgedBar> judged;
  for (const auto& r : readings) {
    if (!r.is_paired) continue;
    const auto a = twin_reading(r.drawn, r.key, mesh), b = twin_reading(r.set_back, r.key, mesh);
    const double error_a = r.drawn.finer - a.value, error_b = r.set_back.finer - b.value;
    const double factor = scenarios::bar_factor(mesh.density, scenarios::is_of_the_whole(r.key));
    if (!has_error(std::abs(error_b - error_a), std::max(a.size, b.size))) continue;
    judged.push_back({&r,
                      {scenarios::bar_of_change(a, b, factor), std::abs(error_b - error_a)},
                      scenarios::bar_of_change(a, b, 1),
                      std::hypot(scenarios::bar_of_value(a, factor), scenarios::bar_of_value(b, factor)),
                      std::hypot(error_a, error_b)});
  }
  return judged;
}

inline BarStatistics statistics_of(const std::vector<JudgedBar>& judged) {
  std::vector<BarAndError> pairs;
  for (const JudgedBar& j : judged) pairs.push_back(j.pair);
  return bar_statistics(pairs);
}

/// Every second variant, in the order of their seeds: the first half calibrates, the second judges.
inline std::pair<std::vector<VariantReading>, std::vector<VariantReading>> halves(
    const std::vector<VariantReading>& all) {
  std::set<std::uint64_t> seeds;
  for (const auto& r : all) seeds.insert(r.seed);
  std::pair<std::vector<VariantReading>, std::vector<VariantReading>> split;
  for (const auto& r : all)
    (std::distance(seeds.begin(), seeds.find(r.seed)) % 2 == 0 ? split.first : split.second).push_back(r);
  return split;
}

}  // namespace hoofload::tests
