#include "scenarios/sensitivity.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace hoofload::scenarios {

namespace {

constexpr double kNothing = 1e-9;  ///< of the largest value: what round-off leaves of a quantity that does not vary

/// The column and, for an option, its change.
std::vector<std::pair<SweepColumn, bool>> with_changes(const SweepColumns& all, const ColumnChoice& choice) {
  std::vector<std::pair<SweepColumn, bool>> list;
  for (const SweepColumn* c : chosen_columns(all, choice)) {
    list.emplace_back(*c, false);
    if (c->option == all.baseline) continue;
    if (auto change = change_of(all, *c)) list.emplace_back(std::move(*change), true);
  }
  return list;
}

bool varies(const SweepColumn& column) {
  double low = INFINITY, high = -INFINITY;
  for (const auto& v : column.values)
    if (v) low = std::min(low, *v), high = std::max(high, *v);
  return high - low > kNothing * std::max(std::abs(low), std::abs(high));
}

/// Rows of the design that are whole; blocks of runs as in Eq. (104).
DesignValues design_of(const SweepColumn& column, std::size_t samples, std::size_t inputs) {
  DesignValues v;
  v.ab.resize(inputs);
  for (std::size_t row = 0; row < samples; ++row) {
    bool is_whole = true;
    for (std::size_t block = 0; block < inputs + 2; ++block)
      is_whole = is_whole && column.values[block * samples + row].has_value();
    if (!is_whole) continue;
    v.a.push_back(*column.values[row]);
    v.b.push_back(*column.values[samples + row]);
    for (std::size_t d = 0; d < inputs; ++d) v.ab[d].push_back(*column.values[(d + 2) * samples + row]);
  }
  return v;
}

void need_method(const SweepIdentity& identity, const std::string& method) {
  if (identity.method != method)
    throw std::invalid_argument("this is a sweep of method \"" + identity.method + "\"; it takes one of \"" + method +
                                "\"");
}

std::string setting(const SweepColumns& all, std::size_t run, std::size_t input) {
  return all.settings[run].empty() ? "" : all.settings[run][input];
}

}  // namespace

std::vector<ColumnIndices> indices_of(const SweepIdentity& identity, const SweepColumns& all,
                                      const ColumnChoice& choice) {
  need_method(identity, "sobol indices");
  std::vector<ColumnIndices> list;
  for (auto& [column, is_change] : with_changes(all, choice)) {
    if (!varies(column)) continue;
    const DesignValues design = design_of(column, identity.samples, all.inputs.size());
    if (design.a.size() < 2)
      throw std::invalid_argument(column.quantity + ", " + place_of(column) + ": only " +
                                  std::to_string(design.a.size()) + " of " + std::to_string(identity.samples) +
                                  " rows have all their runs; indices take two");
    const std::size_t left_out = identity.samples - design.a.size();
    list.push_back({std::move(column), is_change, sobol_indices(design), left_out});
  }
  return list;
}

double Swing::size() const { return at_low && at_high ? std::abs(*at_high - *at_low) : 0; }

std::vector<ColumnSwings> swings_of(const SweepIdentity& identity, const SweepColumns& all,
                                    const ColumnChoice& choice) {
  need_method(identity, "one at a time");
  std::vector<ColumnSwings> list;
  for (auto& [column, is_change] : with_changes(all, choice)) {
    if (!varies(column)) continue;
    ColumnSwings one{column, is_change, column.values[0], {}};
    for (std::size_t d = 0; d < all.inputs.size(); ++d)
      one.swings.push_back({d, setting(all, 2 * d + 1, d), setting(all, 2 * d + 2, d), column.values[2 * d + 1],
                            column.values[2 * d + 2]});
    std::stable_sort(one.swings.begin(), one.swings.end(),
                     [](const Swing& a, const Swing& b) { return a.size() > b.size(); });
    list.push_back(std::move(one));
  }
  return list;
}

}  // namespace hoofload::scenarios
