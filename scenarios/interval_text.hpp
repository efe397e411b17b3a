// Paired changes with their intervals as a table of text, apart from the mesh's bars.
#pragma once

#include "scenarios/comparison.hpp"

#include <string>

namespace hoofload::scenarios {

/// For each phase and model the headline quantities, a line an option: change, 5, 50 and 95 % over the draws,
/// P(better) and "not distinguishable" where the interval holds zero or the mesh's bar is larger. Empty without
/// draws.
[[nodiscard]] std::string interval_text(const std::vector<RunResult>& results, const Comparison& comparison);

/// Where the draws speak, and which of two reasons makes a change not distinguishable; empty if there is nothing to say.
/// Precondition: the difference has an interval.
[[nodiscard]] std::string interval_remark(const Difference& difference);

/// The same for a reader who asks of each change: "distinguishable" stands there too.
[[nodiscard]] std::string interval_verdict(const Difference& difference);

/// False where neither the change nor its interval moves from zero. Same precondition.
[[nodiscard]] bool moves(const Difference& difference);

/// The same as a Markdown table of all quantities.
[[nodiscard]] std::string interval_markdown(const std::vector<RunResult>& results, const Comparison& comparison);

}  // namespace hoofload::scenarios
