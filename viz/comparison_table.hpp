// The comparison as text: for a terminal (aligned, in blocks that fit its width) and as Markdown.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace hoofload::viz {

/// One option's value of a quantity against the baseline. change = value - baseline, in the row's unit.
struct OptionCell {
  std::optional<double> value, change, percent;  ///< percent is empty where the baseline is zero
  std::optional<double> low, high;               ///< 5-95 % interval of the change, when sampled
  std::optional<double> bar = std::nullopt;      ///< mesh bar of the change; the row's if not given
};

/// `bar`: discretisation bar of the baseline's value. One cell per option, in the table's order.
struct ComparisonRow {
  std::string quantity, unit, phase, model;
  std::optional<double> baseline;
  double bar = 0;
  std::vector<OptionCell> cells;
};

/// One quantity that an option changed for the worse or the better.
struct Worse {
  std::string option, quantity, phase, unit;
  double change = 0;
  std::optional<double> percent;
  bool is_distinguishable = true;
};

struct ComparisonTable {
  std::string title;
  std::string baseline;              ///< the baseline's name
  std::vector<std::string> options;  ///< the others
  std::vector<ComparisonRow> rows;   ///< shown by phase and model, in order of first appearance
  std::vector<Worse> worse, better;
  std::vector<std::string> warnings;
};

/// True if the change is larger than the bar and its interval, if there is one, leaves out zero.
[[nodiscard]] bool is_distinguishable(const OptionCell& cell, double bar);

/// For a terminal of so many columns (at least 60). Throws std::invalid_argument if a row's cells are not one per
/// option.
[[nodiscard]] std::string terminal_table(const ComparisonTable& table, int width = 100);

/// GitHub-flavoured Markdown; the same content and errors.
[[nodiscard]] std::string markdown_table(const ComparisonTable& table);

}  // namespace hoofload::viz
