#include "viz/field_figure.hpp"

#include <algorithm>

#include "viz/marks.hpp"
#include "viz/panel.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {

std::string field_figure(const FieldFigure& figure) {
  const auto x = drawn_positions(figure.section);
  const Window window = figure.window.value_or(window_of(x, 5));
  const View view = fitted_view(window, {page::margin, page::heading_height}, {page::plot_width, page::plot_height});
  std::string plot = drawn_section(figure.section, x, figure.scale, view);
  if (!figure.section.u.empty()) plot += dashed_outline(figure.section, figure.section.mesh->X, view);
  plot = svg::clipped(view.corner, view.size, plot) + scale_bar(figure.section.deformation_scale, view).drawing;

  const FieldRange here = field_range(figure.section);
  const Piece bar = colour_bar(figure.scale, here, page::heading_height);
  auto lines = region_lines(figure.section);
  if (!figure.section.u.empty()) lines.push_back({Sign::dashed, "#000000", "unloaded"});
  const Piece signs = key(lines, bar.bottom);
  const Piece numbers = facts(figure.heading.facts, signs.bottom);
  const std::string description = figure.scale.label + " from " + number_text(here.low) + " to " +
                                  number_text(here.high) + " " + figure.scale.unit + " over the section.";
  return framed(figure.heading, description, std::max(view.corner.y() + view.size.y(), numbers.bottom),
                plot + bar.drawing + signs.drawing + numbers.drawing);
}

}  // namespace hoofload::viz
