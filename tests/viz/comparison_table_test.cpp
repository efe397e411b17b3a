#include "viz/comparison_table.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "viz/cautions.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

ComparisonTable table_of(std::size_t options) {
  ComparisonTable t;
  t.title = "Demo: long toe, thin sole";
  t.baseline = "open flat shoe";
  for (std::size_t k = 0; k < options; ++k) t.options.push_back("6° elevation, no. " + std::to_string(k + 1));
  for (const char* phase : {"standing", "midstance"})
    for (const auto& [quantity, unit, base] :
         {std::tuple{"sole_pressure_peak", "kPa", 41.237}, std::tuple{"swing_sole_pressure", "kPa", 0.0},
          std::tuple{"wall_strain_dorsal", "µε", -1234.0}}) {
      ComparisonRow row{quantity, unit, phase, "sagittal", base, 0.8, {}};
      for (std::size_t k = 0; k < options; ++k) {
        const double change = -2.0 + 2.5 * static_cast<double>(k);
        OptionCell cell{base + change, change, {}, {}, {}};
        if (base != 0) cell.percent = 100 * change / base;
        row.cells.push_back(cell);
      }
      t.rows.push_back(row);
    }
  t.worse = {{t.options[0], "lamella_stress_dorsal", "midstance", "kPa", 12.4, 4.1, true}};
  return t;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// Terminal column in which a piece of text ends; -1 if it is not there.
int end_column(const std::string& line, const std::string& piece) {
  const auto at = line.find(piece);
  return at == std::string::npos ? -1 : columns(line.substr(0, at + piece.size()));
}

TEST(TerminalTable, values_stand_under_their_option_whatever_the_bytes) {
  const auto lines = lines_of(terminal_table(table_of(2)));
  int header = -1, plain = -1, greek = -1;
  for (const auto& line : lines) {
    if (line.starts_with("quantity")) header = end_column(line, "[1]");
    if (line.starts_with("sole_pressure_peak")) plain = end_column(line, "39.2");
    if (line.starts_with("wall_strain_dorsal")) greek = end_column(line, "-1236");
  }
  EXPECT_GT(header, 0);
  EXPECT_EQ(plain, header);
  EXPECT_EQ(greek, header) << "two-byte unit must not shift the row";
}

TEST(TerminalTable, no_line_is_wider_than_asked_and_every_option_appears) {
  for (const int width : {72, 100, 160}) {
    const auto text = terminal_table(table_of(8), width);
    for (const auto& line : lines_of(text)) EXPECT_LE(columns(line), width) << line;
    for (int k = 1; k <= 8; ++k) EXPECT_NE(text.find("[" + std::to_string(k) + "]"), std::string::npos);
  }
}

TEST(TerminalTable, a_zero_baseline_shows_the_change_not_a_percentage) {
  for (const auto& line : lines_of(terminal_table(table_of(1))))
    if (line.starts_with("swing_sole_pressure")) {
      EXPECT_EQ(line.find('%'), std::string::npos);
      EXPECT_NE(line.find("-2.00"), std::string::npos);
    }
}

TEST(TerminalTable, changes_within_the_bar_or_with_an_interval_about_zero_are_marked) {
  EXPECT_TRUE(is_distinguishable({2, 1.0, {}, {}, {}}, 0.8));
  EXPECT_FALSE(is_distinguishable({2, 0.5, {}, {}, {}}, 0.8));
  EXPECT_FALSE(is_distinguishable({2, 1.0, {}, -0.1, 2.0}, 0.8));
  EXPECT_TRUE(is_distinguishable({2, 1.0, {}, 0.9, 2.0}, 0.8));
  EXPECT_FALSE(is_distinguishable({2, {}, {}, {}, {}}, 0.8));
  auto table = table_of(2);  // option 2 changes by 0.5 against a bar of 0.8
  for (const auto& line : lines_of(terminal_table(table)))
    if (line.starts_with("sole_pressure_peak")) {
      EXPECT_TRUE(line.ends_with("≈")) << line;
    }
}

TEST(ComparisonTable, both_forms_list_what_got_worse_and_the_whole_caution) {
  const auto markdown = markdown_table(table_of(2)), terminal = terminal_table(table_of(2));
  EXPECT_NE(markdown.find("lamella\\_stress\\_dorsal (midstance) +12.4 kPa (+4.1%)"), std::string::npos);
  EXPECT_NE(terminal.find("lamella_stress_dorsal (midstance) +12.4 kPa (+4.1%)"), std::string::npos);
  EXPECT_NE(markdown.find(caution_text), std::string::npos);
  std::string joined;
  for (const auto& line : lines_of(terminal)) joined += line + " ";
  EXPECT_NE(joined.find(caution_text), std::string::npos);
}

TEST(MarkdownTable, every_row_has_as_many_cells_as_the_header) {
  auto table = table_of(3);
  table.rows[0].unit = "a|b";
  for (const auto& line : lines_of(markdown_table(table)))
    if (line.starts_with("|")) {
      int bars = 0;
      for (std::size_t k = 0; k < line.size(); ++k) bars += line[k] == '|' && (k == 0 || line[k - 1] != '\\');
      EXPECT_EQ(bars, 5 + 3 + 1) << line;
    }
}

TEST(ComparisonTable, a_row_without_a_cell_for_each_option_is_refused) {
  auto table = table_of(2);
  table.rows[1].cells.pop_back();
  EXPECT_THROW((void)terminal_table(table), std::invalid_argument);
  EXPECT_THROW((void)markdown_table(table), std::invalid_argument);
}

}  // namespace
}  // namespace hoofload::viz
