#include "scenarios/plot_command.hpp"

#include "scenarios/nearest.hpp"
#include "scenarios/plot_parts.hpp"
#include "scenarios/result_files.hpp"
#include "scenarios/sensitivity.hpp"
#include "viz/cautions.hpp"

#include <algorithm>
#include <array>
#include <iostream>
#include <stdexcept>

namespace hoofload::scenarios {

namespace {

constexpr std::array<std::string_view, 5> kKinds = {"differences", "tornado", "curve", "map", "scatter"};

/// Does the work and turns what it throws into a sentence and an exit code.
template <class Work>
int guarded(const char* command, Work&& work) {
  try {
    work();
    return std::cout.flush() ? exit_done : exit_system;
  } catch (const std::invalid_argument& e) {
    std::cerr << command << ": " << e.what() << '\n';
    return exit_usage;
  } catch (const std::runtime_error& e) {
    std::cerr << "hoofload: " << e.what() << '\n';
    return exit_system;
  }
}

SweepColumns columns_of(const SweepFile& file, const char* command, bool quiet) {
  const std::size_t there = file.finished().size(), all = file.identity().runs;
  if (!quiet && there < all)
    std::cerr << command << ": " << there << " of " << all << " runs are there; the rest is left out\n";
  return read_columns(file);
}

}  // namespace

std::span<const std::string_view> plot_kinds() { return kKinds; }

Plot make_plot(const SweepIdentity& identity, const SweepColumns& all, const PlotRequest& request) {
  constexpr std::array makers = {difference_plot, tornado_plot, curve_plot, map_plot, scatter_plot};
  const auto it = std::find(kKinds.begin(), kKinds.end(), request.kind);
  if (it != kKinds.end()) return makers[static_cast<std::size_t>(it - kKinds.begin())](identity, all, request);
  std::string allowed;
  for (const std::string_view kind : kKinds) allowed += (allowed.empty() ? "" : ", ") + std::string(kind);
  const std::string near = nearest_name(request.kind, kKinds);
  throw std::invalid_argument("there is no plot '" + request.kind + "'; allowed: " + allowed +
                              (near.empty() ? "" : "; nearest: " + near));
}

int plot_command(const PlotRequest& request) {
  return guarded("plot", [&] {
    if (request.out.extension() != ".svg")
      throw std::invalid_argument("--out: expected a file that ends in .svg, found '" + request.out.string() + "'");
    const SweepFile file(request.file);
    const Plot plot = make_plot(file.identity(), columns_of(file, "plot", request.quiet), request);
    std::filesystem::path csv = request.out;
    csv.replace_extension(".csv");
    write_file(request.out, plot.svg);
    write_file(csv, plot.csv);
    if (!request.quiet) std::cerr << "plot: " << request.out.string() << ", " << csv.string() << '\n';
  });
}

int indices_command(const IndicesRequest& request) {
  return guarded("indices", [&] {
    const SweepFile file(request.file);
    const SweepIdentity& identity = file.identity();
    const SweepColumns all = columns_of(file, "indices", request.quiet);
    std::string text, csv;
    if (identity.method == "one at a time") {
      const auto swings = swings_of(identity, all, request.choice);
      text = swings_text(all, swings), csv = swings_csv(all, swings);
    } else {
      const auto indices = indices_of(identity, all, request.choice);
      text = indices_text(all, indices), csv = indices_csv(all, indices);
    }
    std::cout << identity.title << "\n\n" << text << '\n' << viz::caution_text << '\n';
    std::cout << identity.program << ", plan " << identity.plan_sha256.substr(0, 12) << '\n';
    if (request.csv) write_file(*request.csv, csv);
  });
}

}  // namespace hoofload::scenarios
