// Bars from coarse twins against finer meshes on random feet, docs/error-bars.md: Eq. (77) on values, Eq. (78) on the change that
// 6 mm of setback make. On demand only:
//
//   HOOFLOAD_VARIANTS=200 build/tests/physics_test --gtest_filter='BarCalibrationStudy.*'
//
// HOOFLOAD_DENSITY=h is the coarsest mesh that is judged (0.25 if not given), against HOOFLOAD_FINER (4) times its divisions; 2h
// is judged by the same solutions. HOOFLOAD_FIRST_SEED=n draws from there on. HOOFLOAD_READINGS=file keeps what was solved; what
// is there already is not solved again. Every second variant calibrates, the others judge. Common practice, no source: 95 %
// covered. Effectivity (bar over true error; Babuska & Rheinboldt 1978, from memory) is printed.
#include <cstdio>
#include <cstdlib>
#include <map>

#include "tests/support/bar_judgement.hpp"
#include "tests/support/bar_readings_file.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

using Judged = std::vector<JudgedBar>;

const char* setting(const char* name, const char* otherwise) {
  const char* text = std::getenv(name);
  return text != nullptr ? text : otherwise;
}

StudyMeshes study_meshes() {
  return {std::atof(setting("HOOFLOAD_DENSITY", "0.25")), std::atof(setting("HOOFLOAD_FINER", "4"))};
}

/// Those of the file, and as many more as are wanted.
VariantReadings readings() {
  const std::string file = setting("HOOFLOAD_READINGS", "");
  const StudyMeshes meshes = study_meshes();
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

std::string kind_of(const std::string& key) { return scenarios::is_of_the_whole(key) ? "of the whole" : "of a place"; }

void print_row(const std::string& what, const BarStatistics& s) {
  if (s.values > 0) std::printf("| %s | %zu | %.1f | %.1f |\n", what.c_str(), s.values, s.coverage(), s.effectivity);
}

void print_groups(const char* title, const std::map<std::string, Judged>& groups) {
  std::printf("\n| %s | n | covered, %% | median effectivity |\n|---|---|---|---|\n", title);
  for (const auto& [name, judged] : groups) print_row(name, statistics_of(judged));
}

/// By kind, by model, by phase, by quantity and all together.
void print_tables(const std::string& what, const Judged& judged) {
  std::map<std::string, Judged> all, kind, model, phase, quantity;
  for (const JudgedBar& j : judged) {
    all["all"].push_back(j);
    kind[kind_of(j.of->key)].push_back(j);
    model[std::string(scenarios::name_of(j.of->model))].push_back(j);
    phase[std::string(scenarios::name_of(j.of->phase))].push_back(j);
    quantity["`" + j.of->key + "`"].push_back(j);
  }
  std::printf("\n%s\n", what.c_str());
  print_groups("", all), print_groups("kind", kind), print_groups("model", model), print_groups("phase", phase);
  print_groups("quantity", quantity);
}

/// The factor a of k = a / h^2 that would cover 95 % of the half, by kind.
void print_constants(const char* half, const Judged& judged, const JudgedMesh& mesh) {
  std::map<std::string, std::vector<BarAndError>> plain;
  for (const JudgedBar& j : judged) plain[kind_of(j.of->key)].push_back({j.plain, j.pair.error});
  for (const auto& [kind, pairs] : plain)
    std::printf("| %s | %g | %s | %zu | %.2f |\n", half, mesh.density, kind.c_str(), pairs.size(),
                bar_statistics(pairs).factor * mesh.density * mesh.density);
}

void print_all_constants(const std::vector<VariantReading>& first, const std::vector<VariantReading>& second,
                         double h) {
  std::printf("\n| half | density | kind | n | a that covers 95 %% |\n|---|---|---|---|---|\n");
  for (const JudgedMesh& mesh : {JudgedMesh{h, false}, JudgedMesh{kBetween * h, true}}) {
    print_constants("first, values", judged_values(first, mesh), mesh);
    print_constants("first, changes", judged_changes(first, mesh), mesh);
    print_constants("second, values", judged_values(second, mesh), mesh);
    print_constants("second, changes", judged_changes(second, mesh), mesh);
  }
}

/// Paired bar over the two single bars combined as if independent, and the same for the true errors.
void print_cancellation(const Judged& changes) {
  std::vector<double> bars, errors;
  for (const JudgedBar& j : changes) {
    bars.push_back(j.pair.bar / j.single_bars);
    errors.push_back(j.pair.error / j.single_errors);
  }
  if (bars.empty()) return;
  const auto smaller = std::count_if(bars.begin(), bars.end(), [](double b) { return b < 1; });
  std::printf(
      "\nPaired over single bars combined, median %.2f; true errors alike, median %.2f; paired smaller in %.0f %%\n",
      quantile(bars, 0.5), quantile(errors, 0.5),
      100.0 * static_cast<double>(smaller) / static_cast<double>(bars.size()));
}

/// What the distance to the twin alone, the estimate behind the bar, is of the true error.
double estimate_over_error(const std::vector<VariantReading>& readings, const JudgedMesh& mesh) {
  std::vector<double> ratios;
  for (const VariantReading& r : readings) {
    const auto on_twin = twin_reading(r.drawn, r.key, mesh);
    const double error = std::abs(r.drawn.finer - on_twin.value);
    if (has_error(error, on_twin.size)) ratios.push_back(std::abs(on_twin.value - on_twin.twin) / error);
  }
  return quantile(ratios, 0.5);
}

void expect_covered(const std::string& what, const std::string& equation, const Judged& judged, int variants,
                    double density) {
  const BarStatistics s = statistics_of(judged);
  const std::string name =
      text("random feet on meshes of twice and four times the divisions, half of %d judging", variants);
  record_finding({name, "theory, Eq. " + equation, "density .25 to 1"}, text("%s, density %g", what.c_str(), density),
                 "at least 95 % inside", text("%.1f %% of %zu", s.coverage(), s.values), s.coverage() < 95);
  record_finding({name + ": bar over true error, median", "goal of this study", "density .25 to 1"},
                 text("%s, density %g", what.c_str(), density), "at most 2", text("%.1f", s.effectivity),
                 s.effectivity > 2);
  EXPECT_GE(s.coverage(), 95) << what << ", " << density;
}

TEST(BarCalibrationStudy, bars_cover_a_mesh_of_twice_and_four_times_the_divisions_19_times_in_20) {
  const VariantReadings r = readings();
  const auto [first, second] = halves(r.all);
  std::printf("%d variants, %d phases, %d of them not solved on one of the meshes\n", r.variants, r.phases,
              r.phases_lost);
  ASSERT_FALSE(first.empty() || second.empty());
  const double h = study_meshes().density;
  print_all_constants(first, second, h);
  for (const JudgedMesh& mesh : {JudgedMesh{h, false}, JudgedMesh{kBetween * h, true}}) {
    const auto values = judged_values(second, mesh), changes = judged_changes(second, mesh);
    const std::string at = " on density " + std::to_string(mesh.density) + ", second half";
    std::printf("\nFirst half, density %g: values %.1f %%, changes %.1f %%\n", mesh.density,
                statistics_of(judged_values(first, mesh)).coverage(),
                statistics_of(judged_changes(first, mesh)).coverage());
    print_tables("Values" + at, values), print_tables("Changes by 6 mm of setback" + at, changes);
    print_cancellation(changes);
    const double density = mesh.is_between ? kBetween * h : h;
    expect_covered("values", "(77)", values, r.variants, density);
    expect_covered("changes", "(78)", changes, r.variants, density);
    std::printf("\nDistance to the twin over the true error, median: %.2f\n", estimate_over_error(second, mesh));
  }
}

}  // namespace
