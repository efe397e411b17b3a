// Quarter rings and quarter spherical shells as mapped grids, for tests.
#pragma once

#include <cmath>
#include <numbers>

#include "tests/support/block_mesh.hpp"

namespace hoofload::tests {

/// Polar map: u from radius a to b, v from the x axis to the y axis.
inline std::function<Vec2(double, double)> polar(double a, double b) {
  return [=](double u, double v) {
    const double r = a + (b - a) * u, angle = v * std::numbers::pi / 2;
    return Vec2{r * std::cos(angle), r * std::sin(angle)};
  };
}

/// Cuts what cos and sin leave of zero on the symmetry lines.
inline void snap_to_axes(mesh::PlaneMesh& mesh) {
  for (auto& X : mesh.X)
    for (int c = 0; c < 2; ++c)
      if (std::abs(X[c]) < 1e-12) X[c] = 0;
}

}  // namespace hoofload::tests
