// Curves and outlines of the foot's side view (mid-plane), from its measurements. x forward, y up, mm.
//
// The reference foot's landmarks (docs/reference-foot.md) are moved by the measurements: the sole's ground surface scales with
// bearing_length and sole_cup, and is raised or lowered (by half its height at most) under the palmar process toward sole_depth_wing;
// the bone's underside starts sole_depth_tip above it at the tip and follows palmar_angle; the horn is sole_horn thick, but
// gives way where the bone is too low for horn and corium (at least 0.8 of the corium's depth at the tip stays).
#pragma once

#include <vector>

#include "mesh/foot.hpp"
#include "mesh/plane_mesh.hpp"

namespace hoofload::mesh {

/// A curve y(x) through points by monotone cubics (Fritsch and Carlson 1980): C1, no overshoot, straight beyond its ends.
struct Curve {
  std::vector<double> x, y, slope;  ///< x ascending
  [[nodiscard]] double operator()(double at) const;
};

[[nodiscard]] Curve curve_through(std::vector<Vec2> points);

struct SideView {
  double white_line;    ///< x of the sole's front end, at the wall's inner edge
  double sole_end;      ///< x of the sole's rear end
  double tip, process;  ///< x of the bone's tip and of its palmar processes
  double frog_apex, frog_base;
  double horn, corium;  ///< thickness of horn; depth of corium under the bone's tip
  Curve ground, wing;   ///< sole's ground surface without, and the local change under the palmar process
  Curve bone;           ///< the bone's underside between process and tip
  Curve cushion;        ///< top of the digital cushion
  double frog_apex_y, frog_base_y;
};

/// Throws std::invalid_argument naming the measurements when they contradict one another.
[[nodiscard]] SideView side_view(const Foot& foot);

[[nodiscard]] double sole_ground(const SideView& v, double x);  ///< outer face of the sole
[[nodiscard]] double bone_underside(const SideView& v, double x);
[[nodiscard]] double horn_top(const SideView& v, double x);     ///< inner face of the sole's horn
[[nodiscard]] double frog_ground(const SideView& v, double x);  ///< ground face of the frog, below the sole's
[[nodiscard]] double cushion_top(const SideView& v, double x);

/// Closed outlines for pictures, and the positions of nothing that is computed with.
[[nodiscard]] std::vector<Vec2> phalanx_outline(const Foot& foot);
[[nodiscard]] std::vector<Vec2> navicular_outline(const Foot& foot);
[[nodiscard]] std::vector<Vec2> wall_outline(
    const Foot& foot);  ///< silhouette: toe, dorsal coronet, heel coronet, heel

}  // namespace hoofload::mesh
