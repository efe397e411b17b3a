// The command line: hoofload check | run | compare | derivatives | lesson | check-effects | serve | film | sweep | merge | export |
// indices | plot | explain. Parses, reads the case, reports, and hands on.
#pragma once

#include "scenarios/commands.hpp"
#include "scenarios/derivatives_command.hpp"
#include "scenarios/explain.hpp"
#include "scenarios/plot_command.hpp"
#include "scenarios/sweep_command.hpp"

#include <functional>
#include <iosfwd>
#include <string>
#include <vector>

namespace hoofload::scenarios {

/// Everything the command line touches outside itself, so that tests can stand in for it.
struct Surroundings {
  std::ostream& out;
  std::ostream& err;
  bool colour_out = false;
  bool colour_err = false;
  std::function<Explainable()> load_known{};                  ///< catalogue words and topics; may throw std::exception
  std::function<int(const RunRequest&)> solve{};              ///< run_command
  std::function<int(const LessonRequest&)> teach{};           ///< lesson_command
  std::function<int(const EffectsRequest&)> check_effects{};  ///< effects_command
  std::function<int(const ServeRequest&)> serve{};            ///< serve_command
  std::function<int(const FilmRequest&)> film{};              ///< film_command
  std::function<int(const SweepRequest&)> sweep{};            ///< sweep_command
  std::function<int(const MergeRequest&)> merge{};            ///< merge_command
  std::function<int(const ExportRequest&)> export_table{};    ///< export_command
  std::function<int(const IndicesRequest&)> indices{};        ///< indices_command
  std::function<int(const DerivativesRequest&)> differentiate{};  ///< derivatives_command
  std::function<int(const PlotRequest&)> plot{};              ///< plot_command
  std::string version{};
};

/// Arguments without the program's name; returns the exit code.
[[nodiscard]] int run_cli(std::vector<std::string> arguments, const Surroundings& around);

/// Problems as one line each, file:line:column first.
[[nodiscard]] std::string errors_text(const CaseErrors& errors, bool colour);

}  // namespace hoofload::scenarios
