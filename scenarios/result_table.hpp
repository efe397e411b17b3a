// A comparison as the table that people read, and the notes that belong under it.
#pragma once

#include <string>
#include <vector>

#include "scenarios/commands.hpp"
#include "scenarios/comparison.hpp"
#include "viz/comparison_table.hpp"

namespace hoofload::scenarios {

/// headline: what a terminal shows; full: every quantity (table.md).
enum class TableDetail { headline, full };

/// Whether a table of that detail has the quantity in that phase.
[[nodiscard]] bool is_shown(const QuantityKey& key, Phase phase, TableDetail detail);

/// Values and, in compare mode, changes. Rows by phase and model, quantities in catalogue order.
[[nodiscard]] viz::ComparisonTable result_table(const std::vector<RunResult>& results, const Comparison& comparison,
                                                RunMode mode, TableDetail detail,
                                                const std::vector<std::string>& warnings);

/// What the reader warned of, what a model leaves out and in which runs, what was not solved and why, and how far the two
/// models are apart on the baseline.
[[nodiscard]] std::vector<std::string> result_warnings(const std::vector<RunResult>& results,
                                                       const Comparison& comparison, const CaseErrors& reader);

/// "<run>, <model>, <phase>: <why>" of everything that was not solved.
[[nodiscard]] std::vector<std::string> unsolved(const std::vector<RunResult>& results);

}  // namespace hoofload::scenarios
