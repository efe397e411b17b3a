// Events of a stance: where a smooth curve through the steps crosses a threshold.
#pragma once

#include <string_view>

#include "scenarios/stance.hpp"

namespace hoofload::scenarios {

inline constexpr std::string_view kTaut = "tendon taut", kSlack = "tendon slack", kHeelOff = "heel-off",
                                  kWrapEnd = "tendon leaves navicular", kSoleCloses = "sole contact closes",
                                  kSoleOpens = "sole contact opens";

/// Fills `events` from the steps, in the order of their shares.
void add_events(StanceSeries& series);

[[nodiscard]] bool has_event(const StanceSeries& series, std::string_view name);

}  // namespace hoofload::scenarios
