// What the plots of a sweep share: which column is meant, what an axis is called, where the base case stands.
#pragma once

#include "scenarios/plot_command.hpp"
#include "viz/frame.hpp"

namespace hoofload::scenarios {

/// The one column that the choice leaves; std::invalid_argument if there are several, with what tells them apart.
[[nodiscard]] const SweepColumn& only_column(const SweepColumns& all, const ColumnChoice& choice);

/// "sole below the tip of the distal phalanx (foot.sole_depth_tip), mm"
[[nodiscard]] std::string input_label(const SweepColumns& all, std::size_t input);

[[nodiscard]] viz::Heading plot_heading(const std::string& title, const SweepColumn& column);

/// The number that the base case has there; nothing for a choice.
[[nodiscard]] std::optional<double> base_number(const SweepIdentity& identity, const std::string& input);

/// Each plot by its kind.
[[nodiscard]] Plot difference_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request);
[[nodiscard]] Plot tornado_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request);
[[nodiscard]] Plot curve_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request);
[[nodiscard]] Plot map_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request);
[[nodiscard]] Plot scatter_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request);

}  // namespace hoofload::scenarios
