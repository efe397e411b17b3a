// Bars from coarse twins against meshes four times as fine on random feet, docs/error-bars.md: Eq. (77) on values, Eq. (78) on
// the change that 6 mm of setback make. On demand only:
//
//   HOOFLOAD_VARIANTS=200 build/tests/physics_test --gtest_filter='BarCalibrationStudy.*'
//
// HOOFLOAD_FIRST_SEED=n draws from there on, HOOFLOAD_DENSITY=h is the mesh that is judged (0.25 if not given). HOOFLOAD_READINGS=file
// keeps what was solved; what is there already is not solved again. Every second variant calibrates, the others judge. Common practice, no source: 95 % covered, effectivity
// (bar over true error; Babuska & Rheinboldt 1978, from memory) between 0.5 and 2 in the median.
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <map>
#include <set>

#include "scenarios/bars.hpp"
#include "tests/support/bar_readings_file.hpp"
#include "tests/support/bar_statistics.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

constexpr double kRoundOff = 1e-5;  ///< of S: below it the solver's own tolerance speaks

using Shape = std::function<double(const MeshReadings&)>;
using Pairs = std::vector<BarAndError>;

scenarios::TwinReading on_twin(const MeshReadings& m) { return {m.value, m.twin, m.size}; }

double error_of(const MeshReadings& m) { return std::abs(m.finer - m.value); }

bool has_error(double error, double size) { return error > kRoundOff * size && error > 1e-9; }

/// Change from drawn to set back, as one reading: what its bar and its error are about.
MeshReadings change_of(const VariantReading& r) {
  const MeshReadings &a = r.drawn, &b = r.set_back;
  return {b.twin - a.twin,       b.milder - a.milder, b.value - a.value,
          b.between - a.between, b.finer - a.finer,   std::max(a.size, b.size)};
}

const char* setting(const char* name, const char* otherwise) {
  const char* text = std::getenv(name);
  return text != nullptr ? text : otherwise;
}

/// Those of the file, and as many more as are wanted.
VariantReadings readings() {
  const std::string file = setting("HOOFLOAD_READINGS", "");
  const StudyMeshes meshes{std::atof(setting("HOOFLOAD_DENSITY", "0.25")), std::atof(setting("HOOFLOAD_FINER", "4"))};
  const int wanted = std::atoi(setting("HOOFLOAD_VARIANTS", "200"));
  VariantReadings all = kept_readings(file);
  const std::uint64_t first = std::strtoull(setting("HOOFLOAD_FIRST_SEED", "1"), nullptr, 10);
  std::uint64_t seed = std::max(all.last_seed + 1, first);
  for (; all.variants < wanted; ++seed) {
    const auto runs = next_variant(seed, meshes.density);
    const VariantReadings one = solve_variant(seed, runs, meshes);
    if (!file.empty()) keep_variant(one, file);
    add(one, all);
  }
  return all;
}

/// Every second variant, in the order of their seeds.
std::pair<std::vector<VariantReading>, std::vector<VariantReading>> halves(const std::vector<VariantReading>& all) {
  std::set<std::uint64_t> seeds;
  for (const auto& r : all) seeds.insert(r.seed);
  std::pair<std::vector<VariantReading>, std::vector<VariantReading>> split;
  for (const auto& r : all)
    (std::distance(seeds.begin(), seeds.find(r.seed)) % 2 == 0 ? split.first : split.second).push_back(r);
  return split;
}

Pairs value_pairs(const std::vector<VariantReading>& half, const Shape& bar) {
  Pairs pairs;
  for (const auto& r : half)
    if (has_error(error_of(r.drawn), r.drawn.size)) pairs.push_back({bar(r.drawn), error_of(r.drawn)});
  return pairs;
}

void print_row(const std::string& what, const BarStatistics& s) {
  if (s.values > 0)
    std::printf("| %s | %zu | %.1f | %.2f | %.2f |\n", what.c_str(), s.values, s.coverage(), s.effectivity, s.spread());
}

void print_groups(const char* title, const std::map<std::string, Pairs>& groups) {
  std::printf("\n| %s | n | covered, %% | median effectivity | the same at 95 %% |\n|---|---|---|---|---|\n", title);
  for (const auto& [name, pairs] : groups) print_row(name, bar_statistics(pairs));
}

/// By quantity, by phase, by model and all together.
void print_tables(const char* what, const std::vector<std::pair<const VariantReading*, BarAndError>>& judged) {
  std::map<std::string, Pairs> quantity, phase, model, all;
  for (const auto& [r, pair] : judged) {
    quantity["`" + r->key + "`"].push_back(pair);
    phase[std::string(scenarios::name_of(r->phase))].push_back(pair);
    model[std::string(scenarios::name_of(r->model))].push_back(pair);
    all["all"].push_back(pair);
  }
  std::printf("\n%s\n", what);
  for (const auto* groups : {&all, &model, &phase, &quantity})
    print_groups(groups == &all ? "" : groups == &model ? "model" : groups == &phase ? "phase" : "quantity", *groups);
}

/// Each shape times the factor that covers 95 % of the first half, judged on the second.
void print_shapes(const std::vector<VariantReading>& first, const std::vector<VariantReading>& second) {
  const std::vector<std::pair<const char*, Shape>> shapes{
      {"twin of half the divisions", [](const MeshReadings& m) { return std::abs(m.value - m.twin); }},
      {"the same + S/100, Eq. (77)", [](const MeshReadings& m) { return scenarios::bar_of_value(on_twin(m)); }},
      {"the same + S/30", [](const MeshReadings& m) { return std::abs(m.value - m.twin) + m.size / 30; }},
      {"twin of 0.7 of the divisions + S/100",
       [](const MeshReadings& m) { return 3 * std::abs(m.value - m.milder) + m.size / 100; }},
      {"both twins, root of squares, + S/100",
       [](const MeshReadings& m) { return std::hypot(m.value - m.twin, m.value - m.milder) + m.size / 100; }},
      {"S alone", [](const MeshReadings& m) { return m.size; }}};
  std::printf("\n| shape of the bar | factor (first half) | covered, %% (second) | median effectivity (second) |\n");
  std::printf("|---|---|---|---|\n");
  for (const auto& [name, shape] : shapes) {
    const double factor = bar_statistics(value_pairs(first, shape)).factor;
    const auto s = bar_statistics(value_pairs(second, [&](const MeshReadings& m) { return factor * shape(m); }));
    std::printf("| %s | %.2f | %.1f | %.2f |\n", name, factor, s.coverage(), s.effectivity);
  }
}

BarStatistics judge_values(const std::vector<VariantReading>& half) {
  std::vector<std::pair<const VariantReading*, BarAndError>> judged;
  Pairs pairs;
  for (const auto& r : half) {
    if (!has_error(error_of(r.drawn), r.drawn.size)) continue;
    pairs.push_back({scenarios::bar_of_value(on_twin(r.drawn)), error_of(r.drawn)});
    judged.emplace_back(&r, pairs.back());
  }
  print_tables("Values, bar (77), second half", judged);
  return bar_statistics(pairs);
}

/// Paired bar over the two single bars combined as if independent (root of squares), and the same for the true errors.
BarStatistics judge_changes(const std::vector<VariantReading>& half) {
  std::vector<std::pair<const VariantReading*, BarAndError>> judged;
  Pairs pairs;
  std::vector<double> bars, errors;
  for (const auto& r : half) {
    const MeshReadings change = change_of(r);
    if (!r.is_paired || !has_error(error_of(change), change.size)) continue;
    pairs.push_back({scenarios::bar_of_change(on_twin(r.drawn), on_twin(r.set_back)), error_of(change)});
    judged.emplace_back(&r, pairs.back());
    bars.push_back(pairs.back().bar /
                   std::hypot(scenarios::bar_of_value(on_twin(r.drawn)), scenarios::bar_of_value(on_twin(r.set_back))));
    errors.push_back(error_of(change) / std::hypot(error_of(r.drawn), error_of(r.set_back)));
  }
  print_tables("Changes by 6 mm of setback, bar (78), second half", judged);
  if (!bars.empty())
    std::printf(
        "\nPaired over single bars combined, median %.2f; true errors alike, median %.2f; paired smaller in %.0f %%\n",
        quantile(bars, 0.5), quantile(errors, 0.5),
        100.0 * static_cast<double>(std::count_if(bars.begin(), bars.end(), [](double b) { return b < 1; })) /
            static_cast<double>(bars.size()));
  return bar_statistics(pairs);
}

TEST(BarCalibrationStudy, bars_cover_a_mesh_four_times_as_fine_19_times_in_20) {
  const VariantReadings r = readings();
  const auto [first, second] = halves(r.all);
  std::printf("%d variants, %d phases, %d of them not solved on one of the meshes\n", r.variants, r.phases,
              r.phases_lost);
  ASSERT_FALSE(first.empty() || second.empty());
  print_shapes(first, second);
  const BarStatistics values = judge_values(second), changes = judge_changes(second);
  EXPECT_GE(values.coverage(), 95);
  EXPECT_GE(changes.coverage(), 95);
  EXPECT_GE(values.effectivity, 0.5);
  EXPECT_LE(values.effectivity, 2);
}

}  // namespace
