// What every report and figure says and no option removes: what the program is, and what it never claims.
#pragma once

#include <string_view>

namespace hoofload::viz {

/// Full text, for reports and pages.
inline constexpr std::string_view caution_text =
    "This is a mechanical model that compares options under stated assumptions. "
    "Decisions rest with the attending veterinarian and farrier and with how the horse goes. "
    "Differences smaller than the interval are not distinguishable. "
    "Lower load in one structure usually means more in another. "
    "Published hoof finite-element models have missed measured wall strain by -84 % to +121 % at single gauges "
    "(Thomason 2002).";

/// Short form, for the foot of a figure.
inline constexpr std::string_view caution_short =
    "Mechanical model: compares options under stated assumptions. Decisions rest with the attending veterinarian and "
    "farrier and with how the horse goes. Differences smaller than the interval are not distinguishable; lower load in "
    "one structure usually means more in another.";

/// What a report is not for.
inline constexpr std::string_view not_for_text =
    "Not for: diagnosis, prognosis, any statement on pain, soundness, healing or blood flow, or the choice of a shoe without "
    "those who see the horse. The model knows no threshold of injury.";

}  // namespace hoofload::viz
