// What the command line asks of the rest of the application.
#pragma once

#include "scenarios/case.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace hoofload::scenarios {

/// Exit codes; never reused for anything else.
enum ExitCode : int { exit_done = 0, exit_usage = 2, exit_bad_case = 3, exit_not_converged = 4, exit_system = 5 };

enum class RunMode { run, compare };

/// A case that has been read without errors and is to be solved.
struct RunRequest {
  RunMode mode = RunMode::compare;           ///< run: every run's values; compare: differences against the baseline too
  std::string case_file;                     ///< as given
  std::vector<Case> runs;                    ///< baseline first, never empty
  CaseErrors warnings;                       ///< of the reader; to be repeated in the result
  bool json = false;                         ///< machine-readable result on stdout
  bool quiet = false;                        ///< nothing on stderr but errors
  bool colour = false;                       ///< stdout is a terminal and NO_COLOR is not set
  std::optional<std::filesystem::path> out;  ///< folder for pictures and fields; none: write no files
};

/// Solves and prints the result to stdout, progress to stderr; returns an exit code. Implemented in commands.cpp.
[[nodiscard]] int run_command(const RunRequest& request);

}  // namespace hoofload::scenarios
