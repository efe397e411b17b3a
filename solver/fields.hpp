// Cauchy stress of the solid blocks, for pictures and field files: means of elements, and their averages at nodes.
#pragma once

#include <string>
#include <vector>

#include "solver/system.hpp"

namespace hoofload::solver {

/// Volume mean of sigma = P F^T / J over each element of one block [MPa], in element order. A mixed element's pressure field
/// is part of it.
[[nodiscard]] std::vector<Mat3> element_stresses(const System& system, const State& state, const SolidBlock& block);

/// At each plane node the volume-weighted average of the element means of the named regions around it; zero elsewhere [MPa].
/// Limit: a surface node takes the mean of the elements behind it, half an element inside.
[[nodiscard]] std::vector<Mat3> nodal_stresses(const System& system, const State& state,
                                               const std::vector<std::string>& regions);

/// Pressure -tr(sigma)/3 and von Mises stress [MPa].
[[nodiscard]] double pressure_of(const Mat3& sigma);
[[nodiscard]] double von_mises(const Mat3& sigma);

}  // namespace hoofload::solver
