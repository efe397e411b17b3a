// What counts as no change at all of any quantity, in that quantity's unit: round-off of a zero is smaller, and no unit of the
// catalogue makes a change of this size worth a word.
#pragma once

namespace hoofload::scenarios {

inline constexpr double kNothing = 1e-6;

}  // namespace hoofload::scenarios
