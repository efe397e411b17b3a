#include "viz/section.hpp"

#include <algorithm>
#include <stdexcept>

#include "viz/contour.hpp"
#include "viz/region_style.hpp"

namespace hoofload::viz {
namespace {

bool contains(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

std::vector<Loop> to_page(const View& view, const std::vector<Loop>& loops) {
  std::vector<Loop> px;
  px.reserve(loops.size());
  for (const Loop& loop : loops) px.push_back(viz::to_page(view, loop));
  return px;
}

/// Band k is painted over band k - 1, so no seam can show between them; its rim keeps it visible in grey.
std::string bands(const Section& section, const std::vector<Vec2>& x, const ColourScale& scale, const View& view) {
  const Triangles triangles = triangles_of(*section.mesh, section.field_regions);
  const auto levels = band_levels(scale);
  std::string out;
  for (std::size_t k = 0; k + 1 < levels.size(); ++k) {
    const auto loops = k == 0 ? outline(x, triangles) : region_above(x, triangles, section.field, levels[k]);
    const Rgb colour = band_colour(scale, k, levels.size() - 1);
    out +=
        svg::polygons(to_page(view, loops), {.stroke = hex(darker(colour, 0.72)), .width = 0.5, .fill = hex(colour)});
  }
  return out;
}

std::string tones(const Section& section, const std::vector<Vec2>& x, Layer layer, const View& view) {
  std::string out;
  for (const auto& region : drawn_regions(section)) {
    const RegionStyle style = region_style(region);
    if (style.layer != layer || shows_field(section, region)) continue;
    out += svg::polygons(to_page(view, outline(x, triangles_of(*section.mesh, {region}))),
                         {.stroke = page::ink, .width = 0.7, .fill = style.fill});
  }
  return out;
}

/// What lies behind is outlined again on top, so a shoe is seen whole although packing and sole are drawn over it.
std::string outlines(const Section& section, const std::vector<Vec2>& x, const View& view) {
  std::string out;
  for (const auto& region : drawn_regions(section)) {
    const bool behind = region_style(region).layer == Layer::behind;
    out += svg::polygons(to_page(view, outline(x, triangles_of(*section.mesh, {region}))),
                         {.stroke = page::ink, .width = behind ? 1.1 : 0.8});
  }
  return out;
}

}  // namespace

std::vector<Vec2> drawn_positions(const Section& section) {
  if (section.mesh == nullptr) throw std::invalid_argument("a section needs a mesh");
  std::vector<Vec2> x = section.mesh->X;
  if (section.u.empty()) return x;
  if (section.u.size() != x.size()) throw std::invalid_argument("a section needs one displacement per node");
  for (std::size_t k = 0; k < x.size(); ++k) x[k] += section.deformation_scale * section.u[k];
  return x;
}

FieldRange field_range(const Section& section) {
  const Triangles triangles = triangles_of(*section.mesh, section.field_regions);
  if (section.field.empty() || triangles.empty()) return {0, 0};
  const double first = section.field.at(static_cast<std::size_t>(triangles.front()[0]));
  FieldRange range{first, first};
  for (const auto& t : triangles)
    for (const int n : t) {
      const double v = section.field.at(static_cast<std::size_t>(n));
      range = {std::min(range.low, v), std::max(range.high, v)};
    }
  return range;
}

std::vector<std::string> drawn_regions(const Section& section) {
  std::vector<std::string> names;
  for (const auto& block : section.mesh->blocks)
    if (!contains(names, block.region) && !contains(section.hidden_regions, block.region))
      names.push_back(block.region);
  return names;
}

bool shows_field(const Section& section, const std::string& region) {
  return !section.field.empty() && contains(section.field_regions, region);
}

std::string drawn_section(const Section& section, const std::vector<Vec2>& x, const ColourScale& scale,
                          const View& view) {
  std::string out = tones(section, x, Layer::behind, view) + tones(section, x, Layer::body, view);
  if (!section.field.empty()) out += bands(section, x, scale, view);
  return out + tones(section, x, Layer::front, view) + outlines(section, x, view);
}

std::string dashed_outline(const Section& section, const std::vector<Vec2>& x, const View& view) {
  return svg::polygons(to_page(view, outline(x, triangles_of(*section.mesh, drawn_regions(section)))),
                       {.stroke = "#000000", .width = 0.8, .dash = "5 3"});
}

}  // namespace hoofload::viz
