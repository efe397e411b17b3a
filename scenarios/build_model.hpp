// Case -> BuiltModel, one builder per model. Both throw std::invalid_argument with a plain sentence when the measurements
// cannot make the model.
#pragma once

#include "materials/catalogue.hpp"
#include "scenarios/built_model.hpp"

namespace hoofload::scenarios {

/// c_b of Eq. (34): plane-strip theory gives 120 (hinged) to 720 (clamped); load 1 of the foot in three dimensions 1049
/// (docs/three-dimensional.md), rounded.
inline constexpr double kWhiteLineConstant = 1050;

/// Axisymmetric model: vertical load only. `density` multiplies the mesh divisions.
[[nodiscard]] BuiltModel build_axisymmetric(const Case& run, const materials::Catalogue& catalogue, double density);

/// Sagittal model: 2D core with breadth in a 3D capsule. `white_line_constant` is c_b of Eq. (34); nobody but the study that
/// measures it against three dimensions gives another than the default.
[[nodiscard]] BuiltModel build_sagittal(const Case& run, const materials::Catalogue& catalogue, double density,
                                        double white_line_constant = kWhiteLineConstant);

}  // namespace hoofload::scenarios
