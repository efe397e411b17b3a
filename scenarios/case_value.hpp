// One value of a case file put where its key says, or the reason why it cannot be.
#pragma once

#include "scenarios/case_keys.hpp"
#include "scenarios/case_text.hpp"

#include <optional>
#include <string>

namespace hoofload::scenarios {

/// What is wrong with a value; becomes a CaseError when the place is added.
struct ValueProblem {
  std::string problem;
  std::string allowed;
  std::string nearest;
};

/// Reads `value` by the key's type, unit and range into the case. Leaves the case alone if there is a problem.
[[nodiscard]] std::optional<ValueProblem> set_value(const Key& key, const Value& value, const MaterialWords& materials,
                                                    Case& c);

/// A number in `unit` ("" for a plain one) from text with a unit or from a bare TOML number; range not checked.
struct NumberReading {
  std::optional<double> value;
  ValueProblem problem;
};
[[nodiscard]] NumberReading read_number(const Value& value, std::string_view unit);

}  // namespace hoofload::scenarios
