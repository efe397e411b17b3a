#include "scenarios/input_words.hpp"
#include "scenarios/sensitivity.hpp"
#include "scenarios/sweep_table.hpp"
#include "scenarios/units.hpp"
#include "viz/text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <numeric>

namespace hoofload::scenarios {

namespace {

constexpr int kIndex = 22, kValue = 14;

/// Columns that the names of the inputs take, with the unit behind them where there is one.
std::string name_of_input(const SweepColumns& all, std::size_t d) {
  return input_words(all.inputs[d]) + (all.units[d].empty() ? "" : " [" + all.units[d] + "]");
}
int name_width(const SweepColumns& all) {
  int width = 0;
  for (std::size_t d = 0; d < all.inputs.size(); ++d) width = std::max(width, viz::columns(name_of_input(all, d)));
  return width + 1;
}

std::string head_of(const SweepColumn& c, bool is_change) {
  return (is_change ? "change of " : "") + c.quantity + " [" + c.unit + "], " + place_of(c);
}

std::string estimate_text(const IndexEstimate& e) {
  std::array<char, 64> text{};
  std::snprintf(text.data(), text.size(), "%.2f (%.2f to %.2f)", e.value, e.low, e.high);
  return text.data();
}

/// Inputs by their total index, the largest first.
std::vector<std::size_t> by_total(const SobolIndices& s) {
  std::vector<std::size_t> order(s.total.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return s.total[a].value > s.total[b].value; });
  return order;
}

/// The first of the order, and whether the next one's interval stays below it.
std::string first_text(const SweepColumns& all, const SobolIndices& s, const std::vector<std::size_t>& order) {
  std::string text = "  measure this again first: " + input_words(all.inputs[order[0]]);
  if (order.size() > 1 && s.total[order[1]].high >= s.total[order[0]].low)
    text += " (its interval overlaps that of " + input_words(all.inputs[order[1]]) + ": not ranked)";
  return text + "\n";
}

std::string number_field(const std::optional<double>& v) { return v ? number_text(*v) : ""; }

std::string place_fields(const SweepColumn& c, bool is_change) {
  std::string text;
  for (const std::string& field : {c.option, c.model, c.phase, c.quantity, c.unit}) text += csv_field(field) + ",";
  return text + (is_change ? "change" : "value") + ",";
}

std::string shown(const std::optional<double>& v) { return v ? viz::number_text(*v) : "-"; }

/// A number as it is written by hand, a word as it is.
std::string setting_text(const std::string& value) {
  const auto number = parse_number(value);
  return number ? viz::number_text(*number) : value;
}

}  // namespace

std::string indices_text(const SweepColumns& all, const std::vector<ColumnIndices>& list) {
  std::string text;
  for (const ColumnIndices& one : list) {
    const SobolIndices& s = one.indices;
    const std::vector<std::size_t> order = by_total(s);
    text += head_of(one.column, one.is_change) + ": standard deviation " + viz::number_text(std::sqrt(s.variance)) +
            ", " + std::to_string(s.samples) + " rows" +
            (one.left_out > 0 ? ", " + std::to_string(one.left_out) + " left out" : "") + "\n";
    text += "  " + viz::left_aligned("input", name_width(all)) + viz::right_aligned("first order (95 %)", kIndex) +
            viz::right_aligned("total (95 %)", kIndex) + "\n";
    for (const std::size_t d : order)
      text += "  " + viz::left_aligned(name_of_input(all, d), name_width(all)) +
              viz::right_aligned(estimate_text(s.first[d]), kIndex) +
              viz::right_aligned(estimate_text(s.total[d]), kIndex) + "\n";
    text += first_text(all, s, order) + "\n";
  }
  return text +
         "First order: share of the variance that would go if the input were known; total: share that would stay if "
         "all\n"
         "others were. The mesh's error is not in it.\n";
}

std::string swings_text(const SweepColumns& all, const std::vector<ColumnSwings>& list) {
  std::string text =
      "ONE AT A TIME: each input alone at 5 % and 95 % of its distribution, all others at their median.\n"
      "What inputs do together is not in it.\n\n";
  for (const ColumnSwings& one : list) {
    text += head_of(one.column, one.is_change) + ": " + shown(one.middle) + " with all at their median\n";
    text += "  " + viz::left_aligned("input", name_width(all));
    for (const char* column : {"from", "to", "at 5 %", "at 95 %"}) text += viz::right_aligned(column, kValue);
    text += "\n";
    for (const Swing& s : one.swings) {
      text += "  " + viz::left_aligned(name_of_input(all, s.input), name_width(all));
      for (const std::string& value : {setting_text(s.from), setting_text(s.to), shown(s.at_low), shown(s.at_high)})
        text += viz::right_aligned(value, kValue);
      text += "\n";
    }
    text += "\n";
  }
  return text;
}

std::string indices_csv(const SweepColumns& all, const std::vector<ColumnIndices>& list) {
  std::string text =
      "option,model,phase,quantity,unit,of,input,first,first_low,first_high,total,total_low,total_high,variance,rows\n";
  for (const ColumnIndices& one : list)
    for (std::size_t d = 0; d < all.inputs.size(); ++d) {
      text += place_fields(one.column, one.is_change) + csv_field(all.inputs[d]);
      for (const IndexEstimate& e : {one.indices.first[d], one.indices.total[d]})
        text += "," + number_text(e.value) + "," + number_text(e.low) + "," + number_text(e.high);
      text += "," + number_text(one.indices.variance) + "," + std::to_string(one.indices.samples) + "\n";
    }
  return text;
}

std::string swings_csv(const SweepColumns& all, const std::vector<ColumnSwings>& list) {
  std::string text = "option,model,phase,quantity,unit,of,input,from,to,middle,at_low,at_high\n";
  for (const ColumnSwings& one : list)
    for (const Swing& s : one.swings)
      text += place_fields(one.column, one.is_change) + csv_field(all.inputs[s.input]) + "," + csv_field(s.from) + "," +
              csv_field(s.to) + "," + number_field(one.middle) + "," + number_field(s.at_low) + "," +
              number_field(s.at_high) + "\n";
  return text;
}

}  // namespace hoofload::scenarios
