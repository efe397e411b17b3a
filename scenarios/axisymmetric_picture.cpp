// The axisymmetric section of every option in one phase.
#include <algorithm>

#include "scenarios/picture_parts.hpp"
#include "scenarios/pictures.hpp"
#include "solver/ground.hpp"
#include "viz/axisymmetric_figure.hpp"

namespace hoofload::scenarios {

namespace {

const std::vector<std::string> kFacts{"sole_pressure_peak",  "sole_pressure_mean", "corium_pressure_peak",
                                      "bone_share_lamellae", "bone_share_sole",    "ground_share_packing",
                                      "swing_sole_pressure", "bone_sink"};

/// Where the ground is drawn: touching the lowest drawn node; none with the foot in the air.
std::optional<double> ground_height(const Drawn& drawn, const viz::Section& section) {
  if (drawn.phase->solution.loading.normal_force <= 0) return std::nullopt;
  const auto x = viz::drawn_positions(section);
  double lowest = 1e30;
  for (const int node : drawn.built->system->model().ground.nodes)
    lowest = std::min(lowest, x[static_cast<std::size_t>(node)].y());
  return lowest + indentation(drawn);
}

viz::Window shared_window(const std::vector<viz::AxisymmetricView>& views) {
  std::vector<viz::Vec2> points;
  for (const auto& view : views) {
    const auto x = viz::drawn_positions(view.section);
    points.insert(points.end(), x.begin(), x.end());
  }
  viz::Window window = viz::window_of(points, 5);
  window.low.y() -= 18;   // ribbon, ground's hatching and the scale bar
  window.high.y() += 22;  // the load's arrow
  return window;
}

}  // namespace

std::vector<Picture> axisymmetric_sections(const std::vector<RunResult>& results, Phase phase) {
  const auto runs = drawn_runs(results, ModelKind::axisymmetric, phase);
  if (runs.empty()) return {};
  std::vector<viz::AxisymmetricView> views;
  for (const Drawn& drawn : runs) {
    viz::AxisymmetricView view;
    view.heading = heading_of(drawn, "axisymmetric", kFacts);
    view.section = stress_section(drawn);
    view.sole = sole_ribbon(drawn, view.section);
    view.ground = ground_height(drawn, view.section);
    view.load = drawn.phase->solution.loading.normal_force;
    views.push_back(std::move(view));
  }
  std::vector<viz::Section> sections;
  std::vector<viz::PressureRibbon> ribbons;
  for (const auto& view : views) sections.push_back(view.section), ribbons.push_back(view.sole);
  const viz::ColourScale scale = shared_scale(sections);
  const double mm_per_kpa = shared_ribbon_scale(ribbons);
  const viz::Window window = shared_window(views);
  std::vector<Picture> pictures;
  for (std::size_t k = 0; k < views.size(); ++k) {
    views[k].scale = scale;
    views[k].window = window;
    views[k].mm_per_kpa = mm_per_kpa;
    if (views[k].load > 0) views[k].mm_per_newton = 20 / views[k].load;
    pictures.push_back({picture_name(results, runs[k], "axisymmetric"), viz::axisymmetric_figure(views[k])});
  }
  return pictures;
}

}  // namespace hoofload::scenarios
