// The program's own two models at the loads of the 3D reference foot, read as it is read. Linear range: a force of 10 N, scaled.
#pragma once

#include <map>
#include <string>

#include "scenarios/case.hpp"

namespace hoofload::tests {

/// Quantities by the names of tests/reference/foot3d_study.py, for kForce; `ahead`: centre of pressure ahead of the joint [mm].
/// Throws std::runtime_error when the phase is not solved.
[[nodiscard]] std::map<std::string, double> sagittal_at(const scenarios::Case& run, double ahead, double density,
                                                        double white_line_constant);
/// The same of the axisymmetric model (vertical load only).
[[nodiscard]] std::map<std::string, double> axisymmetric_at(const scenarios::Case& run, double density);

}  // namespace hoofload::tests
