// How broad the sole is, in the side view, where something can press on it: an open shoe's filling, a plate or soft ground reach
// only what of it lies in the shoe's opening, so pressures are forces over that breadth, not over the whole sole's.
#pragma once

#include <string>

#include "mesh/breadths.hpp"
#include "mesh/plane_mesh.hpp"
#include "scenarios/case.hpp"

namespace hoofload::scenarios {

/// Share of the breadth of sole and frog at x that lies in the shoe's opening; packing, plate and shoe have their own breadths.
[[nodiscard]] double open_share(const Case& run, const mesh::Breadths& b, const std::string& face, double x);

/// The sole's outer face: over a filling with the filling's breadth, else with what lies in the opening; whole over the web at the
/// toe and behind the shoe.
[[nodiscard]] mesh::EdgeSet pressed_sole(const mesh::PlaneMesh& mesh, const Case& run);

}  // namespace hoofload::scenarios
