// What the command line asks of the rest of the application.
#pragma once

#include "scenarios/comparison.hpp"
#include "scenarios/lesson.hpp"
#include "scenarios/result_json.hpp"
#include "scenarios/study.hpp"
#include "viz/report.hpp"

#include <filesystem>
#include <functional>
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
  std::string case_text;                     ///< of the file, for the draws of [study]; empty: no draws
  std::size_t threads = 0;                   ///< for the draws; 0: as many as the machine has
  CaseErrors warnings;                       ///< of the reader; to be repeated in the result
  bool json = false;                         ///< machine-readable result on stdout
  bool quiet = false;                        ///< nothing on stderr but errors
  bool colour = false;                       ///< stdout is a terminal and NO_COLOR is not set
  std::optional<std::filesystem::path> out;  ///< folder for pictures and fields; none: write no files
  std::optional<std::filesystem::path> report{};  ///< HTML report of a comparison
  std::optional<std::filesystem::path> pdf{};     ///< the same as PDF
  viz::Paper paper = viz::Paper::a4;
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

/// What `check-effects` was asked for.
struct EffectsRequest {
  std::optional<double> density;  ///< none: kEffectsDensity
  bool markdown = false;          ///< the page docs/effects.md instead of text
  bool quiet = false;
};

/// Solves the published effects and prints them to stdout; a miss is an answer, not an error. Implemented in
/// effects_command.cpp.
[[nodiscard]] int effects_command(const EffectsRequest& request);

/// What `serve` was asked for.
struct ServeRequest {
  int port = 0;  ///< 0: any that is free
  bool quiet = false;
};

/// Prints the page's address and answers it until the process is told to end. Implemented in serve_command.cpp.
[[nodiscard]] int serve_command(const ServeRequest& request);

/// What `film` was asked for: the stance as field files, place by place.
struct FilmRequest {
  std::string case_file;
  std::vector<Case> runs;  ///< baseline first
  std::filesystem::path out;
  int places = 37;
  bool quiet = false;
};

/// Solves the stance of every run in the sagittal model and writes stance.pvd with its VTU files. Implemented in
/// film_command.cpp.
[[nodiscard]] int film_command(const FilmRequest& request);

/// What was asked for and what came out of it.
struct Finished {
  const RunRequest& request;
  std::vector<RunResult> results;
  Comparison comparison;
  ResultContext context;
  std::optional<SampledStudy> study;  ///< when the case asks for draws
};

/// How an answer is told: what stands on stdout without --json, and what --out writes beside result.json, table.md
/// and the
/// fields of all runs.
struct Telling {
  std::function<std::string(const Finished&)> text;
  std::string text_file;  ///< the same text as a file; none: not written
  std::function<std::vector<std::filesystem::path>(const Finished&, const std::filesystem::path& folder)> pictures;
  /// A lesson's report: the runs of its story alone, told in full, and figures of all. Neither: all runs.
  std::function<std::vector<RunResult>(const Finished&)> story_runs{};
  std::function<std::vector<viz::ReportFigure>(const Finished&)> story_figures{};
};

/// Solves, compares if asked to, prints and writes; what was not solved is said on stderr and its last good state kept.
/// Returns the exit code.
[[nodiscard]] int answer(const RunRequest& request, const Telling& telling);

}  // namespace hoofload::scenarios
