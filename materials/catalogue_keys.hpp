// What a catalogue entry may hold: units, keys with their house unit and range, and which keys make which law.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "materials/catalogue.hpp"

namespace hoofload::materials {

/// A key of [material.parameters] or [material.properties]: admissible when above < value < below, in its house unit.
struct KeyRule {
  std::string_view key, unit;
  double above, below;
  std::string_view meaning;
};

[[nodiscard]] std::span<const KeyRule> parameter_rules();
[[nodiscard]] std::span<const KeyRule> property_rules();
[[nodiscard]] const KeyRule* find_rule(std::span<const KeyRule> rules, std::string_view key);

/// Factor from a unit to the house unit, or nothing when the unit is unknown or of another dimension.
[[nodiscard]] std::optional<double> conversion(std::string_view unit, std::string_view house_unit);

/// Units that may stand for a house unit, "MPa, kPa, GPa".
[[nodiscard]] std::string units_for(std::string_view house_unit);

/// Law names the catalogue knows (the variant's, and the two that are not solids).
[[nodiscard]] std::vector<std::string> law_names();

/// Empty when the entry's parameter keys make its law, else what is missing or allowed.
[[nodiscard]] std::string recipe_error(const Entry& entry);

}  // namespace hoofload::materials
