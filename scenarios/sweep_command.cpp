#include "scenarios/sweep_command.hpp"

#include "scenarios/cli.hpp"
#include "scenarios/progress.hpp"
#include "scenarios/result_files.hpp"
#include "scenarios/sweep_file.hpp"
#include "scenarios/sweep_read.hpp"
#include "scenarios/sweep_table.hpp"
#include "viz/cautions.hpp"

#include <unistd.h>
#include <algorithm>
#include <csignal>
#include <fstream>
#include <iostream>
#include <thread>

namespace hoofload::scenarios {

namespace {

constexpr int kInterrupted = 130;

/// Set by the first Ctrl-C or SIGTERM; a second one ends the program at once.
std::atomic<bool>& interrupted() {
  static std::atomic<bool> flag{false};
  return flag;
}

void on_signal(int signal) {
  interrupted() = true;
  std::signal(signal, SIG_DFL);
}

/// Reads the sweep and says what is wrong with it; null and a code then.
std::pair<std::shared_ptr<const Sweep>, int> open_sweep(const SweepRequest& request) {
  const SweepReading reading = read_sweep(request.plan_file);
  if (!reading.missing_file.empty()) std::cerr << reading.missing_file << '\n';
  std::cerr << errors_text(reading.errors, false);
  if (!request.quiet) std::cerr << errors_text(reading.warnings, false);
  if (!reading.missing_file.empty()) return {nullptr, exit_system};
  return {reading.sweep, reading.sweep ? exit_done : exit_bad_case};
}

std::string plural(std::size_t count, const std::string& word) {
  return std::to_string(count) + " " + word + (count == 1 ? "" : "s");
}

/// How the runs are made, for people.
std::string plan_text(const Sweep& sweep) {
  std::string text = sweep.plan.file + ": " + plural(run_count(sweep.plan), "run") + " (" +
                     std::string(name_of(sweep.plan.method)) + ") of " + sweep.plan.base + ", plan " +
                     sweep_fingerprint(sweep).substr(0, 12) + "\n";
  for (const Variation& v : sweep.plan.variations) {
    text += "  " + v.input.name + ": ";
    if (v.distribution) text += distribution_text(*v.distribution, v.input.unit);
    for (std::size_t k = 0; k < std::min<std::size_t>(v.values.size(), 12); ++k)
      text += (k > 0 ? ", " : "") + v.values[k] + (v.input.unit.empty() ? "" : " " + v.input.unit);
    if (v.values.size() > 12) text += ", ... " + std::to_string(v.values.size()) + " values";
    text += "\n";
  }
  return text;
}

struct Outcome {
  std::size_t solved = 0, failed = 0;
};

Outcome solve_missing(const Sweep& sweep, const SweepRequest& request, SweepFile& file,
                      const std::vector<std::size_t>& missing) {
  const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
  const std::size_t threads = std::min(request.threads == 0 ? cores : request.threads, missing.size());
  const Talk talk = request.quiet ? Talk::quiet : Talk::normal;
  const Progress bar = start_progress(missing.size(), talk);
  LogProgress log{"sweep", missing.size(), talk};
  ReferenceSlack reference;
  Outcome outcome;
  std::size_t done = 0;
  solve_on_threads(
      missing, threads, [&](std::size_t run) { return solve_sweep_run(sweep, run, reference); },
      [&](const SweepRun& run) {
        file.add(run);
        (run.outcome == "solved" ? outcome.solved : outcome.failed) += 1;
        show_progress(bar, ++done, "run " + std::to_string(run.run));
        log_progress(log, done);
      },
      interrupted());
  end_progress(bar);
  return outcome;
}

/// This program, wherever it was started from.
std::filesystem::path this_program() { return std::filesystem::read_symlink("/proc/self/exe"); }

int write_slurm(const Sweep& sweep, const SweepRequest& request) {
  namespace fs = std::filesystem;
  constexpr std::size_t kUsualParts = 100;
  const SlurmRequest& asked = *request.slurm;
  const std::size_t runs = run_count(sweep.plan);
  const std::size_t parts = std::min(runs, asked.parts == 0 ? kUsualParts : asked.parts);
  const SlurmJob job{fs::absolute(asked.script),
                     this_program(),
                     fs::absolute(request.plan_file),
                     fs::absolute(*request.out),
                     sweep_fingerprint(sweep),
                     runs,
                     parts,
                     asked.at_once,
                     std::max<std::size_t>(1, request.threads),
                     asked.time};
  write_file(asked.script, slurm_script(job));
  fs::permissions(asked.script, fs::perms::owner_exec, fs::perm_options::add);
  if (!request.quiet)
    std::cerr << "sweep: " << asked.script.string() << ": " << plural(runs, "run") << " in " << plural(parts, "part")
              << "; bash " << asked.script.string() << " submits them\n";
  return exit_done;
}

int solve_sweep(const Sweep& sweep, const SweepRequest& request) {
  SweepFile file(*request.out, identity_of(sweep));
  const std::set<std::size_t> have = file.finished();
  std::vector<std::size_t> mine = runs_of(request.shard, run_count(sweep.plan)), missing;
  std::copy_if(mine.begin(), mine.end(), std::back_inserter(missing), [&](auto run) { return have.count(run) == 0; });
  if (!request.quiet && missing.size() < mine.size())
    std::cerr << "sweep: " << mine.size() - missing.size() << " of " << plural(mine.size(), "run")
              << " are there already\n";
  std::signal(SIGINT, on_signal);
  std::signal(SIGTERM, on_signal);
  if (!missing.empty()) (void)solve_missing(sweep, request, file, missing);
  std::size_t left = 0, failed = 0;
  const std::set<std::size_t> now = file.finished();
  for (const std::size_t run : mine) {
    if (now.count(run) == 0)
      ++left;
    else if (file.read(run).outcome != "solved")
      ++failed;
  }
  if (!request.quiet) {
    std::cerr << "sweep: " << mine.size() - left << " of " << plural(mine.size(), "run") << " in "
              << request.out->string() << ", " << failed << " of them with reasons instead of some values\n"
              << viz::caution_text << '\n';
  }
  if (left > 0) {
    std::cerr << "sweep: interrupted; the same command goes on from here\n";
    return kInterrupted;
  }
  return failed > 0 ? exit_not_converged : exit_done;
}

}  // namespace

int sweep_command(const SweepRequest& request) {
  const auto [sweep, code] = open_sweep(request);
  if (!sweep) return code;
  if (request.dry_run) {
    std::cout << plan_text(*sweep);
    return exit_done;
  }
  try {
    return request.slurm ? write_slurm(*sweep, request) : solve_sweep(*sweep, request);
  } catch (const std::runtime_error& e) {
    std::cerr << "hoofload: " << e.what() << '\n';
    return exit_system;
  }
}

int merge_command(const MergeRequest& request) {
  try {
    merge_sweeps(request.parts, request.out);
    const SweepFile whole(request.out);
    const std::string missing = missing_runs(whole);
    if (!request.quiet)
      std::cerr << "merge: " << whole.finished().size() << " of " << plural(whole.identity().runs, "run") << " in "
                << request.out.string() << (missing.empty() ? "" : "; missing: " + missing) << '\n';
    return exit_done;
  } catch (const SweepFileError& e) {
    std::cerr << "hoofload: " << e.what() << '\n';
    return exit_system;
  }
}

int export_command(const ExportRequest& request) {
  try {
    const SweepFile file(request.file);
    const std::string missing = missing_runs(file);
    if (!missing.empty()) std::cerr << "export: missing runs: " << missing << '\n';
    if (request.csv == "-") {
      write_sweep_csv(file, std::cout);
      return std::cout.flush() ? exit_done : exit_system;
    }
    std::ofstream out(request.csv, std::ios::binary);
    write_sweep_csv(file, out);
    if (!out.flush()) throw SweepFileError(request.csv.string() + ": cannot be written");
    return exit_done;
  } catch (const SweepFileError& e) {
    std::cerr << "hoofload: " << e.what() << '\n';
    return exit_system;
  }
}

}  // namespace hoofload::scenarios
