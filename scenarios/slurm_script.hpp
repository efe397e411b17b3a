// A sweep as a job array of the Slurm workload manager: a batch script that submits itself.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>

namespace hoofload::scenarios {

struct SlurmRequest {
  std::filesystem::path script;  ///< where it goes
  std::size_t parts = 0;         ///< tasks of the array, several runs each; 0: a hundred, or as many as there are runs
  std::size_t at_once = 0;       ///< tasks at a time; 0: as many as the cluster gives
  std::string time = "1:00:00";  ///< limit of a task, as sbatch takes it
};

/// What the script names; paths are absolute, since tasks start elsewhere.
struct SlurmJob {
  std::filesystem::path script, program, plan, out;
  std::string plan_sha256;
  std::size_t runs = 0, parts = 1, at_once = 0, threads = 1;
  std::string time;
};

/// The script. `bash SCRIPT` submits the parts that are not done and behind them the merge, which submits again what
/// failed, three times at most, and else puts the parts together.
[[nodiscard]] std::string slurm_script(const SlurmJob& job);

}  // namespace hoofload::scenarios
