#include "scenarios/report.hpp"

#include <ctime>

#include "scenarios/case_keys.hpp"
#include "scenarios/provenance.hpp"

namespace hoofload::scenarios {

std::string today() {
  const std::time_t now = std::time(nullptr);
  std::tm utc{};
  gmtime_r(&now, &utc);
  char text[16];
  return std::string(text, std::strftime(text, sizeof text, "%Y-%m-%d", &utc));
}

std::string value_words(const Case& run, std::string_view key) {
  std::string text = shown_value(*find_key(key), run);
  std::erase(text, '"');  // a word, as it is spoken
  return text.empty() ? "none" : text;
}

viz::Report comparison_report(const std::vector<RunResult>& results, const Comparison& comparison,
                              const ResultContext& context, const ReportStyle& style) {
  viz::Report report;
  report.paper = style.paper;
  if (results.empty()) return report;
  report.title = results.front().run.title.empty() ? context.case_file : results.front().run.title;
  report.subtitle = "Load model of the shod hoof, " + std::to_string(results.size()) +
                    " ways of shoeing one foot compared" + (style.date.empty() ? "" : ". " + style.date);
  report.footer = provenance_line(results);
  if (!style.story.empty()) {
    report.sections.push_back({style.story_title, {viz::ReportVerbatim{style.story}}, false});
    auto& blocks = report.sections.back().blocks;
    blocks.insert(blocks.end(), style.story_figures.begin(), style.story_figures.end());
  }
  for (auto& section : finding_sections(results, comparison)) report.sections.push_back(std::move(section));
  for (auto& section : interval_sections(results, comparison)) report.sections.push_back(std::move(section));
  report.sections.push_back(job_sheet(results));
  report.sections.push_back(owner_sheet(results, comparison));
  for (auto& section : basis_sections(results, comparison, context)) report.sections.push_back(std::move(section));
  return report;
}

}  // namespace hoofload::scenarios
