// Files of small sweeps for tests: a plan beside its base case in a folder of their own.
#pragma once

#include "scenarios/sweep_file.hpp"
#include "scenarios/sweep_pool.hpp"
#include "scenarios/sweep_read.hpp"
#include "scenarios/sweep_table.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

namespace hoofload::scenarios {

/// A coarse axisymmetric foot with a packed plate: a run takes some milliseconds.
inline const char* const kSmallBase =
    "schema = 1\ntitle = \"Small sweep\"\n[shoe]\ntype = \"full plate\"\nmaterial = \"polyurethane A90\"\n"
    "plate_thickness = \"6 mm\"\n[packing]\nregion = \"full sole\"\nmaterial = \"silicone A30\"\n"
    "order = \"after nailing\"\n[load]\nphases = [\"standing\"]\n"
    "[study]\nmodels = [\"axisymmetric\"]\ndensity = 0.25\nbars = false\n";

inline const char* const kSmallPlan =
    "base = \"base.toml\"\nmethod = \"sobol\"\nsamples = 40\nseed = 7\n[vary]\n"
    "\"packing.hardness\" = [\"20 ShoreA\", \"60 ShoreA\"]\nfoot.sole_depth_tip = [\"4 mm\", \"18 mm\"]\n"
    "packing.order = [\"before nailing\", \"after nailing\"]\n";

/// A new folder with base.toml and plan.toml.
inline std::filesystem::path sweep_folder(const std::string& name, const std::string& plan = kSmallPlan,
                                          const std::string& base = kSmallBase) {
  const auto folder = std::filesystem::path(testing::TempDir()) / ("sweep-" + name);
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "base.toml") << base;
  std::ofstream(folder / "plan.toml") << plan;
  return folder;
}

inline std::shared_ptr<const Sweep> good_sweep(const std::filesystem::path& folder) {
  const SweepReading reading = read_sweep((folder / "plan.toml").string());
  std::string text = reading.missing_file;
  for (const CaseError& e : reading.errors) text += error_text(e) + "\n";
  if (!reading.sweep) throw std::runtime_error(text);
  return reading.sweep;
}

/// Solves what the file lacks; `kept` is called after each run.
inline void solve_all(const Sweep& sweep, SweepFile& file, const Shard& shard = {}, std::size_t threads = 1,
                      const std::function<void()>& kept = {}) {
  std::vector<std::size_t> missing;
  const auto have = file.finished();
  for (const std::size_t run : runs_of(shard, run_count(sweep.plan)))
    if (have.count(run) == 0) missing.push_back(run);
  ReferenceSlack reference;
  std::atomic<bool> stop{false};
  solve_on_threads(
      missing, threads, [&](std::size_t run) { return solve_sweep_run(sweep, run, reference); },
      [&](const SweepRun& run) {
        file.add(run);
        if (kept) kept();
      },
      stop);
}

inline std::string csv_of(const SweepFile& file) {
  std::ostringstream out;
  write_sweep_csv(file, out);
  return out.str();
}

}  // namespace hoofload::scenarios
