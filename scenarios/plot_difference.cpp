// Changes against the baseline with their intervals, of a sweep and of a comparison with draws.
#include "scenarios/nothing.hpp"
#include "scenarios/plot_parts.hpp"
#include "scenarios/result_files.hpp"
#include "scenarios/result_table.hpp"
#include "scenarios/sweep_table.hpp"
#include "scenarios/units.hpp"
#include "viz/interval_figure.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace hoofload::scenarios {

namespace {

constexpr std::size_t kFewest = 20;  ///< as in study.cpp

std::string field(const std::optional<double>& v) { return v ? number_text(*v) : ""; }

std::string csv_of(const std::vector<viz::IntervalRow>& rows) {
  std::string text = "option,change,mesh_bar,low,median,high,remark\n";
  for (const viz::IntervalRow& r : rows) {
    text += csv_field(r.name) + "," + field(r.change) + "," + (r.mesh_bar > 0 ? number_text(r.mesh_bar) : "");
    for (const double viz::Spread::*part : {&viz::Spread::low, &viz::Spread::median, &viz::Spread::high})
      text += "," + (r.spread ? number_text((*r.spread).*part) : "");
    text += "," + csv_field(r.remark) + "\n";
  }
  return text;
}

std::string remark_of(const viz::Spread& s) { return s.low <= 0 && s.high >= 0 ? "not distinguishable: holds 0" : ""; }

std::optional<viz::Spread> spread_of(const SweepColumn& change) {
  std::vector<double> values;
  for (const auto& v : change.values)
    if (v) values.push_back(*v);
  if (values.size() < kFewest) return {};
  std::sort(values.begin(), values.end());
  return viz::Spread{quantile_of(values, 0.05), quantile_of(values, 0.5), quantile_of(values, 0.95)};
}

viz::IntervalRow row_of(const Difference& d) {
  viz::IntervalRow row{d.option, d.change, d.has_bar ? d.bar : 0, {}, {}};
  if (d.interval) row.spread = viz::Spread{d.interval->low, d.interval->median, d.interval->high};
  if (!d.is_distinguishable)
    row.remark = row.spread && !remark_of(*row.spread).empty() ? remark_of(*row.spread) : "not distinguishable: mesh";
  return row;
}

bool is_moved(const viz::IntervalRow& row) {
  const double spread = row.spread ? std::max(std::abs(row.spread->low), std::abs(row.spread->high)) : 0;
  return std::max(spread, std::abs(row.change.value_or(0))) > kNothing;
}

Plot plot_of(const viz::Heading& heading, std::string_view quantity, std::vector<viz::IntervalRow> rows) {
  const viz::IntervalFigure figure{heading, "change of the " + words_and_unit_of(quantity), std::move(rows)};
  return {viz::interval_figure(figure), csv_of(figure.rows)};
}

}  // namespace

Plot difference_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request) {
  if (request.choice.quantity.empty()) throw std::invalid_argument("--quantity is required: what is drawn");
  if (identity.method == "grid" || identity.method == "list" || identity.method == "one at a time")
    throw std::invalid_argument("intervals take drawn runs (sobol, latin hypercube); these are of method \"" +
                                identity.method + "\"");
  std::vector<viz::IntervalRow> rows;
  const SweepColumn* first = nullptr;
  for (const SweepColumn* c : chosen_columns(all, request.choice)) {
    if (c->option == all.baseline) continue;
    if (first != nullptr && (c->model != first->model || c->phase != first->phase))
      throw std::invalid_argument(request.choice.quantity +
                                  " is there in several phases or models; name one by --phase "
                                  "and --model: " +
                                  first->phase + ", " + first->model + "; " + c->phase + ", " + c->model);
    if (first == nullptr) first = c;
    const auto change = change_of(all, *c);
    if (!change) continue;
    viz::IntervalRow row{c->option, {}, 0, spread_of(*change), {}};
    if (!row.spread) throw std::invalid_argument(c->option + ": an interval takes 20 runs that have a value");
    row.remark = remark_of(*row.spread);
    rows.push_back(std::move(row));
  }
  if (first == nullptr) throw std::invalid_argument("the base case has no options: there is nothing to compare");
  return plot_of(plot_heading(identity.title, *first), first->quantity, std::move(rows));
}

std::vector<DifferencePlot> difference_plots(const std::vector<RunResult>& results, const Comparison& comparison) {
  std::vector<DifferencePlot> plots;
  const Case& baseline = results.front().run;
  for (const Phase phase : baseline.load.phases)
    for (const ModelKind model : baseline.study.models)
      for (const QuantityKey& key : quantity_catalogue()) {
        if (!is_shown(key, phase, TableDetail::headline)) continue;
        std::vector<viz::IntervalRow> rows;
        for (const Difference& d : comparison.differences)
          if (d.phase == phase && d.model == model && d.quantity == &key) rows.push_back(row_of(d));
        if (std::none_of(rows.begin(), rows.end(), is_moved)) continue;
        const viz::Heading heading{baseline.title, std::string(name_of(phase)), std::string(name_of(model)), {}};
        plots.push_back({phase, model, &key, plot_of(heading, key.key, std::move(rows))});
      }
  return plots;
}

std::vector<std::filesystem::path> write_difference_plots(const Finished& done, const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> written;
  if (!done.study) return written;
  for (const DifferencePlot& d : difference_plots(done.results, done.comparison)) {
    const std::string stem = std::string(name_of(d.phase)) + "_change-of-" + file_stem(std::string(d.quantity->key)) +
                             "_" + std::string(name_of(d.model));
    written.push_back(folder / "pictures" / (stem + ".svg"));
    write_file(written.back(), d.plot.svg);
    write_file(folder / "pictures" / (stem + ".csv"), d.plot.csv);
  }
  return written;
}

}  // namespace hoofload::scenarios
