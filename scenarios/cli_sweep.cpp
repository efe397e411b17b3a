#include "scenarios/cli_sweep.hpp"

#include <CLI/CLI.hpp>
#include <ostream>
#include <sstream>

namespace hoofload::scenarios {

namespace {

/// "3/10"; nothing if the text is anything else or the part is not one of them.
std::optional<Shard> shard_of(const std::string& text) {
  Shard shard;
  char slash = 0, rest = 0;
  std::istringstream stream(text);
  if (!(stream >> shard.part >> slash >> shard.of) || slash != '/' || stream >> rest) return {};
  if (text.find('-') != std::string::npos || shard.part < 1 || shard.part > shard.of) return {};
  return shard;
}

int sweep(const SweepArguments& a, const Surroundings& around) {
  SweepRequest request = a.sweep;
  const auto shard = shard_of(a.shard);
  if (!shard) {
    around.err << "sweep: --shard: expected i/n with 1 <= i <= n, e.g. 3/10, found '" << shown_text(a.shard) << "'\n";
    return exit_usage;
  }
  if (!request.out && !request.dry_run) {
    around.err << "sweep: --out is required: the SQLite file for the results (or --dry-run)\n";
    return exit_usage;
  }
  if (!a.slurm.script.empty()) request.slurm = a.slurm;
  request.shard = *shard;
  request.quiet = a.quiet;
  return around.sweep(request);
}

/// Commands that read what a sweep has solved.
void add_reading_commands(CLI::App& app, SweepArguments& a) {
  CLI::App* telling = app.add_subcommand("indices", "which inputs a sweep's quantities depend on");
  telling->add_option("FILE", a.indices.file, "results of method sobol indices or one at a time (SQLite)")->required();
  telling->add_option("--csv", a.indices.csv, "the same as a table");
  add_column_choice(*telling, a.indices.choice);
  CLI::App* plotting = app.add_subcommand("plot", "draw a sweep's results (SVG, the numbers as CSV beside it)");
  plotting->add_option("KIND", a.plot.kind, "differences, tornado, curve, map or scatter")->required();
  plotting->add_option("FILE", a.plot.file, "results of a sweep (SQLite)")->required();
  plotting->add_option("--x", a.plot.x, "input along the axis; of a scatter a quantity too");
  plotting->add_option("--y", a.plot.y, "second input of a map; of a scatter a quantity too");
  plotting->add_option("--out", a.plot.out, "figure (SVG)")->required();
  add_column_choice(*plotting, a.plot.choice);
  for (CLI::App* command : {telling, plotting}) command->add_flag("--quiet", a.quiet, "nothing on stderr but errors");
}

}  // namespace

void add_column_choice(CLI::App& command, ColumnChoice& choice) {
  command.add_option("--quantity", choice.quantity, "e.g. sole_pressure_peak");
  command.add_option("--option", choice.option, "of the base case; its first one is called baseline");
  command.add_option("--phase", choice.phase, "e.g. standing");
  command.add_option("--model", choice.model, "axisymmetric or sagittal");
}

void add_sweep_commands(CLI::App& app, SweepArguments& a) {
  CLI::App* sweeping = app.add_subcommand("sweep", "solve all runs of a plan into one file, or go on where it stopped");
  sweeping->add_option("PLAN", a.sweep.plan_file, "plan (TOML): base, method, samples, seed and [vary]")->required();
  sweeping->add_option("--out", a.sweep.out, "results (SQLite); a file of the same plan is continued");
  sweeping->add_option("--threads", a.sweep.threads, "runs at a time; left out, as many as the machine has cores")
      ->check(CLI::Range(1, 1024));
  sweeping->add_option("--shard", a.shard, "solve part i of n only, e.g. 3/10");
  sweeping->add_flag("--dry-run", a.sweep.dry_run, "say what would be solved");
  sweeping->add_option("--slurm", a.slurm.script, "write a batch script for the Slurm workload manager; solve nothing");
  sweeping->add_option("--parts", a.slurm.parts, "with --slurm: tasks of the job array, several runs each")
      ->check(CLI::Range(1, 1000000));
  sweeping->add_option("--at-once", a.slurm.at_once, "with --slurm: tasks at a time")->check(CLI::Range(1, 1000000));
  sweeping->add_option("--time", a.slurm.time, "with --slurm: limit of a task, as sbatch takes it");
  CLI::App* merging = app.add_subcommand("merge", "put the parts of a sweep into one file");
  merging->add_option("PARTS", a.merge.parts, "files of the same plan")->required();
  merging->add_option("--out", a.merge.out, "the whole (SQLite)")->required();
  CLI::App* exporting = app.add_subcommand("export", "write the table of a sweep");
  exporting->add_option("FILE", a.export_table.file, "results of a sweep (SQLite)")->required();
  exporting->add_option("--csv", a.export_table.csv, "table (CSV); - for stdout")->required();
  for (CLI::App* command : {sweeping, merging, exporting})
    command->add_flag("--quiet", a.quiet, "no progress on stderr");
  add_reading_commands(app, a);
}

std::optional<int> run_sweep_commands(const CLI::App& app, SweepArguments& a, const Surroundings& around) {
  a.merge.quiet = a.export_table.quiet = a.indices.quiet = a.plot.quiet = a.quiet;
  if (app.got_subcommand("sweep")) return sweep(a, around);
  if (app.got_subcommand("merge")) return around.merge(a.merge);
  if (app.got_subcommand("export")) return around.export_table(a.export_table);
  if (app.got_subcommand("indices")) return around.indices(a.indices);
  if (app.got_subcommand("plot")) return around.plot(a.plot);
  return {};
}

}  // namespace hoofload::scenarios
