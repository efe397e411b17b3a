// Readings of random feet on four meshes: the coarse twin, a milder one, the mesh that is reported, and four times its
// divisions as the reference. Solved once, kept as a text file, judged as often as wanted.
#pragma once

#include <cstdint>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "scenarios/comparison.hpp"
#include "tests/scenarios/case_fixture.hpp"
#include "tests/support/random_foot.hpp"

namespace hoofload::tests {

/// One quantity on the four meshes, in its unit; `size` is S of Eq. (77).
struct MeshReadings {
  double twin = 0, milder = 0, value = 0, finer = 0, size = 0;
};

/// A quantity of one variant in one phase and model, and the same with the shoe set back, if that was solved as well.
struct VariantReading {
  std::uint64_t seed = 0;
  ModelKind model = ModelKind::axisymmetric;
  Phase phase = Phase::swing;
  std::string key;
  MeshReadings drawn, set_back;
  bool is_paired = false;
};

struct VariantReadings {
  std::vector<VariantReading> all;
  int variants = 0, phases = 0, phases_lost = 0;  ///< lost: not solved on one of the four meshes
};

constexpr double kStudyDensity = 0.25, kMilder = 0.7, kFiner = 4;
constexpr double kStudySetback = 6;  ///< mm

/// The ledgers in newtons, and what is given per kg, are others again.
inline bool is_counted(std::string_view key) {
  return !key.starts_with("bone_force") && !key.starts_with("ground_force") && !key.ends_with("per_mass");
}

/// A drawn case and, if it is shod, the same with the shoe further back. Empty if the reader refuses the drawn one.
inline std::vector<Case> drawn_and_set_back(std::uint64_t seed, double density) {
  const std::string text = random_case(seed, density);
  auto drawn = scenarios::read(text);
  if (!drawn.errors.empty()) return {};
  const double further = drawn.runs.front().shoeing.shoe.setback + kStudySetback;
  auto both = scenarios::read(text + "[[option]]\nname = \"set back\"\nshoe.setback = \"" + std::to_string(further) +
                              " mm\"\n");
  return both.errors.empty() ? both.runs : drawn.runs;
}

inline std::vector<RunResult> solved_at(std::vector<Case> runs, double density, bool bars) {
  for (Case& c : runs) c.study.density = density, c.study.bars = bars;
  return scenarios::solve_runs(runs, catalogue());
}

/// Empty where one of the meshes was not solved.
inline bool read_meshes(const PhaseResult* coarse, const PhaseResult* phase, const PhaseResult* fine,
                        const std::string& key, MeshReadings& out) {
  if (coarse == nullptr || phase == nullptr || fine == nullptr) return false;
  const auto a = coarse->values.find(key), b = phase->values.find(key), c = fine->values.find(key);
  if (a == coarse->values.end() || b == phase->values.end() || c == fine->values.end()) return false;
  if (!b->second.has_bar) return false;
  out = {b->second.twin, a->second.value, b->second.value, c->second.value, b->second.size};
  return std::isfinite(out.twin) && std::isfinite(out.milder) && std::isfinite(out.value) && std::isfinite(out.finer);
}

inline void add_variant(std::uint64_t seed, const std::vector<Case>& runs, VariantReadings& readings) {
  const auto value = solved_at(runs, kStudyDensity, true);
  const auto milder = solved_at(runs, kMilder * kStudyDensity, false);
  const auto finer = solved_at(runs, kFiner * kStudyDensity, false);
  ++readings.variants;
  for (const ModelKind model : runs.front().study.models)
    for (const Phase phase : runs.front().load.phases) {
      ++readings.phases;
      const auto at = [&](const std::vector<RunResult>& results, std::size_t k) {
        return k < results.size() ? scenarios::find_phase(results[k], model, phase) : nullptr;
      };
      const std::size_t before = readings.all.size();
      for (const auto& quantity : scenarios::quantity_catalogue()) {
        VariantReading r{seed, model, phase, std::string(quantity.key), {}, {}, false};
        if (!is_counted(r.key) || !read_meshes(at(milder, 0), at(value, 0), at(finer, 0), r.key, r.drawn)) continue;
        r.is_paired = read_meshes(at(milder, 1), at(value, 1), at(finer, 1), r.key, r.set_back);
        readings.all.push_back(r);
      }
      readings.phases_lost += readings.all.size() == before ? 1 : 0;
    }
}

inline VariantReadings solve_variants(int wanted, std::uint64_t first_seed) {
  VariantReadings readings;
  for (std::uint64_t seed = first_seed; readings.variants < wanted; ++seed) {
    const auto runs = drawn_and_set_back(seed, kStudyDensity);
    if (!runs.empty()) add_variant(seed, runs, readings);
  }
  return readings;
}

}  // namespace hoofload::tests
