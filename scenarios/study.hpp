// The draws of a case's [study]: every run of the case solved for each draw of what is uncertain, the same draw for all
// options, so that what they share cancels in the difference.
#pragma once

#include "scenarios/comparison.hpp"
#include "scenarios/sweep_runs.hpp"
#include "scenarios/uncertainty.hpp"

#include <functional>
#include <map>
#include <tuple>

namespace hoofload::scenarios {

struct SampledStudy {
  Uncertainties list;
  UnitPoints points;           ///< a coordinate for each draw and uncertainty
  double density = 0;          ///< of the draws' meshes
  std::vector<SweepRun> runs;  ///< one a draw, in order
};

/// The sweep whose runs are the draws, scrambled Sobol' points in as many dimensions as there are uncertainties.
/// Precondition: runs.front().study.samples > 0.
[[nodiscard]] Sweep study_sweep(const std::string& text, const std::string& file, const std::vector<Case>& runs,
                                const Uncertainties& list);

/// Solves the draws on `threads` threads (0: as many as the machine has); `report` gets how many are done.
[[nodiscard]] SampledStudy solve_study(const std::string& text, const std::string& file, const std::vector<Case>& runs,
                                       std::size_t threads, const std::function<void(std::size_t)>& report = {});

/// Puts 5, 50 and 95 % of values and of paired changes, and P(better), where they belong; a change whose interval
/// holds zero is not distinguishable. What fewer than 20 draws gave has no interval.
void add_intervals(const SampledStudy& study, std::vector<RunResult>& results, Comparison& comparison);

/// Values of each option, model, phase and quantity by draw; empty where a draw has none.
using DrawTable =
    std::map<std::tuple<std::string, std::string, std::string, std::string>, std::vector<std::optional<double>>>;
[[nodiscard]] DrawTable draw_table(const SampledStudy& study);

/// The draws that have both values of a difference, and its change in each.
struct PairedDraws {
  std::vector<std::size_t> draws;
  std::vector<double> changes;
};
[[nodiscard]] PairedDraws paired_draws(const DrawTable& table, const std::string& baseline, const Difference& d);

/// What a reader must know of the draws: how many, of what, on what mesh, and which were not solved and why.
[[nodiscard]] std::vector<std::string> study_notes(const SampledStudy& study, std::int64_t seed);

/// Quantile of sorted numbers, between two of them in proportion (Hyndman & Fan 1996, type 7).
[[nodiscard]] double quantile_of(const std::vector<double>& sorted, double share);

}  // namespace hoofload::scenarios
