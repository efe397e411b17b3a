// `hoofload plot`: figures of a sweep's results, each an SVG with its numbers as CSV beside it; and `hoofload indices`.
#pragma once

#include "scenarios/commands.hpp"
#include "scenarios/sweep_columns.hpp"

namespace hoofload::scenarios {

struct PlotRequest {
  std::string kind;            ///< one of plot_kinds()
  std::filesystem::path file;  ///< of results (SQLite)
  ColumnChoice choice;
  std::string x, y;           ///< inputs; of a scatter quantities too
  std::filesystem::path out;  ///< ends in .svg
  bool quiet = false;
};

struct IndicesRequest {
  std::filesystem::path file;
  ColumnChoice choice;
  std::optional<std::filesystem::path> csv;
  bool quiet = false;
};

[[nodiscard]] std::span<const std::string_view> plot_kinds();

/// A figure and its numbers.
struct Plot {
  std::string svg, csv;
};

/// Throws std::invalid_argument, with what is allowed, for what the results do not have.
[[nodiscard]] Plot make_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request);

/// 0: done; 2: asked for what the results have not; 5: a file.
[[nodiscard]] int plot_command(const PlotRequest& request);
[[nodiscard]] int indices_command(const IndicesRequest& request);

/// Changes of one quantity, all options, with their intervals.
struct DifferencePlot {
  Phase phase = Phase::swing;
  ModelKind model = ModelKind::axisymmetric;
  const QuantityKey* quantity = nullptr;
  Plot plot;
};

/// Of each headline quantity of each phase and model that moves; the values need no draws.
[[nodiscard]] std::vector<DifferencePlot> difference_plots(const std::vector<RunResult>& results,
                                                           const Comparison& comparison);

/// Changes of one quantity, all options, with their intervals: one figure for each headline quantity of each phase
/// and model that moves. Written to folder/pictures; only a comparison with draws has them.
[[nodiscard]] std::vector<std::filesystem::path> write_difference_plots(const Finished& done,
                                                                        const std::filesystem::path& folder);

}  // namespace hoofload::scenarios
