// The foot's own uncertainties: errors of measuring, and the spread of what was not measured.
#pragma once

#include "scenarios/uncertainty.hpp"

namespace hoofload::scenarios {

/// Errors of the measurements that the case gives: landmarks, magnification, beam centring.
[[nodiscard]] Uncertainties measuring_errors(const Case& baseline);

/// Spread over feet of what the case leaves to the reference foot.
[[nodiscard]] Uncertainties unmeasured_foot(const Case& baseline);

/// Loads, body mass, and the setting of nails and toe that nobody measures.
[[nodiscard]] Uncertainties uncertain_loads(const Case& baseline);
[[nodiscard]] Uncertainties uncertain_shoeing(const Case& baseline);

}  // namespace hoofload::scenarios
