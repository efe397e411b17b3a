// What is drawn of every solved run of one phase, before it becomes a picture or a page: window, colour scale, force
// scale and
// pressure scale shared by all runs.
#pragma once

#include "scenarios/picture_parts.hpp"
#include "viz/axisymmetric_figure.hpp"
#include "viz/side_view_figure.hpp"

namespace hoofload::scenarios {

struct SideDrawing {
  Drawn drawn;
  viz::SideView view;
};

struct RingDrawing {
  Drawn drawn;
  viz::AxisymmetricView view;
};

/// Any solved phases of the sagittal model, all with one window and one scale.
[[nodiscard]] std::vector<SideDrawing> drawn_together(const std::vector<Drawn>& all);

/// Empty when the model was not asked for or nothing was solved. The results must outlive the drawings.
[[nodiscard]] std::vector<SideDrawing> side_drawings(const std::vector<RunResult>& results, Phase phase);
[[nodiscard]] std::vector<RingDrawing> ring_drawings(const std::vector<RunResult>& results, Phase phase);

}  // namespace hoofload::scenarios
