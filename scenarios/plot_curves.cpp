// Curves, maps, swings and scatters of a sweep.
#include "scenarios/input_words.hpp"
#include "scenarios/nothing.hpp"
#include "scenarios/plot_parts.hpp"
#include "scenarios/sensitivity.hpp"
#include "scenarios/sweep_table.hpp"
#include "scenarios/units.hpp"
#include "viz/curve_figure.hpp"
#include "viz/map_figure.hpp"
#include "viz/scatter_figure.hpp"
#include "viz/tornado_figure.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <stdexcept>

namespace hoofload::scenarios {

namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t kMostCurves = 8;

std::size_t asked_input(const SweepColumns& all, const std::string& name, const char* option) {
  if (name.empty()) throw std::invalid_argument(std::string(option) + " is required: an input that varies");
  return find_input_column(all, name);
}

/// An input whose values are numbers.
std::vector<std::optional<double>> axis_numbers(const SweepColumns& all, std::size_t input) {
  auto numbers = numbers_of_input(all, input);
  for (std::size_t run = 0; run < numbers.size(); ++run)
    if (!all.settings[run].empty() && !numbers[run])
      throw std::invalid_argument(all.inputs[input] + " is a choice; an axis takes numbers");
  return numbers;
}

/// What a run sets beside the inputs on the axes: "packing.order before nailing".
std::string others_of(const SweepColumns& all, std::size_t run, const std::vector<std::size_t>& axes) {
  std::string text;
  for (std::size_t d = 0; d < all.inputs.size(); ++d) {
    if (std::find(axes.begin(), axes.end(), d) != axes.end()) continue;
    text += (text.empty() ? "" : ", ") + all.inputs[d] + " " + all.settings[run][d] +
            (all.units[d].empty() ? "" : " " + all.units[d]);
  }
  return text;
}

/// Round-off of a zero would put an axis or a colour below it.
double or_nan(const std::optional<double>& v) { return v && std::abs(*v) < kNothing ? 0 : v.value_or(kNan); }

/// One curve for each option and each setting of the other inputs; points by rising x.
std::vector<viz::Curve> curves_of(const SweepColumns& all, const std::vector<const SweepColumn*>& columns,
                                  std::size_t input) {
  const auto x = axis_numbers(all, input);
  std::vector<viz::Curve> curves;
  for (const SweepColumn* column : columns) {
    std::vector<std::string> order;
    std::map<std::string, std::map<double, double>> points;
    for (std::size_t run = 0; run < x.size(); ++run) {
      if (!x[run]) continue;
      const std::string others = others_of(all, run, {input});
      if (points.count(others) == 0) order.push_back(others);
      points[others][*x[run]] = or_nan(column->values[run]);
    }
    for (const std::string& others : order) {
      viz::Curve curve{column->option + (others.empty() ? "" : ", " + others), {}, {}};
      for (const auto& [at, value] : points[others]) curve.x.push_back(at), curve.y.push_back(value);
      curves.push_back(std::move(curve));
    }
  }
  if (curves.size() > kMostCurves)
    throw std::invalid_argument("that makes " + std::to_string(curves.size()) + " curves; " +
                                std::to_string(kMostCurves) +
                                " can be told apart: choose an --option, or plot a sweep in which less varies");
  return curves;
}

/// The title and, where there are several, the option.
std::string title_of(const SweepIdentity& identity, const SweepColumns& all, const SweepColumn& column) {
  const bool is_alone = std::all_of(all.columns.begin(), all.columns.end(),
                                    [&](const SweepColumn& c) { return c.option == column.option; });
  return is_alone ? identity.title : identity.title + " (" + column.option + ")";
}

/// Three figures, without trailing zeros.
std::string short_number(double v) { return viz::plain_text(parse_number(viz::number_text(v)).value_or(v)); }

std::string field(double v) { return std::isfinite(v) ? number_text(v) : ""; }

/// A column by its name: an input, else a quantity.
struct Named {
  std::string label;
  std::vector<std::optional<double>> values;
};

Named named_column(const SweepColumns& all, const std::string& name, const PlotRequest& request, const char* option) {
  if (name.empty()) throw std::invalid_argument(std::string(option) + " is required: an input or a quantity");
  const auto it = std::find(all.inputs.begin(), all.inputs.end(), name);
  if (it != all.inputs.end()) {
    const auto input = static_cast<std::size_t>(it - all.inputs.begin());
    return {input_label(all, input), axis_numbers(all, input)};
  }
  ColumnChoice choice = request.choice;
  choice.quantity = name;
  const SweepColumn& column = only_column(all, choice);
  return {words_and_unit_of(name) + ", " + column.phase + ", " + column.option, column.values};
}

}  // namespace

Plot curve_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request) {
  const std::size_t input = asked_input(all, request.x, "--x");
  if (request.choice.quantity.empty()) throw std::invalid_argument("--quantity is required: what is drawn");
  const auto columns = chosen_columns(all, request.choice);
  for (const SweepColumn* c : columns)
    if (c->model != columns.front()->model || c->phase != columns.front()->phase)
      (void)only_column(all,
                        {request.choice.quantity, columns.front()->option, request.choice.model, request.choice.phase});
  viz::CurveFigure figure{.heading = plot_heading(identity.title, *columns.front()),
                          .x = {input_label(all, input)},
                          .y = {words_and_unit_of(request.choice.quantity)},
                          .curves = curves_of(all, columns, input),
                          .landmarks = {}};
  if (const auto here = base_number(identity, all.inputs[input])) figure.landmarks.push_back({"you are here", *here});
  std::string csv = csv_field(figure.x.label) + ",curve," + csv_field(figure.y.label) + "\n";
  for (const viz::Curve& curve : figure.curves)
    for (std::size_t k = 0; k < curve.x.size(); ++k)
      csv += number_text(curve.x[k]) + "," + csv_field(curve.name) + "," + field(curve.y[k]) + "\n";
  return {viz::curve_figure(figure), csv};
}

Plot map_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request) {
  const std::size_t a = asked_input(all, request.x, "--x"), b = asked_input(all, request.y, "--y");
  const SweepColumn& column = only_column(all, request.choice);
  const auto x = axis_numbers(all, a), y = axis_numbers(all, b);
  std::map<double, std::size_t> xs, ys;
  for (std::size_t run = 0; run < x.size(); ++run) {
    if (!x[run]) continue;
    xs.emplace(*x[run], 0), ys.emplace(*y[run], 0);
    if (others_of(all, run, {a, b}) != others_of(all, 0, {a, b}))
      throw std::invalid_argument("a map takes a grid in which only its two inputs vary; here " +
                                  others_of(all, run, {a, b}) + " does too");
  }
  viz::MapFigure figure{plot_heading(title_of(identity, all, column), column),
                        {input_label(all, a)},
                        {input_label(all, b)},
                        {},
                        {},
                        {},
                        {}};
  for (auto& [value, place] : xs) place = figure.x_values.size(), figure.x_values.push_back(value);
  for (auto& [value, place] : ys) place = figure.y_values.size(), figure.y_values.push_back(value);
  figure.value.assign(xs.size() * ys.size(), kNan);
  double low = INFINITY, high = -INFINITY;
  std::string csv = csv_field(figure.x.label) + "," + csv_field(figure.y.label) + "," +
                    csv_field(column.quantity + ", " + column.unit) + "\n";
  for (std::size_t run = 0; run < x.size(); ++run) {
    if (!x[run]) continue;
    const double value = or_nan(column.values[run]);
    figure.value[ys[*y[run]] * xs.size() + xs[*x[run]]] = value;
    csv += number_text(*x[run]) + "," + number_text(*y[run]) + "," + field(value) + "\n";
    if (std::isfinite(value)) low = std::min(low, value), high = std::max(high, value);
  }
  if (low > high) throw std::invalid_argument("no run has a value of " + column.quantity);
  figure.scale = viz::rounded_scale(low, high, words_of(column.quantity), column.unit);
  return {viz::map_figure(figure), csv};
}

Plot tornado_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request) {
  const SweepColumn& column = only_column(all, request.choice);
  const ColumnChoice one{column.quantity, column.option, column.model, column.phase};
  for (const ColumnSwings& swings : swings_of(identity, all, one)) {
    if (swings.is_change || !swings.middle) continue;
    viz::TornadoFigure figure{
        plot_heading(title_of(identity, all, column), column), words_and_unit_of(column.quantity), *swings.middle, {}};
    for (const Swing& s : swings.swings) {
      if (!s.at_low || !s.at_high) continue;
      const auto shown = [&](const std::string& value) {
        const auto number = parse_number(value);
        return (number ? short_number(*number) : value) + (all.units[s.input].empty() ? "" : " " + all.units[s.input]);
      };
      figure.rows.push_back({input_words(all.inputs[s.input]), shown(s.from), shown(s.to), *s.at_low, *s.at_high});
    }
    return {viz::tornado_figure(figure), swings_csv(all, {swings})};
  }
  throw std::invalid_argument(column.quantity + " does not vary, or the run with all at their median has no value");
}

Plot scatter_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request) {
  const Named x = named_column(all, request.x, request, "--x"), y = named_column(all, request.y, request, "--y");
  viz::ScatterFigure figure{{identity.title, identity.method + ", " + std::to_string(identity.runs) + " runs", "", {}},
                            {x.label},
                            {y.label},
                            {},
                            {}};
  std::string csv = "run," + csv_field(x.label) + "," + csv_field(y.label) + "\n";
  for (std::size_t run = 0; run < x.values.size(); ++run) {
    figure.x_values.push_back(or_nan(x.values[run]));
    figure.y_values.push_back(or_nan(y.values[run]));
    csv += std::to_string(run) + "," + field(figure.x_values.back()) + "," + field(figure.y_values.back()) + "\n";
  }
  return {viz::scatter_figure(figure), csv};
}

}  // namespace hoofload::scenarios
