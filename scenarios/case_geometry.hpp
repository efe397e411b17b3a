// Geometry that no single value and no simple rule shows: whether the meshes' outlines can be drawn at all.
#pragma once

#include <vector>

#include "scenarios/case_checks.hpp"

namespace hoofload::scenarios {

/// What the outlines of the models asked for say against the measurements of a run, each once. Cheap: nothing is meshed.
[[nodiscard]] std::vector<Clash> undrawable(const Case& c);

}  // namespace hoofload::scenarios
