#include "scenarios/lesson_pictures.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "scenarios/lesson_story.hpp"
#include "viz/bar_figure.hpp"
#include "viz/curve_figure.hpp"

namespace hoofload::scenarios {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

std::string file_of(const Column& c) {
  std::string file = "overview_" + std::string(name_of(c.phase)) + "_" + c.key + ".svg";
  std::replace(file.begin(), file.end(), ' ', '-');
  return file;
}

double value_or_nan(const Reading* reading) { return reading == nullptr ? kNan : reading->value; }

bool has_finite(const std::vector<viz::Curve>& curves) {
  return std::any_of(curves.begin(), curves.end(), [](const viz::Curve& c) {
    return std::any_of(c.y.begin(), c.y.end(), [](double y) { return std::isfinite(y); });
  });
}

/// One curve for each beginning of a run's name before its ": ".
Picture setback_curves(const LessonPlan& plan, const std::vector<RunResult>& results, const Column& column) {
  viz::CurveFigure figure{
      .heading = {plan.title, std::string(name_of(column.phase)), "sagittal core in 3D capsule", {}},
      .x = {"setback of the shoe, mm"},
      .y = {words_and_unit_of(column.key)},
      .curves = {},
      .landmarks = {}};
  for (const RunResult& r : results) {
    const std::string name = r.run.name.substr(0, r.run.name.find(':'));
    if (figure.curves.empty() || figure.curves.back().name != name) figure.curves.push_back({name, {}, {}});
    figure.curves.back().x.push_back(r.run.shoeing.shoe.setback);
    figure.curves.back().y.push_back(value_or_nan(find_reading(results, r.run.name, column)));
  }
  if (!has_finite(figure.curves)) return {};
  return {file_of(column), viz::curve_figure(figure)};
}

/// Every column against its own level value, so that what falls and what rises stand in one picture.
Picture elevation_curves(const LessonPlan& plan, const std::vector<RunResult>& results) {
  viz::CurveFigure figure{.heading = {plan.title, "midstance", "sagittal core in 3D capsule", {}},
                          .x = {"heel elevation, deg"},
                          .y = {"% of the value on the level shoe"},
                          .curves = {},
                          .landmarks = {}};
  for (const Column& column : lesson_columns(plan.lesson)) {
    const double level = value_or_nan(find_reading(results, results.front().run.name, column));
    viz::Curve curve{words_of(column.key), {}, {}};
    for (const RunResult& r : results) {
      curve.x.push_back(r.run.shoeing.shoe.elevation * 180 / std::numbers::pi);
      curve.y.push_back(100 * value_or_nan(find_reading(results, r.run.name, column)) / level);
    }
    figure.curves.push_back(std::move(curve));
  }
  if (!has_finite(figure.curves)) return {};
  return {"overview_midstance_elevation.svg", viz::curve_figure(figure)};
}

/// Both models side by side; of the packing lesson the plate's runs, where order of work shows most.
Picture model_bars(const LessonPlan& plan, const std::vector<RunResult>& results, const Column& of) {
  viz::BarFigure figure{{plan.title, std::string(name_of(of.phase)), "axisymmetric; sagittal core in 3D capsule", {}},
                        words_and_unit_of(of.key),
                        {"axisymmetric", "sagittal"},
                        {}};
  bool any = false;
  for (const RunResult& r : results) {
    if (plan.lesson == Lesson::packing && r.run.name.rfind("plate:", 0) != 0) continue;
    viz::BarRow row{r.run.name, {}};
    for (const ModelKind model : {ModelKind::axisymmetric, ModelKind::sagittal}) {
      const Reading* reading = find_reading(results, r.run.name, {of.key, of.phase, model});
      const bool is_nothing = reading != nullptr && std::abs(reading->value) <= kNothingToRead * reading->size;
      row.values.push_back({is_nothing ? 0 : value_or_nan(reading), reading == nullptr ? 0 : reading->bar});
      any = any || reading != nullptr;
    }
    figure.rows.push_back(std::move(row));
  }
  if (!any) return {};
  return {file_of(of), viz::bar_figure(figure)};
}

}  // namespace

std::vector<Picture> lesson_overviews(const LessonPlan& plan, const std::vector<RunResult>& results) {
  std::vector<Picture> pictures;
  const auto add = [&](Picture picture) {
    if (!picture.svg.empty()) pictures.push_back(std::move(picture));
  };
  if (plan.lesson == Lesson::elevation) {
    add(elevation_curves(plan, results));
  } else if (plan.lesson == Lesson::setback) {
    for (const Column& column : lesson_columns(plan.lesson)) add(setback_curves(plan, results, column));
  } else {
    for (const Column& column : lesson_columns(plan.lesson))
      if (column.model == ModelKind::axisymmetric) add(model_bars(plan, results, column));
  }
  return pictures;
}

std::vector<RunResult> shown_runs(const LessonPlan& plan, const std::vector<RunResult>& results) {
  if (plan.shown.empty()) return results;
  std::vector<RunResult> shown;
  for (const RunResult& r : results)
    if (std::find(plan.shown.begin(), plan.shown.end(), r.run.name) != plan.shown.end()) shown.push_back(r);
  return shown;
}

}  // namespace hoofload::scenarios
