// The feet, shoeings and loads of the comparison with three dimensions, as cases of the program.
//
// Both sides take the same Case. To be alike they are linear: lamellae of one modulus (E 6, nu .4), the wall bonded to the shoe
// ("glued"), a steel shoe, the force small. The filling's bulk modulus is 169 MPa in both (nu .498): second-order
// displacement elements carry that, but not the catalogue's 1500.
#pragma once

#include <string>
#include <vector>

#include "scenarios/case.hpp"

namespace hoofload::tests {

inline constexpr double kForce = 2500;  ///< N, of which every reported number is
inline constexpr double kForward = 15;  ///< mm, centre of pressure ahead of the joint in load 2
inline constexpr double kDorsalGauge = 30, kQuarterGauge = 20;
inline constexpr double kWindow = 12;  ///< mm along x, of the pressures

[[nodiscard]] const std::vector<std::string>& foot_names();     ///< the first is the reference foot
[[nodiscard]] const std::vector<std::string>& shoeing_names();  ///< open, open packed, plate packed

/// Throws std::invalid_argument for a name that is not known.
[[nodiscard]] scenarios::Case comparison_case(const std::string& foot, const std::string& shoeing);

}  // namespace hoofload::tests
