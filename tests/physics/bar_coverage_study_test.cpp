// How often the next finer mesh lies within the bars, Eqs. (77) and (78), over the demo's nine runs. On demand only, some
// minutes:
//
//   build/tests/physics_test --gtest_filter='BarCoverageStudy.*'
//
// Its numbers stand in docs/theory.md, section 17. Common practice, no source: a bar is to be right 95 times in 100.
#include <fstream>
#include <sstream>

#include "tests/scenarios/case_fixture.hpp"
#include "tests/support/shod_foot.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

std::vector<Case> demo_runs(double density) {
  std::ifstream file(materials::data_directory().parent_path() / "scenarios" / "cases" / "demo.toml");
  std::stringstream text;
  text << file.rdbuf();
  auto reading = scenarios::read(text.str());
  for (Case& c : reading.runs) c.study.density = density;
  return reading.runs;
}

std::vector<Case> without_bars(std::vector<Case> runs) {
  for (Case& c : runs) c.study.bars = false;
  return runs;
}

struct Coverage {
  int values = 0, within = 0, within_plain = 0, changes = 0, changes_within = 0, turned = 0;
  int phases_lost = 0, values_lost = 0;  ///< not solved, or not given, on one of the two meshes: no value to compare
};

/// The ledgers in newtons are the shares again.
bool counts(std::string_view key) { return !key.starts_with("bone_force") && !key.starts_with("ground_force"); }

void count_values(const RunResult& solved, const RunResult& finer, Coverage& coverage) {
  for (const auto& model : solved.models)
    for (const auto& phase : model.phases) {
      const PhaseResult* fine = scenarios::find_phase(finer, model.kind, phase.phase);
      if (!phase.solved || fine == nullptr) {
        ++coverage.phases_lost;
        continue;
      }
      for (const auto& [key, reading] : phase.values) {
        const auto finer_reading = fine->values.find(key);
        if (finer_reading == fine->values.end()) {
          ++coverage.values_lost;
          continue;
        }
        const double moved = std::abs(finer_reading->second.value - reading.value);
        if (!counts(key) || !reading.has_bar || moved < 1e-6) continue;
        ++coverage.values;
        coverage.within += moved <= reading.bar ? 1 : 0;
        coverage.within_plain += moved <= std::abs(reading.value - reading.twin) ? 1 : 0;
      }
    }
}

void count_changes(const scenarios::Comparison& solved, const scenarios::Comparison& finer, Coverage& coverage) {
  for (const auto& d : solved.differences)
    for (const auto& f : finer.differences) {
      if (f.option != d.option || f.phase != d.phase || f.model != d.model || f.quantity != d.quantity) continue;
      if (!counts(d.quantity->key) || !d.has_bar || std::max(std::abs(d.change), std::abs(f.change)) < 1e-6) continue;
      ++coverage.changes;
      coverage.changes_within += std::abs(f.change - d.change) <= d.bar ? 1 : 0;
      coverage.turned += d.is_distinguishable && d.change * f.change <= 0 ? 1 : 0;
    }
}

void expect_19_in_20(double density) {
  const auto solved = scenarios::solve_runs(demo_runs(density), catalogue());
  const auto finer = scenarios::solve_runs(without_bars(demo_runs(2 * density)), catalogue());
  Coverage c;
  for (std::size_t r = 0; r < solved.size(); ++r) count_values(solved[r], finer[r], c);
  count_changes(scenarios::compare(solved), scenarios::compare(finer), c);
  std::printf(
      "Density %.2g: values within %d of %d (%.1f %%; distance to the twin alone %.1f %%), changes %d of %d (%.1f %%), "
      "distinguishable and of the other sign %d; not on both meshes: %d phases, %d values\n",
      density, c.within, c.values, 100.0 * c.within / c.values, 100.0 * c.within_plain / c.values, c.changes_within,
      c.changes, 100.0 * c.changes_within / c.changes, c.turned, c.phases_lost, c.values_lost);
  EXPECT_GT(c.values, 500);
  EXPECT_GE(20 * c.within, 19 * c.values);
  EXPECT_GE(20 * c.changes_within, 19 * c.changes);
}

TEST(BarCoverageStudy, finer_mesh_lies_within_19_bars_of_20_at_half_density) { expect_19_in_20(0.5); }
TEST(BarCoverageStudy, finer_mesh_lies_within_19_bars_of_20_at_the_default) { expect_19_in_20(1); }

}  // namespace
