// The catalogue of quantities and how each is read from a solved phase (docs/quantities.md is generated from it).
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "scenarios/phases.hpp"

namespace hoofload::scenarios {

enum class Given { axisymmetric, sagittal, both };

/// `more_is_worse`: a rise is listed under "what got worse", a fall under what got better; 0 for neither.
struct QuantityKey {
  std::string_view key, words, unit, definition;  ///< words: what stands in pictures and lessons
  Given model;
  int worse_sign;  ///< +1: more is more load; -1: less is less support; 0: neither
};

[[nodiscard]] const std::vector<QuantityKey>& quantity_catalogue();
[[nodiscard]] const QuantityKey* find_quantity(std::string_view key);

/// A quantity as people read it, without and with its unit: "tendon moment, N m". A key that is not known stays as it is.
[[nodiscard]] std::string words_of(std::string_view key);
[[nodiscard]] std::string words_and_unit_of(std::string_view key);

/// Quantities of one phase by key, in the catalogue's units. Only those that the model gives in that phase.
using Quantities = std::map<std::string, double, std::less<>>;
[[nodiscard]] Quantities measure(const BuiltModel& built, const Case& run, const PhaseSolution& phase);

/// Pressure along the sole [kPa] by place (x or r, mm), for the profile and the side view.
struct PressureSample {
  solver::Vec2 X;
  double kPa;
};
[[nodiscard]] std::vector<PressureSample> sole_pressure_profile(const BuiltModel& built, const PhaseSolution& phase);

/// Statics of a solved phase: ground reaction against load, moment of the tendon against that of the ground force (relative to
/// the larger of it and the load at 10 mm: a tendon gone slack leaves nothing to measure against), and the ledgers' gaps.
struct BalanceCheck {
  double force = 0, moment = 0, bone_ledger = 0, ground_ledger = 0;
};
[[nodiscard]] BalanceCheck check_balance(const BuiltModel& built, const PhaseSolution& phase);

}  // namespace hoofload::scenarios
