// Filled contours over six-node triangles by marching triangles: each is split in four linear ones, each of those cut
// at the level, and the pieces' inner edges cancelled, so that a level becomes closed loops without seams.
// Limit: inside a sub-triangle the field is taken as linear.
#pragma once

#include <Eigen/Core>
#include <array>
#include <string>
#include <vector>

#include "mesh/plane_mesh.hpp"

namespace hoofload::viz {

using mesh::Vec2;
using Loop = std::vector<Vec2>;  ///< closed; body on the left
using Triangles = std::vector<std::array<int, 6>>;

/// Triangles of the blocks with these region names, in block order. Two blocks may hold the very same triangles (one
/// sheet of two breadths): such a triangle is listed once.
[[nodiscard]] Triangles triangles_of(const mesh::PlaneMesh& mesh, const std::vector<std::string>& regions);

/// The part of the body where value >= level. x and value: per node [mm, any unit].
/// Throws std::invalid_argument if a used node has no value or one that is not finite.
[[nodiscard]] std::vector<Loop> region_above(const std::vector<Vec2>& x, const Triangles& triangles,
                                             const std::vector<double>& value, double level);

/// Outer and inner boundaries of the body.
[[nodiscard]] std::vector<Loop> outline(const std::vector<Vec2>& x, const Triangles& triangles);

/// Enclosed area, holes subtracted [mm^2].
[[nodiscard]] double area(const std::vector<Loop>& loops);

}  // namespace hoofload::viz
