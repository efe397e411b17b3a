// Nodal contact forces of a chain of quadratic edges as pressure: gathered on linear hats, Eq. (44), and as patch means,
// Eq. (70). Corner and mid-side forces of a quadratic edge stand as 1 : 4 : 1 under uniform pressure, so a nodal force
// over a nodal area is no pressure; the hats keep the resultant and are smooth.
//
// On the axis a quadratic corner has no area of its own; its hat has, so the corner is read like any other (it should be
// left out of the contact set). A chain end that another chain continues takes the whole force of the shared node: join
// the chains first.
#pragma once

#include <vector>

#include "mesh/plane_mesh.hpp"
#include "solver/kinematics.hpp"

namespace hoofload::solver {

/// Pressure along a chain, piecewise linear between its corners. Edge e runs from corner `first[e]` to `first[e] + 1`.
struct PressureProfile {
  std::vector<int> node;                       ///< corner nodes, in order
  std::vector<double> s;                       ///< arc length from the chain's start [mm]
  std::vector<double> pressure;                ///< [MPa], compression positive
  std::vector<double> weight;                  ///< integral of the corner's hat [mm^2]
  std::vector<int> first;                      ///< per edge: its first corner
  std::vector<std::array<double, 3>> measure;  ///< per edge: breadth or full circle at its ends and middle [mm]
  bool starts_on_axis = false;
};

/// Integral of N_a m ds of the nodes a, b, mid of one edge [mm^2].
[[nodiscard]] std::array<double, 3> edge_weights(const std::vector<Vec2>& X, const mesh::Edge& edge,
                                                 const std::array<double, 3>& breadth, Symmetry symmetry);

/// Gathers forces [N] (indexed by plane node, compression positive) on the hats of a chain. `X` are the places that
/// give lengths and radii: reference places for pressure per reference area, deformed ones for true pressure.
[[nodiscard]] PressureProfile pressure_profile(const std::vector<Vec2>& X, const mesh::EdgeSet& chain,
                                               Symmetry symmetry, const std::vector<double>& force);

/// Mean of the pressure over [centre - width/2, centre + width/2], weighted with area and cut at the chain's ends [MPa].
[[nodiscard]] double patch_mean(const PressureProfile& profile, double centre, double width);

struct PatchPeak {
  double mean = 0;    ///< [MPa]
  double centre = 0;  ///< arc length [mm]
};
/// The largest patch mean. The patch stays inside the chain, except on the axis, where it is the disc it sweeps; a chain
/// shorter than the patch is one patch.
[[nodiscard]] PatchPeak peak_patch_mean(const PressureProfile& profile, double width);

/// Resultant [N] and loaded area [mm^2]: the hats that carry more than `threshold` [MPa], Eq. (75).
[[nodiscard]] double resultant(const PressureProfile& profile);
[[nodiscard]] double loaded_area(const PressureProfile& profile, double threshold);

}  // namespace hoofload::solver
