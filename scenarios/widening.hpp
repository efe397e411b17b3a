// Which uncertainty widens a change most: what to measure again first.
#pragma once

#include "scenarios/study.hpp"

namespace hoofload::scenarios {

/// Share of the variance of y that would go if the input behind u were known, from plain draws, Eq. (108); never
/// below 0. u: between 0 and 1, as long as y.
[[nodiscard]] double share_of_variance(const std::vector<double>& u, const std::vector<double>& y);

/// What chance alone hardly ever gives so many draws: four standard deviations of Eq. (108) without any effect.
[[nodiscard]] double share_by_chance(std::size_t draws);

/// Puts into each difference that has an interval the uncertainty with the largest share, if chance cannot explain it.
void add_widening(const SampledStudy& study, const std::vector<RunResult>& results, Comparison& comparison);

/// The uncertainties with the largest mean share over the shown changes that move: all, and those that one can
/// measure on a foot and its shoe. Empty without draws.
[[nodiscard]] std::string widening_text(const SampledStudy& study, const std::vector<RunResult>& results,
                                        const Comparison& comparison);

}  // namespace hoofload::scenarios
