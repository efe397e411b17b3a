#include "scenarios/commands.hpp"

#include <iostream>
#include <nlohmann/json.hpp>

#include "materials/catalogue.hpp"
#include "scenarios/progress.hpp"
#include "scenarios/provenance.hpp"
#include "scenarios/result_files.hpp"
#include "scenarios/result_json.hpp"
#include "scenarios/result_table.hpp"

namespace hoofload::scenarios {

namespace {

namespace fs = std::filesystem;

/// What was asked for and what came out of it.
struct Finished {
  const RunRequest& request;
  std::vector<RunResult> results;
  Comparison comparison;
  ResultContext context;
};

std::string table_text(const Finished& done) {
  const auto table =
      result_table(done.results, done.comparison, done.request.mode, TableDetail::headline, done.context.warnings);
  return viz::terminal_table(table) + "\n" + provenance_line(done.results) + "\n";
}

void write_all(const Finished& done, const fs::path& folder) {
  write_file(folder / "result.json", result_json(done.results, done.comparison, done.context).dump(1) + "\n");
  const auto table =
      result_table(done.results, done.comparison, done.request.mode, TableDetail::full, done.context.warnings);
  write_file(folder / "table.md", viz::markdown_table(table) + "\n" + provenance_line(done.results) + "\n");
  const auto fields = write_fields(done.results, folder);
  const auto pictures = write_pictures(done.results, folder);
  if (done.request.quiet) return;
  std::cerr << "written to " << folder.string() << ": result.json, table.md, " << fields.size()
            << " field files (VTU, PVD) and " << pictures.size() << " pictures:\n";
  for (const fs::path& picture : pictures) std::cerr << "  " << picture.string() << '\n';
}

}  // namespace

std::vector<RunResult> solved_with_progress(const RunRequest& request) {
  std::size_t total = 0;
  for (const Case& run : request.runs) total += run.study.models.size();
  const Progress bar = start_progress(total, request.quiet ? Talk::quiet : Talk::normal);
  auto results = solve_runs(request.runs, materials::load_catalogue(),
                            [&](const RunProgress& p) { show_progress(bar, p.done, p.what); });
  end_progress(bar);
  return results;
}

int report_unsolved(const RunRequest& request, const std::vector<RunResult>& results) {
  for (const std::string& text : unsolved(results)) std::cerr << request.case_file << ": " << text << '\n';
  const fs::path folder = request.out ? *request.out / "last-good" : fs::path("hoofload-last-good");
  for (const fs::path& file : write_last_good(results, folder))
    std::cerr << "last good state: " << file.string() << '\n';
  return exit_not_converged;
}

int run_command(const RunRequest& request) {
  Finished done{request, solved_with_progress(request), {}, {request.case_file, {}}};
  if (request.mode == RunMode::compare) done.comparison = compare(done.results);
  done.context.warnings = result_warnings(done.results, done.comparison, request.warnings);
  try {
    if (request.json)
      std::cout << result_json(done.results, done.comparison, done.context).dump(1) << '\n';
    else
      std::cout << table_text(done);
    std::cout.flush();
    if (request.out) write_all(done, *request.out);
    if (!all_solved(done.results)) return report_unsolved(request, done.results);
    return std::cout ? exit_done : exit_system;
  } catch (const std::runtime_error& e) {
    std::cerr << "hoofload: " << e.what() << '\n';
    return exit_system;
  }
}

}  // namespace hoofload::scenarios
