// A comparison as one long table for spreadsheets and statistics: one row a run, phase, model and quantity.
#pragma once

#include <string>
#include <vector>

#include "scenarios/comparison.hpp"

namespace hoofload::scenarios {

/// RFC 4180 with a dot as decimal sign; the lines above the header begin with "#": title, provenance, cautions,
/// warnings. A text
/// that a spreadsheet would take for a formula gets an apostrophe in front.
[[nodiscard]] std::string result_csv(const std::vector<RunResult>& results, const Comparison& comparison,
                                     const std::vector<std::string>& warnings);

}  // namespace hoofload::scenarios
