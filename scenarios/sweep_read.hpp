// A plan file and its base case file to a sweep.
#pragma once

#include "scenarios/sweep_runs.hpp"

#include <variant>

namespace hoofload::scenarios {

/// The text of a file, or the reason why not.
struct FileText {
  std::string text;
  std::string problem;
};
[[nodiscard]] FileText read_text_file(const std::filesystem::path& path);

struct SweepReading {
  std::shared_ptr<const Sweep> sweep;  ///< null when there is a problem
  CaseErrors errors, warnings;
  std::string missing_file;  ///< "path: reason"; empty when every file could be read
};

[[nodiscard]] SweepReading read_sweep(const std::string& plan_file);

}  // namespace hoofload::scenarios
