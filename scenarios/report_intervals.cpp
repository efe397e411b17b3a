// How sure the changes are: the spread over the draws of what is uncertain, beside the mesh's bar and never mixed with it.
#include <cmath>

#include "scenarios/interval_text.hpp"
#include "scenarios/plot_command.hpp"
#include "scenarios/report.hpp"
#include "scenarios/result_table.hpp"
#include "viz/text.hpp"

namespace hoofload::scenarios {

namespace {

std::string percent_of(const std::optional<double>& share) {
  return share ? std::to_string(std::lround(100 * *share)) + " %" : "-";
}

std::vector<std::string> row_of(const Difference& d) {
  return {words_and_unit_of(d.quantity->key),
          d.option,
          viz::signed_text(d.change),
          d.has_bar ? viz::number_text(d.bar, 2) : "-",
          viz::signed_text(d.interval->low),
          viz::signed_text(d.interval->median),
          viz::signed_text(d.interval->high),
          percent_of(d.p_better),
          interval_verdict(d)};
}

viz::ReportTable table_of(const Comparison& comparison, Phase phase, ModelKind model) {
  viz::ReportTable table{
      "Paired changes against the baseline: " + std::string(name_of(phase)) + ", " + std::string(name_of(model)) +
          " model",
      {"quantity", "option", "change", "mesh bar", "5 %", "half", "95 %", "P(better)", "what can be said"},
      {}};
  for (const QuantityKey& key : quantity_catalogue())
    for (const Difference& d : comparison.differences)
      if (d.quantity == &key && d.phase == phase && d.model == model && d.interval && moves(d) &&
          is_shown(key, phase, TableDetail::headline))
        table.rows.push_back(row_of(d));
  return table;
}

}  // namespace

std::vector<viz::ReportSection> interval_sections(const std::vector<RunResult>& results, const Comparison& comparison) {
  viz::ReportSection section{"How sure the changes are", {}, false};
  const Case& baseline = results.front().run;
  for (const Phase phase : baseline.load.phases)
    for (const ModelKind model : baseline.study.models)
      if (auto table = table_of(comparison, phase, model); !table.rows.empty())
        section.blocks.push_back(std::move(table));
  if (section.blocks.empty()) return {};
  section.blocks.insert(
      section.blocks.begin(),
      viz::ReportText{
          "Foot, materials and loads are known only so well. Every draw takes other values for them, the same for all "
          "options: 5 %, half and 95 % of the draws lie below the three numbers, and P(better) is the share of draws "
          "in "
          "which the option loads that part less. An interval that holds zero leaves open which way the change goes. "
          "The mesh bar is another thing: how exactly the equations are solved. The intervals do not hold it, and "
          "neither says how far the model is from a living foot."});
  for (DifferencePlot& d : difference_plots(results, comparison))
    if (d.phase == shown_phase(baseline.load.phases) && d.model == leading_model(*d.quantity))
      section.blocks.push_back(viz::ReportFigure{
          std::move(d.plot.svg), "Band: 5 to 95 % of the draws. Dot and whisker: the change and its mesh bar."});
  return {std::move(section)};
}

}  // namespace hoofload::scenarios
