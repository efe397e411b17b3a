// What came out: the headline table, what got worse and better, pictures.
#include <algorithm>

#include "scenarios/case_keys.hpp"
#include "scenarios/pictures.hpp"
#include "scenarios/report.hpp"
#include "scenarios/result_table.hpp"
#include "viz/text.hpp"

namespace hoofload::scenarios {

namespace {

constexpr std::size_t kColumns = 3;       ///< options side by side, so that a page holds them upright
constexpr double kNothing = 1e-6;         ///< what the solver leaves of a zero stays below
constexpr std::size_t kMostPictures = 6;  ///< of one phase and model

std::string baseline_text(const viz::ComparisonRow& row) {
  if (!row.baseline) return "n/a";
  return viz::number_text(*row.baseline) + (row.bar > kNothing ? " ± " + viz::number_text(row.bar, 2) : "");
}

std::string cell_text(const viz::OptionCell& cell, double bar) {
  if (!cell.value) return "n/a";
  std::string text = viz::number_text(*cell.value);
  if (!cell.change) return text;
  if (!viz::is_distinguishable(cell, bar)) return text + " (≈ same)";
  text += " (" + viz::signed_text(*cell.change);
  if (cell.percent) text += ", " + viz::signed_text(*cell.percent) + " %";
  return text + ")";
}

std::string letter(std::size_t option) { return "[" + std::to_string(option + 1) + "]"; }

viz::ReportTable option_table(const viz::ComparisonTable& table, std::size_t first) {
  const std::size_t last = std::min(first + kColumns, table.options.size());
  viz::ReportTable out{"Change against the baseline in brackets; ± and \"same\" by the error bars of the mesh",
                       {"quantity", "phase, model", "baseline"},
                       {}};
  for (std::size_t k = first; k < last; ++k) out.head.push_back(letter(k) + " " + table.options[k]);
  for (const viz::ComparisonRow& row : table.rows) {
    std::vector<std::string> cells{words_and_unit_of(row.quantity), row.phase + ", " + row.model, baseline_text(row)};
    for (std::size_t k = first; k < last; ++k) cells.push_back(cell_text(row.cells[k], row.bar));
    out.rows.push_back(std::move(cells));
  }
  return out;
}

viz::ReportTable verdict_table(const std::string& caption, const std::vector<viz::Worse>& list) {
  viz::ReportTable out{caption, {"option", "quantity", "phase", "change"}, {}};
  for (const viz::Worse& w : list)
    out.rows.push_back(
        {w.option, words_of(w.quantity), w.phase,
         viz::signed_text(w.change) + " " + w.unit + (w.percent ? " (" + viz::signed_text(*w.percent) + " %)" : "")});
  return out;
}

viz::ReportSection options_section(const std::vector<RunResult>& results) {
  viz::ReportSection section{"What was compared", {}, false};
  viz::ReportTable table{"Options; every one is compared with the first. In brackets: the key of the case file", {"option", "what it sets"}, {}};
  for (const RunResult& run : results) {
    std::string text;
    const auto& keys = &run == &results.front() ? run.run.given : run.run.changed;
    for (const std::string& key : keys)
      if (key != "name" && key != "title" && key != "schema" && key.rfind("study.", 0) != 0)
        text += (text.empty() ? "" : "; ") + key_words(key) + " " + value_words(run.run, key) + " [" + key + "]";
    table.rows.push_back({run.run.name, text.empty() ? "nothing of its own: the reference" : text});
  }
  section.blocks.push_back(std::move(table));
  return section;
}

/// "midstance side view 00 baseline" of the file's name: the picture itself says more.
std::string caption_of(std::string file) {
  file.resize(file.size() - std::string_view(".svg").size());
  std::replace_if(
      file.begin(), file.end(), [](char c) { return c == '_' || c == '-'; }, ' ');
  return file;
}

viz::ReportSection pictures_section(const std::vector<RunResult>& results) {
  viz::ReportSection section{"Pictures", {}, false};
  const auto& phases = results.front().run.load.phases;
  const std::vector<RunResult> some(
      results.begin(), results.begin() + static_cast<std::ptrdiff_t>(std::min(results.size(), kMostPictures)));
  for (auto* make : {side_views, axisymmetric_sections})
    for (Picture& picture : make(some, shown_phase(phases)))
      section.blocks.push_back(viz::ReportFigure{std::move(picture.svg), caption_of(picture.file)});
  for (const Phase phase : phases)
    for (auto* make : {pressure_profiles, direction_plots, stance_curves})
      for (Picture& picture : make(results, phase))
        section.blocks.push_back(viz::ReportFigure{std::move(picture.svg), caption_of(picture.file)});
  if (some.size() < results.size())
    section.blocks.push_back(viz::ReportText{"Drawn are the first " + std::to_string(some.size()) + " of " +
                                             std::to_string(results.size()) + " options; the curves hold all."});
  return section;
}

}  // namespace

Phase shown_phase(const std::vector<Phase>& phases) {
  return std::find(phases.begin(), phases.end(), Phase::midstance) != phases.end() ? Phase::midstance : phases.back();
}

std::vector<viz::ReportSection> finding_sections(const std::vector<RunResult>& results, const Comparison& comparison) {
  const auto table = result_table(results, comparison, RunMode::compare, TableDetail::headline, {});
  viz::ReportSection numbers{"What came out", {}, false};
  for (std::size_t first = 0; first < std::max<std::size_t>(table.options.size(), 1); first += kColumns)
    numbers.blocks.push_back(option_table(table, first));
  viz::ReportSection worse{"What got worse, and what got better", {}, false};
  worse.blocks.push_back(
      viz::ReportText{"Worse means more load in that structure, better means less; what it means for a horse is not "
                      "for a model to say. "
                      "Changes within the error bars are left out."});
  if (!table.worse.empty()) worse.blocks.push_back(verdict_table("What got worse", table.worse));
  if (!table.better.empty()) worse.blocks.push_back(verdict_table("What got better", table.better));
  const auto missing = unsolved(results);
  if (!missing.empty()) {
    worse.blocks.push_back(viz::ReportText{"Not solved:"});
    worse.blocks.push_back(viz::ReportList{missing});
  }
  return {options_section(results), std::move(numbers), std::move(worse), pictures_section(results)};
}

}  // namespace hoofload::scenarios
