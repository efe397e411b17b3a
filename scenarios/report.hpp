// A solved comparison as a report: what came out, what it rests on, a job sheet for the farrier, a page for the owner.
#pragma once

#include <string>
#include <vector>

#include "scenarios/comparison.hpp"
#include "scenarios/result_json.hpp"
#include "viz/report.hpp"

namespace hoofload::scenarios {

struct ReportStyle {
  viz::Paper paper = viz::Paper::a4;
  std::string date{};         ///< ISO 8601, printed as it is; empty: none
  std::string story_title{};  ///< of a lesson
  std::string story{};        ///< a lesson's text, as it is
  std::vector<viz::ReportFigure> story_figures{};
};

[[nodiscard]] viz::Report comparison_report(const std::vector<RunResult>& results, const Comparison& comparison,
                                            const ResultContext& context, const ReportStyle& style);

/// The parts, in their order.
[[nodiscard]] std::vector<viz::ReportSection> finding_sections(const std::vector<RunResult>& results,
                                                               const Comparison& comparison);
/// Paired changes over the draws, apart from the mesh's bars, and how they look in the shown phase; nothing without draws.
[[nodiscard]] std::vector<viz::ReportSection> interval_sections(const std::vector<RunResult>& results,
                                                                const Comparison& comparison);
[[nodiscard]] std::vector<viz::ReportSection> basis_sections(const std::vector<RunResult>& results,
                                                             const Comparison& comparison,
                                                             const ResultContext& context);
[[nodiscard]] viz::ReportSection job_sheet(const std::vector<RunResult>& results);
[[nodiscard]] viz::ReportSection owner_sheet(const std::vector<RunResult>& results, const Comparison& comparison);

/// The loaded phase that shows most: mid-stance, else the last that was solved.
[[nodiscard]] Phase shown_phase(const std::vector<Phase>& phases);

/// Today in UTC, "2026-01-31".
[[nodiscard]] std::string today();

/// "heel elevation" of "shoe.elevation"; of a key without words of its own its name, spoken.
[[nodiscard]] std::string key_words(std::string_view key);

/// Words of one key's value, "none" where the run has none.
[[nodiscard]] std::string value_words(const Case& run, std::string_view key);

}  // namespace hoofload::scenarios
