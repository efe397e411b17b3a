// Readings of random feet on five meshes: the coarse twin, a milder one, the mesh that is reported, one of twice and one of four
// times its divisions; the last is the reference. Solved once, kept as a text file, judged as often as wanted.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "scenarios/comparison.hpp"
#include "tests/scenarios/case_fixture.hpp"
#include "tests/support/random_foot.hpp"

namespace hoofload::tests {

/// One quantity on the five meshes, in its unit; `size` is S of Eq. (77).
struct MeshReadings {
  double twin = 0, milder = 0, value = 0, between = 0, finer = 0, size = 0;
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
  std::uint64_t last_seed = 0;                    ///< 0: none drawn yet
  int variants = 0, phases = 0, phases_lost = 0;  ///< lost: not solved on one of the five meshes
};

/// The mesh that is reported, and how many times its divisions the reference has (2: it is also the one between).
struct StudyMeshes {
  double density = 0.25, finer = 4;
};

constexpr double kMilder = 0.7, kBetween = 2;
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

/// One run on its meshes: milder, reported, between, finer.
using OnMeshes = std::array<const PhaseResult*, 4>;

/// False where one of the meshes was not solved or does not give the quantity.
inline bool read_meshes(const OnMeshes& meshes, const std::string& key, MeshReadings& out) {
  std::array<const scenarios::Reading*, 4> r{};
  for (std::size_t k = 0; k < 4; ++k) {
    if (meshes[k] == nullptr || meshes[k]->values.find(key) == meshes[k]->values.end()) return false;
    r[k] = &meshes[k]->values.find(key)->second;
    if (!std::isfinite(r[k]->value)) return false;
  }
  if (!r[1]->has_bar || !std::isfinite(r[1]->twin)) return false;
  out = {r[1]->twin, r[0]->value, r[1]->value, r[2]->value, r[3]->value, r[1]->size};
  return true;
}

/// What one variant adds.
inline VariantReadings solve_variant(std::uint64_t seed, const std::vector<Case>& runs, const StudyMeshes& meshes) {
  const auto between = solved_at(runs, kBetween * meshes.density, false);
  const std::array<std::vector<RunResult>, 4> solved{
      solved_at(runs, kMilder * meshes.density, false), solved_at(runs, meshes.density, true), between,
      meshes.finer == kBetween ? between : solved_at(runs, meshes.finer * meshes.density, false)};
  VariantReadings readings{{}, seed, 1, 0, 0};
  const auto on_meshes = [&](std::size_t run, ModelKind model, Phase phase) {
    OnMeshes phases{};
    for (std::size_t k = 0; k < 4; ++k)
      if (run < solved[k].size()) phases[k] = scenarios::find_phase(solved[k][run], model, phase);
    return phases;
  };
  for (const ModelKind model : runs.front().study.models)
    for (const Phase phase : runs.front().load.phases) {
      if (model == ModelKind::axisymmetric && phase == Phase::breakover) continue;  // it cannot tip
      ++readings.phases;
      const OnMeshes drawn = on_meshes(0, model, phase), set_back = on_meshes(1, model, phase);
      if (std::find(drawn.begin(), drawn.end(), nullptr) != drawn.end()) ++readings.phases_lost;
      for (const auto& quantity : scenarios::quantity_catalogue()) {
        VariantReading r{seed, model, phase, std::string(quantity.key), {}, {}, false};
        if (!is_counted(r.key) || !read_meshes(drawn, r.key, r.drawn)) continue;
        r.is_paired = read_meshes(set_back, r.key, r.set_back);
        readings.all.push_back(r);
      }
    }
  return readings;
}

/// The first case that the reader takes, from `seed` on; `seed` becomes its own.
inline std::vector<Case> next_variant(std::uint64_t& seed, double density) {
  for (;; ++seed)
    if (auto runs = drawn_and_set_back(seed, density); !runs.empty()) return runs;
}

}  // namespace hoofload::tests
