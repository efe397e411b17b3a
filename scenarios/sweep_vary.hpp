// One line of a plan's [vary]: the values or the distribution of one input.
#pragma once

#include "scenarios/case_value.hpp"
#include "scenarios/sweep_plan.hpp"

#include <variant>

namespace hoofload::scenarios {

/// What is wrong with a line, and where.
struct VaryProblem {
  Location at;
  ValueProblem problem;
  std::string value;
};

/// Reads the value of one line for a method. Grid and list take the values themselves; a grid also
/// { low, high, points }; drawn runs take [low, high], a list of words, or { distribution, low, high, mean, sd, mode }.
[[nodiscard]] std::variant<Variation, VaryProblem> read_variation(const Input& input, const Value& value,
                                                                  SweepMethod method, const MaterialWords& materials);

}  // namespace hoofload::scenarios
