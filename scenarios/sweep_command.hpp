// What `hoofload sweep`, `merge` and `export` do. Data to the files named, progress to stderr.
#pragma once

#include "scenarios/commands.hpp"
#include "scenarios/slurm_script.hpp"
#include "scenarios/sweep_pool.hpp"

namespace hoofload::scenarios {

struct SweepRequest {
  std::string plan_file;                     ///< as given
  std::optional<std::filesystem::path> out;  ///< the SQLite file; none: with `dry_run` only
  Shard shard;
  std::size_t threads = 0;            ///< 0: as many as the machine has
  bool dry_run = false;               ///< say what would be solved
  std::optional<SlurmRequest> slurm;  ///< write a batch script instead of solving
  bool quiet = false;
};

struct MergeRequest {
  std::vector<std::filesystem::path> parts;
  std::filesystem::path out;
  bool quiet = false;
};

struct ExportRequest {
  std::filesystem::path file;
  std::filesystem::path csv;  ///< "-": stdout
  bool quiet = false;
};

/// Reads the plan and its base case (errors: file, line, key; exit code 3), continues `out` where it stands, and
/// solves. 0: every run of the shard is there and solved; 4: there, but some runs have reasons instead of values; 5:
/// a file; 130: interrupted, what was solved is kept.
[[nodiscard]] int sweep_command(const SweepRequest& request);
[[nodiscard]] int merge_command(const MergeRequest& request);
[[nodiscard]] int export_command(const ExportRequest& request);

}  // namespace hoofload::scenarios
