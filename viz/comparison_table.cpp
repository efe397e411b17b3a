#include "viz/comparison_table.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "viz/cautions.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

constexpr int quantity_width = 23, unit_width = 7, baseline_width = 12, value_width = 6, change_width = 7;
constexpr int cell_width = value_width + change_width + 1;  // one column for the mark
constexpr std::string_view same = "≈";
constexpr std::string_view legend =
    "Each option: its value and the change against the baseline, in percent, or in the quantity's unit where the "
    "baseline is zero. ± is the mesh bar of the baseline's value. ≈ marks a change within the mesh bar of the "
    "difference or with an interval that holds zero: not distinguishable. `hoofload explain NAME` says what a line is.";

void check(const ComparisonTable& table) {
  for (const auto& row : table.rows)
    if (row.cells.size() != table.options.size())
      throw std::invalid_argument("the row of " + row.quantity + " needs one cell per option");
}

/// A change below a twentieth of a percent is none that a reader could use: 0 with its sign is left to the JSON.
std::string percent_text(double percent) {
  if (std::abs(percent) < 0.05) return "0%";
  return signed_text(percent, std::abs(percent) < 10 ? 2 : 3) + "%";
}

std::string value_text(const OptionCell& cell) { return cell.value ? number_text(*cell.value) : "-"; }

/// Percent where there is one, else the change itself: nothing is divided by a baseline of zero.
std::string change_text(const OptionCell& cell) {
  if (!cell.value || !cell.change) return "";
  if (cell.percent) return percent_text(*cell.percent);
  return std::abs(*cell.change) < 1e-6 ? "0" : signed_text(*cell.change);
}

/// Nothing is marked where nothing is compared.
std::string mark_text(const OptionCell& cell, double bar) {
  return !cell.value || !cell.change || is_distinguishable(cell, cell.bar.value_or(bar)) ? "" : std::string(same);
}

std::string baseline_text(const ComparisonRow& row) {
  if (!row.baseline) return "-";
  return number_text(*row.baseline) + (row.bar > 0 ? " ± " + number_text(row.bar, 2) : "");
}

std::string without_trailing_spaces(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

std::string line_of(const ComparisonRow& row, std::size_t from, std::size_t to) {
  std::string out = left_aligned(row.quantity, quantity_width) + " " + left_aligned(row.unit, unit_width) +
                    right_aligned(baseline_text(row), baseline_width);
  for (std::size_t k = from; k < to; ++k)
    out += right_aligned(value_text(row.cells[k]), value_width) +
           right_aligned(change_text(row.cells[k]), change_width) + left_aligned(mark_text(row.cells[k], row.bar), 1);
  return without_trailing_spaces(out) + "\n";
}

std::string group_of(const ComparisonRow& row) { return row.phase + (row.model.empty() ? "" : " · " + row.model); }

/// Phases and models in the order in which they first appear.
std::vector<std::string> groups(const ComparisonTable& table) {
  std::vector<std::string> names;
  for (const auto& row : table.rows)
    if (std::find(names.begin(), names.end(), group_of(row)) == names.end()) names.push_back(group_of(row));
  return names;
}

/// Rows of as many options as fit, under a line for each phase and model.
std::string block(const ComparisonTable& table, std::size_t from, std::size_t to) {
  std::string out = left_aligned("quantity", quantity_width) + " " + left_aligned("unit", unit_width) +
                    right_aligned("baseline", baseline_width);
  for (std::size_t k = from; k < to; ++k)
    out += right_aligned("[" + std::to_string(k + 1) + "]", value_width) + std::string(change_width + 1, ' ');
  out = without_trailing_spaces(out) + "\n";
  for (const auto& group : groups(table)) {
    out += "-- " + group + "\n";
    for (const auto& row : table.rows)
      if (group_of(row) == group) out += line_of(row, from, to);
  }
  return out + "\n";
}

/// "(standing) +12.4 kPa (+4.1%)"
std::string worse_text(const Worse& worse) {
  std::string out = (worse.phase.empty() ? "" : "(" + worse.phase + ") ") + signed_text(worse.change) +
                    (worse.unit.empty() ? "" : " " + worse.unit);
  if (worse.percent) out += " (" + percent_text(*worse.percent) + ")";
  return out + (worse.is_distinguishable ? "" : " " + std::string(same));
}

/// One line a quantity, its phases behind one another.
std::vector<std::string> lines_of(const std::vector<Worse>& list, const std::string& option) {
  std::vector<std::string> names, out;
  for (const auto& worse : list) {
    if (worse.option != option) continue;
    const auto at = static_cast<std::size_t>(std::find(names.begin(), names.end(), worse.quantity) - names.begin());
    if (at == names.size()) {
      names.push_back(worse.quantity);
      out.push_back(worse.quantity + " " + worse_text(worse));
    } else {
      out[at] += ", " + worse_text(worse);
    }
  }
  return out;
}

/// False for a table of values without changes: nothing got worse where nothing is compared.
bool compares(const ComparisonTable& table) {
  for (const auto& row : table.rows)
    for (const auto& cell : row.cells)
      if (cell.change) return true;
  return false;
}

std::string indented(std::string_view text, int width, const std::string& first, const std::string& rest) {
  std::string out;
  for (const auto& line : wrapped(text, width - columns(rest))) out += (out.empty() ? first : rest) + line + "\n";
  return out;
}

std::string listed(const std::string& heading, const std::vector<Worse>& list, const ComparisonTable& table,
                   int width) {
  std::string out = "\n" + heading + "\n";
  for (std::size_t k = 0; k < table.options.size(); ++k) {
    out += indented(clean_utf8(table.options[k]), width, right_aligned("[" + std::to_string(k + 1) + "]", 5) + " ",
                    "      ");
    const auto lines = lines_of(list, table.options[k]);
    if (lines.empty()) out += "        nothing that is listed here\n";
    for (const auto& line : lines) out += indented(line, width, "        ", "          ");
  }
  return out;
}

std::string markdown_escaped(std::string_view text) {
  std::string out;
  for (const char c : clean_utf8(text)) {
    if (std::string_view("|\\*_`<[]").find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

std::string markdown_listed(const std::string& heading, const std::vector<Worse>& worse, const ComparisonTable& table) {
  std::string out = "**" + heading + "**\n\n";
  for (const auto& option : table.options) {
    std::string list;
    for (const auto& line : lines_of(worse, option)) list += (list.empty() ? "" : "; ") + markdown_escaped(line);
    out += "- " + markdown_escaped(option) + ": " + (list.empty() ? "nothing that is listed here" : list) + "\n";
  }
  return out + "\n";
}

std::string markdown_rows(const ComparisonTable& table) {
  std::string out = "| quantity | unit | phase | model | baseline |", rule = "|---|---|---|---|---:|";
  for (std::size_t k = 0; k < table.options.size(); ++k) {
    out += " " + std::to_string(k + 1) + " |";
    rule += "---:|";
  }
  out += "\n" + rule + "\n";
  for (const auto& row : table.rows) {
    out += "| " + markdown_escaped(row.quantity) + " | " + markdown_escaped(row.unit) + " | " +
           markdown_escaped(row.phase) + " | " + markdown_escaped(row.model) + " | " + baseline_text(row) + " |";
    for (const auto& cell : row.cells) {
      const std::string change = change_text(cell);
      out += " " + value_text(cell) + (change.empty() ? "" : " (" + change + ")" + mark_text(cell, row.bar)) + " |";
    }
    out += "\n";
  }
  return out;
}

}  // namespace

bool is_distinguishable(const OptionCell& cell, double bar) {
  if (!cell.change || !(std::abs(*cell.change) > bar)) return false;
  return !cell.low || !cell.high || *cell.low > 0 || *cell.high < 0;
}

std::string terminal_table(const ComparisonTable& table, int width) {
  check(table);
  width = std::max(width, 60);
  std::string out = indented(clean_utf8(table.title), width, "", "") + "\n";
  out += indented(clean_utf8("baseline: " + table.baseline), width, "      ", "      ");
  for (std::size_t k = 0; k < table.options.size(); ++k)
    out += indented(clean_utf8(table.options[k]), width, right_aligned("[" + std::to_string(k + 1) + "]", 5) + " ",
                    "      ");
  out += "\n";
  const int room = width - quantity_width - 1 - unit_width - baseline_width;
  const auto fit = static_cast<std::size_t>(std::max(1, room / cell_width));
  for (std::size_t from = 0; from == 0 || from < table.options.size(); from += fit)
    out += block(table, from, std::min(from + fit, table.options.size()));
  if (compares(table)) {
    out += indented(legend, width, "", "");
    out += listed("What got worse", table.worse, table, width) + listed("What got better", table.better, table, width);
  }
  if (!table.warnings.empty()) out += "\nWarnings\n";
  for (const auto& warning : table.warnings) out += indented(clean_utf8(warning), width, "  ", "    ");
  return out + "\n" + indented(caution_text, width, "", "");
}

std::string markdown_table(const ComparisonTable& table) {
  check(table);
  std::string out =
      "**" + markdown_escaped(table.title) + "**\n\nBaseline: " + markdown_escaped(table.baseline) + "\n\n";
  for (std::size_t k = 0; k < table.options.size(); ++k)
    out += std::to_string(k + 1) + ". " + markdown_escaped(table.options[k]) + "\n";
  out += "\n" + markdown_rows(table) + "\n";
  if (compares(table)) {
    out += std::string(legend) + "\n\n" + markdown_listed("What got worse", table.worse, table) +
           markdown_listed("What got better", table.better, table);
  }
  for (const auto& warning : table.warnings) out += "\n> " + markdown_escaped(warning) + "\n";
  return out + "\n" + std::string(caution_text) + "\n";
}

}  // namespace hoofload::viz
