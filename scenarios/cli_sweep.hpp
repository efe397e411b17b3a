// The command line of many runs: sweep | merge | export | indices | plot.
#pragma once

#include "scenarios/cli.hpp"

#include <optional>

namespace CLI {
class App;
}

namespace hoofload::scenarios {

struct SweepArguments {
  SweepRequest sweep;
  std::string shard = "1/1";
  SlurmRequest slurm;
  MergeRequest merge;
  ExportRequest export_table;
  IndicesRequest indices;
  PlotRequest plot;
  bool quiet = false;
};

/// --quantity, --option, --phase and --model.
void add_column_choice(CLI::App& command, ColumnChoice& choice);

void add_sweep_commands(CLI::App& app, SweepArguments& a);

/// Runs the one that was asked for; nothing if it was none of these.
[[nodiscard]] std::optional<int> run_sweep_commands(const CLI::App& app, SweepArguments& a, const Surroundings& around);

}  // namespace hoofload::scenarios
