// hoofload lesson: solves a lesson's runs, compares them and prints, or writes, what came out.
#include <iostream>
#include <nlohmann/json.hpp>

#include "scenarios/commands.hpp"
#include "scenarios/lesson_pictures.hpp"
#include "scenarios/lesson_story.hpp"
#include "scenarios/provenance.hpp"
#include "scenarios/result_files.hpp"
#include "scenarios/result_json.hpp"
#include "scenarios/result_table.hpp"

namespace hoofload::scenarios {
namespace {

namespace fs = std::filesystem;

struct Taught {
  const LessonRequest& lesson;
  std::vector<RunResult> results;
  Comparison comparison;
  ResultContext context;
};

std::string printed(const Taught& t) {
  return lesson_text(t.lesson.plan, t.results, t.comparison) + "\n" + provenance_line(t.results) + "\n";
}

void write_all(const Taught& t, const fs::path& folder) {
  write_file(folder / "lesson.txt", printed(t));
  write_file(folder / "result.json", result_json(t.results, t.comparison, t.context).dump(1) + "\n");
  const auto table = result_table(t.results, t.comparison, RunMode::compare, TableDetail::full, t.context.warnings);
  write_file(folder / "table.md", viz::markdown_table(table) + "\n" + provenance_line(t.results) + "\n");
  const auto fields = write_fields(t.results, folder);
  std::vector<fs::path> pictures;
  for (const Picture& picture : lesson_overviews(t.lesson.plan, t.results)) {
    pictures.push_back(folder / "pictures" / picture.file);
    write_file(pictures.back(), picture.svg);
  }
  for (const fs::path& path : write_pictures(shown_runs(t.lesson.plan, t.results), folder)) pictures.push_back(path);
  if (t.lesson.request.quiet) return;
  std::cerr << "written to " << folder.string() << ": lesson.txt, result.json, table.md, " << fields.size()
            << " field files (VTU, PVD) and " << pictures.size() << " pictures:\n";
  for (const fs::path& picture : pictures) std::cerr << "  " << picture.string() << '\n';
}

}  // namespace

int lesson_command(const LessonRequest& lesson) {
  const RunRequest& request = lesson.request;
  Taught t{lesson, solved_with_progress(request), {}, {request.case_file, {}}};
  t.comparison = compare(t.results);
  t.context.warnings = result_warnings(t.results, t.comparison, request.warnings);
  try {
    if (request.json)
      std::cout << result_json(t.results, t.comparison, t.context).dump(1) << '\n';
    else
      std::cout << printed(t);
    std::cout.flush();
    if (request.out) write_all(t, *request.out);
    if (!all_solved(t.results)) return report_unsolved(request, t.results);
    return std::cout ? exit_done : exit_system;
  } catch (const std::runtime_error& e) {
    std::cerr << "hoofload: " << e.what() << '\n';
    return exit_system;
  }
}

}  // namespace hoofload::scenarios
