// The axisymmetric section of every option in one phase.
#include <algorithm>

#include "scenarios/drawings.hpp"
#include "scenarios/pictures.hpp"
#include "solver/ground.hpp"

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

viz::Window shared_window(const std::vector<RingDrawing>& drawings) {
  std::vector<viz::Vec2> points;
  for (const auto& drawing : drawings) {
    const auto x = viz::drawn_positions(drawing.view.section);
    points.insert(points.end(), x.begin(), x.end());
  }
  viz::Window window = viz::window_of(points, 5);
  window.low.y() -= 18;   // ribbon, ground's hatching and the scale bar
  window.high.y() += 22;  // the load's arrow
  return window;
}

}  // namespace

std::vector<RingDrawing> ring_drawings(const std::vector<RunResult>& results, Phase phase) {
  std::vector<RingDrawing> drawings;
  for (const Drawn& drawn : drawn_runs(results, ModelKind::axisymmetric, phase)) {
    viz::AxisymmetricView view;
    view.heading = heading_of(drawn, "axisymmetric", kFacts);
    view.section = stress_section(drawn);
    view.sole = sole_ribbon(drawn, view.section);
    view.ground = ground_height(drawn, view.section);
    view.load = drawn.phase->solution.loading.normal_force;
    drawings.push_back({drawn, std::move(view)});
  }
  if (drawings.empty()) return {};
  std::vector<viz::Section> sections;
  std::vector<viz::PressureRibbon> ribbons;
  for (const auto& d : drawings) sections.push_back(d.view.section), ribbons.push_back(d.view.sole);
  const viz::ColourScale scale = shared_scale(sections);
  const double mm_per_kpa = shared_ribbon_scale(ribbons);
  const viz::Window window = shared_window(drawings);
  for (auto& [drawn, view] : drawings) {
    view.scale = scale;
    view.window = window;
    view.mm_per_kpa = mm_per_kpa;
    if (view.load > 0) view.mm_per_newton = 20 / view.load;
  }
  return drawings;
}

std::vector<Picture> axisymmetric_sections(const std::vector<RunResult>& results, Phase phase) {
  std::vector<Picture> pictures;
  for (const RingDrawing& d : ring_drawings(results, phase))
    pictures.push_back({picture_name(results, d.drawn, "axisymmetric"), viz::axisymmetric_figure(d.view)});
  return pictures;
}

}  // namespace hoofload::scenarios
