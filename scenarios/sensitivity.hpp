// What of a sweep's inputs a quantity, or its change against the baseline, depends on.
#pragma once

#include "scenarios/sobol_indices.hpp"
#include "scenarios/sweep_columns.hpp"

namespace hoofload::scenarios {

/// Indices of one column of a sweep of method "sobol indices".
struct ColumnIndices {
  SweepColumn column;
  bool is_change = false;    ///< against the baseline
  SobolIndices indices;      ///< by input
  std::size_t left_out = 0;  ///< rows of the design that lack one of their runs
};

/// Indices of the chosen columns that vary, each option's value and its change. Throws std::invalid_argument for a
/// sweep of another method or with fewer than two whole rows.
[[nodiscard]] std::vector<ColumnIndices> indices_of(const SweepIdentity& identity, const SweepColumns& all,
                                                    const ColumnChoice& choice);

/// One input of a sweep of method "one at a time": the quantity with it at 5 % and at 95 %, all others at their median.
struct Swing {
  std::size_t input = 0;
  std::string from, to;  ///< values of the input
  std::optional<double> at_low, at_high;
  [[nodiscard]] double size() const;  ///< distance of the two, 0 if one is missing
};

struct ColumnSwings {
  SweepColumn column;
  bool is_change = false;
  std::optional<double> middle;  ///< all inputs at their median
  std::vector<Swing> swings;     ///< the largest first
};

/// Throws std::invalid_argument for a sweep of another method.
[[nodiscard]] std::vector<ColumnSwings> swings_of(const SweepIdentity& identity, const SweepColumns& all,
                                                  const ColumnChoice& choice);

/// For people; the input that matters most first.
[[nodiscard]] std::string indices_text(const SweepColumns& all, const std::vector<ColumnIndices>& list);
[[nodiscard]] std::string swings_text(const SweepColumns& all, const std::vector<ColumnSwings>& list);

/// The same as tables (CSV).
[[nodiscard]] std::string indices_csv(const SweepColumns& all, const std::vector<ColumnIndices>& list);
[[nodiscard]] std::string swings_csv(const SweepColumns& all, const std::vector<ColumnSwings>& list);

}  // namespace hoofload::scenarios
