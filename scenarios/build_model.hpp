// Case -> BuiltModel, one builder per model. Both throw std::invalid_argument with a plain sentence when the measurements
// cannot make the model.
#pragma once

#include "materials/catalogue.hpp"
#include "scenarios/built_model.hpp"

namespace hoofload::scenarios {

/// Axisymmetric model: vertical load only. `density` multiplies the mesh divisions.
[[nodiscard]] BuiltModel build_axisymmetric(const Case& run, const materials::Catalogue& catalogue, double density);

/// Sagittal model: 2D core with breadth in a 3D capsule.
[[nodiscard]] BuiltModel build_sagittal(const Case& run, const materials::Catalogue& catalogue, double density);

}  // namespace hoofload::scenarios
