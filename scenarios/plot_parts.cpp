#include "scenarios/plot_parts.hpp"

#include "scenarios/input_words.hpp"
#include "scenarios/quantities.hpp"
#include "scenarios/uncertainty.hpp"

#include <stdexcept>

namespace hoofload::scenarios {

const SweepColumn& only_column(const SweepColumns& all, const ColumnChoice& choice) {
  if (choice.quantity.empty()) throw std::invalid_argument("--quantity is required: what is drawn");
  const auto columns = chosen_columns(all, choice);
  if (columns.size() == 1) return *columns.front();
  std::string text = choice.quantity + " is there " + std::to_string(columns.size()) +
                     " times; name one by --phase, --model and --option:";
  for (const SweepColumn* c : columns) text += "\n  " + place_of(*c);
  throw std::invalid_argument(text);
}

std::string input_label(const SweepColumns& all, std::size_t input) {
  return input_words(all.inputs[input]) + (all.units[input].empty() ? "" : ", " + all.units[input]);
}

viz::Heading plot_heading(const std::string& title, const SweepColumn& column) {
  return {title, column.phase, column.model == "sagittal" ? "sagittal core in 3D capsule" : column.model, {}};
}

std::optional<double> base_number(const SweepIdentity& identity, const std::string& input) {
  // The runs of the base case stand one after the other, each under a line with its name.
  const std::string first = identity.base_toml.substr(0, identity.base_toml.find("\n\n# "));
  const materials::Catalogue catalogue = materials::load_catalogue();
  const MaterialWords words = material_words(catalogue);
  const CaseReading reading = read_case(first, "base case", words);
  const auto found = find_input(input, words);
  if (reading.runs.empty() || !found) return {};
  if (found->key != nullptr && !std::holds_alternative<NumberAt>(found->key->binding)) return {};
  return value_in_case(input, reading.runs.front(), words);
}

}  // namespace hoofload::scenarios
