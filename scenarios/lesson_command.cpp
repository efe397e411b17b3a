// hoofload lesson: solves a lesson's runs and tells of them.
#include "scenarios/commands.hpp"
#include "scenarios/lesson_pictures.hpp"
#include "scenarios/lesson_story.hpp"
#include "scenarios/result_files.hpp"

namespace hoofload::scenarios {

int lesson_command(const LessonRequest& lesson) {
  namespace fs = std::filesystem;
  const LessonPlan& plan = lesson.plan;
  const auto text = [&](const Finished& done) { return lesson_text(plan, done.results, done.comparison); };
  // The overview of all runs, and the states of those that the story is about.
  const auto pictures = [&](const Finished& done, const fs::path& folder) {
    std::vector<fs::path> written;
    for (const Picture& picture : lesson_overviews(plan, done.results)) {
      written.push_back(folder / "pictures" / picture.file);
      write_file(written.back(), picture.svg);
    }
    for (const fs::path& path : write_pictures(shown_runs(plan, done.results), folder)) written.push_back(path);
    return written;
  };
  const auto story_runs = [&](const Finished& done) { return shown_runs(plan, done.results); };
  const auto story_figures = [&](const Finished& done) {
    std::vector<viz::ReportFigure> figures;
    for (Picture& picture : lesson_overviews(plan, done.results))
      figures.push_back({std::move(picture.svg), "All runs of the lesson at a glance."});
    return figures;
  };
  return answer(lesson.request, {text, "lesson.txt", pictures, story_runs, story_figures});
}

}  // namespace hoofload::scenarios
