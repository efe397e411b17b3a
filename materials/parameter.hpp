// A law's parameter, declared once beside its member: name, unit, admissible range, meaning.
// Readers, range checks, error texts and documentation tables are derived from it.
#pragma once

#include <cstdio>
#include <limits>
#include <string>
#include <string_view>

namespace hoofload::materials {

inline constexpr double unbounded = std::numeric_limits<double>::infinity();

/// Admissible when above < value < below. unit "1" is dimensionless.
template <class Law>
struct Parameter {
  std::string_view name;
  double Law::*member;
  std::string_view unit;
  double above, below;
  std::string_view meaning;
};

/// "C10 must lie between 0 and inf MPa, but is -1", or empty when value is admissible (NaN is not).
template <class Law>
[[nodiscard]] std::string range_error(const Parameter<Law>& parameter, double value) {
  if (value > parameter.above && value < parameter.below) return {};
  char text[240];
  std::snprintf(text, sizeof text, "%.*s must lie between %g and %g %.*s, but is %g",
                static_cast<int>(parameter.name.size()), parameter.name.data(), parameter.above, parameter.below,
                static_cast<int>(parameter.unit.size()), parameter.unit.data(), value);
  return text;
}

/// First range error of a law's own parameters, or empty.
template <class Law>
[[nodiscard]] std::string range_error(const Law& law) {
  for (const auto& parameter : Law::parameters) {
    if (auto error = range_error(parameter, law.*parameter.member); !error.empty()) return error;
  }
  return {};
}

}  // namespace hoofload::materials
