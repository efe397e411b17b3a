// Paired changes with their intervals as a table of text, apart from the mesh's bars.
#pragma once

#include "scenarios/comparison.hpp"

#include <string>

namespace hoofload::scenarios {

/// For each phase and model the headline quantities, a line an option: change, 5, 50 and 95 % over the draws,
/// P(better) and "not distinguishable" where the interval holds zero or the mesh's bar is larger. Empty without
/// draws.
[[nodiscard]] std::string interval_text(const std::vector<RunResult>& results, const Comparison& comparison);

/// The same as a Markdown table of all quantities.
[[nodiscard]] std::string interval_markdown(const std::vector<RunResult>& results, const Comparison& comparison);

}  // namespace hoofload::scenarios
