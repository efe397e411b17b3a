// What `hoofload derivatives` does: slopes of a case's quantities at its own values.
#pragma once

#include "scenarios/commands.hpp"
#include "scenarios/derivatives.hpp"
#include "scenarios/sweep_columns.hpp"

namespace hoofload::scenarios {

struct DerivativesRequest {
  std::string case_file;
  std::vector<Case> runs;       ///< baseline first, never empty
  std::vector<std::string> by;  ///< keys; empty: every uncertainty of the case
  ColumnChoice choice;          ///< of option, model, phase, quantity
  bool json = false;
  bool quiet = false;
};

/// Prints slopes to stdout, progress to stderr. 0; 2: a key, option, phase, model or quantity that is not there; 4: some phase
/// was not solved.
[[nodiscard]] int derivatives_command(const DerivativesRequest& request);

/// For people: per quantity the inputs that move it most, or all of them if one quantity is asked for.
[[nodiscard]] std::string slopes_text(const std::vector<RunSlopes>& runs, const std::vector<SlopeInput>& inputs,
                                      const ColumnChoice& choice);

/// What a slope is of by what: "kPa per mm", "kPa per 1 % of the value".
[[nodiscard]] std::string slope_unit(std::string_view quantity_unit, const SlopeInput& input);

}  // namespace hoofload::scenarios
