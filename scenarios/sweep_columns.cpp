#include "scenarios/sweep_columns.hpp"

#include "scenarios/case_words.hpp"
#include "scenarios/nearest.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <tuple>

namespace hoofload::scenarios {

namespace {

[[noreturn]] void unknown(const std::string& what, const std::string& name, const std::vector<std::string>& allowed) {
  std::string text = what + ": there is no '" + name + "' in this sweep; allowed: ";
  for (std::size_t k = 0; k < allowed.size(); ++k) text += (k > 0 ? ", " : "") + allowed[k];
  const std::vector<std::string_view> views(allowed.begin(), allowed.end());
  const std::string near = nearest_name(name, views);
  throw std::invalid_argument(text + (near.empty() ? "" : "; nearest: " + near));
}

void narrow(std::vector<const SweepColumn*>& columns, const std::string& what, const std::string& wanted,
            std::string SweepColumn::*field) {
  if (wanted.empty()) return;
  std::vector<std::string> there;
  for (const SweepColumn* c : columns)
    if (std::find(there.begin(), there.end(), c->*field) == there.end()) there.push_back(c->*field);
  std::erase_if(columns, [&](const SweepColumn* c) { return c->*field != wanted; });
  if (columns.empty()) unknown(what, wanted, there);
}

}  // namespace

SweepColumns read_columns(const SweepFile& file) {
  SweepColumns all;
  for (const auto& input : nlohmann::json::parse(file.identity().inputs)) {
    all.inputs.push_back(input.at(0));
    all.units.push_back(input.at(1));
  }
  const std::size_t runs = file.identity().runs;
  all.settings.resize(runs);
  std::map<std::tuple<std::string, std::string, std::string, std::string>, std::size_t> places;
  for (const std::size_t number : file.finished()) {
    const SweepRun run = file.read(number);
    for (const InputValue& s : run.settings) all.settings[number].push_back(s.value);
    for (const SweepRow& row : run.rows) {
      if (all.baseline.empty()) all.baseline = row.option;
      if (row.quantity.empty()) continue;
      const auto [it, is_new] = places.try_emplace({row.option, row.model, row.phase, row.quantity}, places.size());
      if (is_new)
        all.columns.push_back({row.option, row.model, row.phase, row.quantity, row.unit,
                               std::vector<std::optional<double>>(runs), std::vector<std::optional<double>>(runs)});
      all.columns[it->second].values[number] = row.value;
      all.columns[it->second].mesh_bars[number] = row.mesh_bar;
    }
  }
  return all;
}

std::vector<const SweepColumn*> chosen_columns(const SweepColumns& all, const ColumnChoice& choice) {
  std::vector<const SweepColumn*> columns;
  for (const SweepColumn& c : all.columns) columns.push_back(&c);
  narrow(columns, "--quantity", choice.quantity, &SweepColumn::quantity);
  narrow(columns, "--option", choice.option, &SweepColumn::option);
  narrow(columns, "--model", choice.model, &SweepColumn::model);
  narrow(columns, "--phase", choice.phase, &SweepColumn::phase);
  return columns;
}

std::optional<SweepColumn> change_of(const SweepColumns& all, const SweepColumn& column) {
  const auto base = std::find_if(all.columns.begin(), all.columns.end(), [&](const SweepColumn& c) {
    return c.option == all.baseline && c.model == column.model && c.phase == column.phase &&
           c.quantity == column.quantity;
  });
  if (base == all.columns.end()) return {};
  SweepColumn change = column;
  for (std::size_t run = 0; run < column.values.size(); ++run) {
    change.mesh_bars[run].reset();  // of two values it is not the sum, Eq. (78), and the file has not what it takes
    if (column.values[run] && base->values[run])
      change.values[run] = *column.values[run] - *base->values[run];
    else
      change.values[run].reset();
  }
  return change;
}

std::vector<std::optional<double>> numbers_of_input(const SweepColumns& all, std::size_t input) {
  std::vector<std::optional<double>> numbers(all.settings.size());
  for (std::size_t run = 0; run < numbers.size(); ++run)
    if (!all.settings[run].empty()) numbers[run] = parse_number(all.settings[run][input]);
  return numbers;
}

std::size_t find_input_column(const SweepColumns& all, const std::string& name) {
  const auto it = std::find(all.inputs.begin(), all.inputs.end(), name);
  if (it == all.inputs.end()) unknown("input", name, all.inputs);
  return static_cast<std::size_t>(it - all.inputs.begin());
}

std::string place_of(const SweepColumn& column) { return column.phase + ", " + column.model + ", " + column.option; }

}  // namespace hoofload::scenarios
