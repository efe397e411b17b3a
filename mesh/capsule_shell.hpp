// The capsule's wall as a structured half shell of twenty-node bricks along the plan outline: outline x height x thickness,
// from the bearing plane to the coronet, open behind, mirrored at z = 0. Also where the lamellae hang on its inner surface.
//
// Brick axes: xi along the outline (toe to heel), eta up, zeta inwards (outer face -1, inner face +1). Mid-side nodes lie on
// the true surface. Lengths in mm. Every area, weight and face belongs to the half foot (z >= 0): double them for the foot.
#pragma once

#include "mesh/brick_shapes.hpp"
#include "mesh/plan_outline.hpp"
#include "mesh/space_mesh.hpp"

#include <array>
#include <vector>

namespace hoofload::mesh {

/// How far the lamellae reach over the wall's inner surface.
struct LamellaExtent {
  double thickness = 3;    ///< normal to the wall; areas are those of the layer's mid-surface
  double bottom = 14;      ///< height of their lower border
  double top_inside = 10;  ///< their upper border: the coronet line moved this far along +x
  double end_x = -112;     ///< they end behind here (measured on the mid-surface)
};

/// Of a foot: from the height of the sole's upper surface at the wall, thickness and end as measured.
[[nodiscard]] LamellaExtent lamella_extent(const Foot& foot);

/// Numbers of bricks. Rows end at the lamellae's borders, columns at the widest point.
struct ShellDivisions {
  int ellipse = 8;  ///< toe to widest point, equal steps of phi (even: phi = 45 deg is a line)
  int branch = 3;   ///< widest point to heel buttress
  int below = 2;    ///< bearing plane to the lamellae
  int lamellar = 3;
  int above = 1;  ///< lamellae to coronet
  int thickness = 1;
  bool solid_lamella = false;  ///< add a layer of bricks, region "lamella", inside the lamellar rows (for checks)
};

/// A point of an eight-node face: u(X) = sum_a shape_a u(node_a).
struct FacePoint {
  Face nodes;
  Eigen::Matrix<double, 8, 1> shape;
  Vec3 X;
  double t;  ///< outline parameter (plan_outline.hpp)
};

/// A quadrature point of the lamellar layer: `normal` is the unit normal from the bone to the wall, `area` its part of the
/// mid-surface of the half foot.
struct LamellaPoint {
  FacePoint at;
  Vec3 normal;
  double area;
};

/// A point of the outer surface with the unit direction along the wall, upwards, in which a gauge lies.
struct GaugePoint {
  int brick;
  Vec3 xi;
  Vec3 direction;
  Vec3 X;
};

/// Faces: "bearing", "inner", "outer", "coronet", "lamella" (inner faces that carry lamellae) and, with a solid lamella,
/// "bone" (its inner faces). Nodes: "symmetry" (z = 0), "bearing", "bone". Regions: "wall", "lamella".
struct CapsuleShell {
  SpaceMesh mesh;
  PlanOutline outline;
  ShellDivisions divisions;
  LamellaExtent extent;
  std::vector<Vec3> fibre;            ///< unit direction of the horn tubules in each brick: up the generator
  std::vector<LamellaPoint> lamella;  ///< 3 x 3 points a face; the rear end cuts through faces, so it acts smoothly
  double min_jacobian;                ///< least det dX/dxi over all Gauss points and corners [mm^3]
};

/// Throws std::runtime_error with the reason when an element is folded or the lamellae have no height, and what
/// plan_outline throws.
[[nodiscard]] CapsuleShell capsule_shell(const Foot& foot, const ShellDivisions& divisions = {});
[[nodiscard]] CapsuleShell capsule_shell(const PlanOutline& outline, const LamellaExtent& extent,
                                         const ShellDivisions& divisions = {});

/// Height of the lamellae's upper border at t.
[[nodiscard]] double lamella_top(const PlanOutline& outline, const LamellaExtent& extent, double t);

/// Point of the wall's inner surface seen at (x, y) from the side. Where the surface does not reach (ahead of the toe, behind
/// the last generator, above the coronet, below the bearing plane) the nearest point of the same height or generator.
[[nodiscard]] FacePoint inner_surface_point(const CapsuleShell& shell, double x, double y);

/// Point of the outer surface at outline parameter t (0: dorsal midline; 1: widest, quarter) and height y.
/// Throws std::invalid_argument outside [0, 2] x [0, coronet].
[[nodiscard]] GaugePoint outer_surface_point(const CapsuleShell& shell, double t, double y);

/// Quadrature of the bearing face (or any face set): n x n points, with area [mm^2] and outward unit normal.
struct FaceQuadraturePoint {
  FacePoint at;  ///< at.t is not set (-1)
  Vec3 normal;
  double area;
};
[[nodiscard]] std::vector<FaceQuadraturePoint> face_quadrature(const SpaceMesh& mesh, const std::vector<Face>& faces);

/// Least det dX/dxi over Gauss points and corners of all bricks [mm^3]; <= 0 means a folded element.
[[nodiscard]] double smallest_jacobian(const SpaceMesh& mesh);

/// Half foot [mm^2]: lamellae with t < 1/2 (toe), < 1 (quarter), the rest (heel).
[[nodiscard]] std::array<double, 3> lamella_areas(const CapsuleShell& shell);

}  // namespace hoofload::mesh
