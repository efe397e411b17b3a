#include "scenarios/page_scene.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "scenarios/pictures.hpp"
#include "viz/contour.hpp"
#include "viz/region_style.hpp"

namespace hoofload::scenarios {

namespace {

using nlohmann::json;
using viz::Vec2;

/// What the eye can tell apart: a page of numbers is read by a browser, not by a solver.
double rounded(double value, double step = 0.01) { return std::isfinite(value) ? std::round(value / step) * step : 0; }

json point_json(const Vec2& p) { return json::array({rounded(p.x()), rounded(p.y())}); }

json points_json(const std::vector<Vec2>& points) {
  json list = json::array();
  for (const Vec2& p : points) list.push_back(point_json(p));
  return list;
}

std::string loops_path(const std::vector<viz::Loop>& loops) {
  std::string path;
  for (const viz::Loop& loop : loops) path += viz::svg::path_data(loop, "Z");
  return path;
}

const char* word_of(viz::Layer layer) {
  switch (layer) {
    case viz::Layer::behind:
      return "behind";
    case viz::Layer::body:
      return "body";
    case viz::Layer::front:
      break;
  }
  return "front";
}

json parts_json(const viz::Section& section, const std::vector<Vec2>& x) {
  json parts = json::array();
  for (const std::string& region : viz::drawn_regions(section)) {
    const viz::RegionStyle style = viz::region_style(region);
    parts.push_back({{"region", region},
                     {"name", style.name},
                     {"layer", word_of(style.layer)},
                     {"fill", style.fill},
                     {"field", viz::shows_field(section, region)},
                     {"path", loops_path(viz::outline(x, viz::triangles_of(*section.mesh, {region})))}});
  }
  return parts;
}

json bands_json(const viz::Section& section, const std::vector<Vec2>& x, const viz::ColourScale& scale) {
  json bands = json::array();
  const viz::Triangles triangles = viz::triangles_of(*section.mesh, section.field_regions);
  const auto levels = viz::band_levels(scale);
  for (std::size_t k = 0; k + 1 < levels.size(); ++k) {
    const auto loops = k == 0 ? viz::outline(x, triangles) : viz::region_above(x, triangles, section.field, levels[k]);
    if (!loops.empty()) bands.push_back({{"level", k}, {"path", loops_path(loops)}});
  }
  return bands;
}

/// Corner triangles of every region in drawing order, so that the last one that holds a point is the one seen there.
json probe_json(const viz::Section& section, const std::vector<Vec2>& x) {
  json xs = json::array(), ys = json::array(), values = json::array(), corners = json::array(), names = json::array();
  for (std::size_t k = 0; k < x.size(); ++k) {
    xs.push_back(rounded(x[k].x()));
    ys.push_back(rounded(x[k].y()));
    values.push_back(section.field.empty() ? 0 : rounded(section.field[k], 0.1));
  }
  for (const viz::Layer layer : {viz::Layer::behind, viz::Layer::body, viz::Layer::front})
    for (const std::string& region : viz::drawn_regions(section)) {
      const viz::RegionStyle style = viz::region_style(region);
      if (style.layer != layer) continue;
      json list = json::array();
      for (const auto& t : viz::triangles_of(*section.mesh, {region}))
        for (const auto& [a, b, c] :
             {std::array{0, 3, 5}, std::array{3, 1, 4}, std::array{5, 4, 2}, std::array{3, 4, 5}})
          for (const int corner : {a, b, c}) list.push_back(t[static_cast<std::size_t>(corner)]);
      names.push_back({{"name", style.name}, {"field", viz::shows_field(section, region)}});
      corners.push_back(std::move(list));
    }
  return {{"x", xs}, {"y", ys}, {"kPa", values}, {"tri", corners}, {"names", names}};
}

json section_json(const viz::Section& section, const viz::ColourScale& scale, const viz::PressureRibbon& sole,
                  double mm_per_kpa, const std::optional<viz::Window>& window, bool probed) {
  const auto x = viz::drawn_positions(section);
  json pressures = json::array();
  for (const double p : sole.pressure) pressures.push_back(rounded(p, 0.1));
  json scene{{"magnified", section.deformation_scale},
             {"parts", parts_json(section, x)},
             {"bands", bands_json(section, x, scale)},
             {"rest",
              loops_path(viz::outline(section.mesh->X, viz::triangles_of(*section.mesh, viz::drawn_regions(section))))},
             {"ribbon", {{"at", points_json(sole.at)}, {"kPa", pressures}, {"mm_per_kpa", mm_per_kpa}}}};
  if (probed) scene["probe"] = probe_json(section, x);
  if (window) scene["window"] = {window->low.x(), window->low.y(), window->high.x(), window->high.y()};
  return scene;
}

}  // namespace

json scene_json(const SideDrawing& drawing, bool probed) {
  const viz::SideView& view = drawing.view;
  json scene = section_json(view.section, view.scale, view.sole, view.mm_per_kpa, view.window, probed);
  scene["kind"] = "sagittal";
  scene["lines"] = {{"outer", points_json(view.outer_wall)},
                    {"inner", points_json(view.inner_wall)},
                    {"coronet", points_json(view.coronet)}};
  json bones = json::array(), forces = json::array(), cables = json::array();
  for (const viz::Shape& bone : view.bones)
    bones.push_back({{"name", bone.name}, {"path", viz::svg::path_data(bone.points, "Z")}});
  for (const viz::ForceArrow& f : view.forces)
    forces.push_back({{"name", f.name},
                      {"at", point_json(f.at)},
                      {"to", point_json(f.at + view.mm_per_newton * f.force)},
                      {"N", rounded(f.force.norm(), 0.1)}});
  for (const viz::CablePath& c : view.cables)
    cables.push_back({{"name", c.name}, {"at", points_json(c.path)}, {"N", rounded(c.tension, 0.1)}});
  scene["bones"] = std::move(bones);
  scene["forces"] = std::move(forces);
  scene["cables"] = std::move(cables);
  scene["joint"] = view.joint ? point_json(*view.joint) : json(nullptr);
  scene["ground"] = view.ground ? json{{"at", point_json(view.ground->point)},
                                       {"along", json::array({view.ground->direction.x(), view.ground->direction.y()})}}
                                : json(nullptr);
  return scene;
}

json scene_json(const RingDrawing& drawing, bool probed) {
  const viz::AxisymmetricView& view = drawing.view;
  json scene = section_json(view.section, view.scale, view.sole, view.mm_per_kpa, view.window, probed);
  scene["kind"] = "axisymmetric";
  scene["ground"] =
      view.ground ? json{{"at", json::array({0, rounded(*view.ground)})}, {"along", {1, 0}}} : json(nullptr);
  scene["load"] = {{"N", rounded(view.load, 0.1)}, {"mm", rounded(view.mm_per_newton * view.load)}};
  return scene;
}

json scale_json(const viz::ColourScale& scale) {
  const auto levels = viz::band_levels(scale);
  json colours = json::array();
  for (std::size_t k = 0; k + 1 < levels.size(); ++k)
    colours.push_back(viz::hex(viz::band_colour(scale, k, levels.size() - 1)));
  return {{"levels", levels}, {"colours", colours}, {"label", scale.label}, {"unit", scale.unit}};
}

}  // namespace hoofload::scenarios
