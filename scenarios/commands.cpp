#include "scenarios/commands.hpp"

#include <iostream>
#include <nlohmann/json.hpp>

#include "materials/catalogue.hpp"
#include "scenarios/interval_text.hpp"
#include "scenarios/pdf.hpp"
#include "scenarios/plot_command.hpp"
#include "scenarios/progress.hpp"
#include "scenarios/provenance.hpp"
#include "scenarios/report.hpp"
#include "scenarios/result_files.hpp"
#include "scenarios/result_table.hpp"
#include "scenarios/widening.hpp"

namespace hoofload::scenarios {

namespace {

namespace fs = std::filesystem;

std::string table_text(const Finished& done) {
  std::string intervals = interval_text(done.results, done.comparison);
  if (done.study) intervals += widening_text(*done.study, done.results, done.comparison);
  return (intervals.empty() ? "" : intervals + "\n") +
         viz::terminal_table(result_table(done.results, done.comparison, done.request.mode, TableDetail::headline,
                                          done.context.warnings));
}

std::vector<RunResult> solved_with_progress(const RunRequest& request) {
  std::size_t total = 0;
  for (const Case& run : request.runs) total += run.study.models.size();
  const Progress bar = start_progress(total, request.quiet ? Talk::quiet : Talk::normal);
  auto results = solve_runs(request.runs, materials::load_catalogue(),
                            [&](const RunProgress& p) { show_progress(bar, p.done, p.what); });
  end_progress(bar);
  return results;
}

/// Solves the draws that the case asks for and puts the intervals into the result.
void sample(Finished& done) {
  const RunRequest& request = done.request;
  const Study& asked = request.runs.front().study;
  if (asked.samples == 0 || request.case_text.empty()) return;
  const auto draws = static_cast<std::size_t>(asked.samples);
  const Talk talk = request.quiet ? Talk::quiet : Talk::normal;
  const Progress bar = start_progress(draws, talk);
  LogProgress log{"draws", draws, talk};
  done.study = solve_study(request.case_text, request.case_file, request.runs, request.threads, [&](std::size_t n) {
    show_progress(bar, n, "draws");
    log_progress(log, n);
  });
  end_progress(bar);
  add_intervals(*done.study, done.results, done.comparison);
  add_widening(*done.study, done.results, done.comparison);
}

std::string with_provenance(const std::string& text, const Finished& done) {
  return text + "\n" + provenance_line(done.results) + "\n";
}

void write_all(const Finished& done, const Telling& telling, const fs::path& folder) {
  std::string texts = "result.json, table.md";
  write_file(folder / "result.json", result_json(done.results, done.comparison, done.context).dump(1) + "\n");
  const auto table =
      result_table(done.results, done.comparison, done.request.mode, TableDetail::full, done.context.warnings);
  write_file(folder / "table.md",
             with_provenance(viz::markdown_table(table) + interval_markdown(done.results, done.comparison), done));
  if (!telling.text_file.empty()) {
    write_file(folder / telling.text_file, with_provenance(telling.text(done), done));
    texts = telling.text_file + ", " + texts;
  }
  const auto fields = write_fields(done.results, folder);
  const auto pictures = telling.pictures(done, folder);
  if (done.request.quiet) return;
  std::cerr << "written to " << folder.string() << ": " << texts << ", " << fields.size()
            << " field files (VTU, PVD) and " << pictures.size() << " pictures:\n";
  for (const fs::path& picture : pictures) std::cerr << "  " << picture.string() << '\n';
}

/// The report as asked for; a PDF without an HTML of its own leaves none behind.
void write_report(const Finished& done, const Telling& telling) {
  const RunRequest& request = done.request;
  if (!request.report && !request.pdf) return;
  ReportStyle style{.paper = request.paper, .date = today()};
  if (!telling.text_file.empty()) {
    style.story_title = "The lesson";
    style.story = telling.text(done);
  }
  if (telling.story_figures) style.story_figures = telling.story_figures(done);
  const std::vector<RunResult> runs = telling.story_runs ? telling.story_runs(done) : done.results;
  const Comparison comparison = telling.story_runs ? compare(runs) : done.comparison;
  const fs::path html = request.report ? *request.report : fs::path(request.pdf->string() + ".html");
  write_file(html, viz::html_report(comparison_report(runs, comparison, done.context, style)));
  if (request.pdf) {
    write_pdf(html, *request.pdf);
    if (!request.report) fs::remove(html);
  }
  if (request.quiet) return;
  if (request.report) std::cerr << "report: " << request.report->string() << '\n';
  if (request.pdf) std::cerr << "report: " << request.pdf->string() << '\n';
}

/// Says what was not solved and keeps its last good state; returns the exit code.
int report_unsolved(const Finished& done) {
  for (const std::string& text : unsolved(done.results)) std::cerr << done.request.case_file << ": " << text << '\n';
  const fs::path folder = done.request.out ? *done.request.out / "last-good" : fs::path("hoofload-last-good");
  for (const fs::path& file : write_last_good(done.results, folder))
    std::cerr << "last good state: " << file.string() << '\n';
  return exit_not_converged;
}

}  // namespace

int answer(const RunRequest& request, const Telling& telling) {
  Finished done{request, solved_with_progress(request), {}, {request.case_file, {}}, {}};
  if (request.mode == RunMode::compare) done.comparison = compare(done.results);
  sample(done);
  done.context.warnings = result_warnings(done.results, done.comparison, request.warnings);
  if (done.study)
    for (std::string& note : study_notes(*done.study, request.runs.front().study.seed))
      done.context.warnings.push_back(std::move(note));
  try {
    if (request.json)
      std::cout << result_json(done.results, done.comparison, done.context).dump(1) << '\n';
    else
      std::cout << with_provenance(telling.text(done), done);
    std::cout.flush();
    if (request.out) write_all(done, telling, *request.out);
    write_report(done, telling);
    if (!all_solved(done.results)) return report_unsolved(done);
    return std::cout ? exit_done : exit_system;
  } catch (const std::runtime_error& e) {
    std::cerr << "hoofload: " << e.what() << '\n';
    return exit_system;
  }
}

int run_command(const RunRequest& request) {
  const auto pictures = [](const Finished& done, const fs::path& folder) {
    auto files = write_pictures(done.results, folder);
    for (auto& file : write_difference_plots(done, folder)) files.push_back(std::move(file));
    return files;
  };
  return answer(request, {table_text, "", pictures});
}

}  // namespace hoofload::scenarios
