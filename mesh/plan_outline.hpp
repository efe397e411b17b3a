// The capsule's outer surface from the bearing outline: half an ellipse (toe to widest point) and a straight, slightly
// narrowing branch (widest point to heel buttress; the corner between the two is rounded, so the outline is C1), carried
// up to the coronet by generators that lean back and in.
//
//   bearing:    t in [0, 1]  x = -a (1 - cos phi), z = (W/2) sin phi, phi = t pi/2;   t in [1, 2]  branch to the heel
//   at height y:  x = x_b - y / tan(angle(x_b)),  z = z_b (1 - lean y),  angle linear in x_b from toe_angle to heel_angle
//
// Half foot (z >= 0); the other half is its mirror image. Lengths in mm, angles in rad. Limits: left-right symmetric,
// flat bearing plane, straight generators (no flare, no dish).
#pragma once

#include "mesh/foot.hpp"

#include <Eigen/Core>

namespace hoofload::mesh {

struct PlanOutline {
  double quarter_x;   ///< x of the widest point (< 0): a = -quarter_x
  double half_width;  ///< at the widest point
  double heel_x;      ///< x of the heel buttress
  double heel_half_width;
  double toe_angle, heel_angle;
  Eigen::Vector2d coronet_toe, coronet_heel;  ///< ends of the straight coronet line in the side view
  double lean;  ///< inward lean of the generators: z shrinks by this fraction per mm of height [1/mm]
  double thickness_toe, thickness_quarter, thickness_heel;  ///< of the wall, normal to it
};

/// Outline of a foot. Throws std::invalid_argument when lengths, angles or thicknesses cannot make a capsule.
[[nodiscard]] PlanOutline plan_outline(const Foot& foot);

/// Point (x, z) of the bearing outline, t in [0, 2].
[[nodiscard]] Eigen::Vector2d bearing_point(const PlanOutline& o, double t);

/// Point (x, y, z) of the outer surface at parameter t and height y.
[[nodiscard]] Eigen::Vector3d wall_point(const PlanOutline& o, double t, double y);

/// Point inside the outer surface: moved horizontally inwards by depth / sin(local slope), so that `depth` is measured
/// normal to the wall. depth = wall_thickness(o, t) is the wall's inner surface.
[[nodiscard]] Eigen::Vector3d inside_point(const PlanOutline& o, double t, double y, double depth);

/// Height at which the generator of t meets the coronet line lowered by moving it `forward` mm along +x (0: the coronet).
[[nodiscard]] double coronet_height(const PlanOutline& o, double t, double forward = 0);

/// Thickness of the wall normal to it; C1 in t between toe, quarter and heel values.
[[nodiscard]] double wall_thickness(const PlanOutline& o, double t);

/// Half-breadth of the outer surface at height y: 0 ahead of the toe; behind the last generator its end value (open).
[[nodiscard]] double outer_half_width(const PlanOutline& o, double x, double y = 0);

/// Half-breadth inside the wall plus a further `depth` normal to it: 0 ahead of the inner toe.
[[nodiscard]] double inner_half_width(const PlanOutline& o, double x, double y = 0, double depth = 0);

/// Half-breadth of the bearing outline's parallel curve at the plane distance `offset` inside it (a shoe's web).
[[nodiscard]] double parallel_half_width(const PlanOutline& o, double x, double offset);

/// Foremost x of the inner surface (wall thickness + depth) at height y.
[[nodiscard]] double inner_toe_x(const PlanOutline& o, double y = 0, double depth = 0);

/// Length of the half outline from the toe to t, at the bearing plane [mm]; and its inverse.
[[nodiscard]] double arc_length(const PlanOutline& o, double t);
[[nodiscard]] double parameter_at_arc(const PlanOutline& o, double s);

/// Areas at the bearing plane of the whole foot [mm^2]: inside the outer outline, inside the wall's inner outline (both
/// closed by a line across the heels), and the wall's bearing ring = the difference of the two.
[[nodiscard]] double outline_area(const PlanOutline& o);
[[nodiscard]] double inner_area(const PlanOutline& o);
[[nodiscard]] double wall_ring_area(const PlanOutline& o);

}  // namespace hoofload::mesh
