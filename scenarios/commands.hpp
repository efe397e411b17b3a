// What the command line asks of the rest of the application.
#pragma once

#include "scenarios/lesson.hpp"
#include "scenarios/run.hpp"

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

/// A lesson whose runs have been read without errors.
struct LessonRequest {
  LessonPlan plan;
  RunRequest
      request;  ///< its runs, and where the result goes; case_file: "lesson packing", or with the case's name behind
};

/// Solves and prints the result to stdout, progress to stderr; returns an exit code. Implemented in commands.cpp.
[[nodiscard]] int run_command(const RunRequest& request);

/// Solves the lesson's runs and tells of them; the JSON is that of compare. Implemented in lesson_command.cpp.
[[nodiscard]] int lesson_command(const LessonRequest& lesson);

/// solve_runs with a progress line on stderr unless the request is quiet.
[[nodiscard]] std::vector<RunResult> solved_with_progress(const RunRequest& request);

/// Says on stderr what was not solved and keeps its last good state; returns exit_not_converged.
[[nodiscard]] int report_unsolved(const RunRequest& request, const std::vector<RunResult>& results);

}  // namespace hoofload::scenarios
