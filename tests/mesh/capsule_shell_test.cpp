#include "mesh/capsule_shell.hpp"

#include <gtest/gtest.h>
#include <Eigen/Geometry>
#include <Eigen/LU>

#include <cmath>
#include <random>
#include <stdexcept>

namespace {

using namespace hoofload::mesh;

double volume(const SpaceMesh& m, const std::array<int, 20>& hex) {
  Eigen::Matrix<double, 3, 20> X;
  for (int a = 0; a < 20; ++a) X.col(a) = m.X[hex[a]];
  double sum = 0;
  for (const auto& p : gauss_cube<3>()) sum += p.weight * (X * Hex20::dN(p.xi, p.eta, p.zeta)).determinant();
  return sum;
}

TEST(BrickShapes, are_one_at_their_node_and_sum_to_one) {
  for (int a = 0; a < 20; ++a) {
    const auto& r = Hex20::places[a];
    const auto N = Hex20::N(r[0], r[1], r[2]);
    for (int b = 0; b < 20; ++b) EXPECT_NEAR(N[b], a == b ? 1 : 0, 1e-14);
  }
  for (int a = 0; a < 8; ++a) {
    const auto N = Quad8::N(Quad8::places[a][0], Quad8::places[a][1]);
    for (int b = 0; b < 8; ++b) EXPECT_NEAR(N[b], a == b ? 1 : 0, 1e-14);
  }
  EXPECT_NEAR(Hex20::N(0.3, -0.7, 0.2).sum(), 1, 1e-14);
  EXPECT_NEAR(Hex20::dN(0.3, -0.7, 0.2).colwise().sum().norm(), 0, 1e-14);
  EXPECT_NEAR(Quad8::N(0.3, -0.7).sum(), 1, 1e-14);
}

TEST(BrickShapes, gradients_are_the_derivatives) {
  const double h = 1e-5;
  const Eigen::Vector3d r(0.31, -0.62, 0.17);
  const auto g = Hex20::dN(r[0], r[1], r[2]);
  for (int d = 0; d < 3; ++d) {
    Eigen::Vector3d p = r, m = r;
    p[d] += h;
    m[d] -= h;
    EXPECT_LT(((Hex20::N(p[0], p[1], p[2]) - Hex20::N(m[0], m[1], m[2])) / (2 * h) - g.col(d)).norm(), 1e-9);
  }
  const auto q = Quad8::dN(0.31, -0.62);
  EXPECT_LT(((Quad8::N(0.31 + h, -0.62) - Quad8::N(0.31 - h, -0.62)) / (2 * h) - q.col(0)).norm(), 1e-9);
  EXPECT_LT(((Quad8::N(0.31, -0.62 + h) - Quad8::N(0.31, -0.62 - h)) / (2 * h) - q.col(1)).norm(), 1e-9);
}

TEST(BrickShapes, rules_integrate_polynomials_of_their_degree) {
  // Gauss-Legendre: n points, degree 2n - 1 in each direction.
  double two = 0, three = 0;
  for (const auto& p : gauss_cube<2>()) two += p.weight * p.xi * p.xi * (1 + p.eta * p.eta * p.eta) * p.zeta * p.zeta;
  for (const auto& p : gauss_square<3>()) three += p.weight * std::pow(p.xi, 4) * (p.eta * p.eta + p.eta);
  EXPECT_NEAR(two, 8.0 / 9, 1e-14);
  EXPECT_NEAR(three, 4.0 / 15, 1e-14);
}

TEST(CapsuleShell, every_face_of_every_brick_points_outwards) {
  const CapsuleShell s = capsule_shell(Foot{});
  for (const auto& hex : s.mesh.hex) {
    std::vector<Face> faces;
    for (const auto& local : Hex20::faces) {
      Face face;
      for (int a = 0; a < 8; ++a) face[a] = hex[local[a]];
      faces.push_back(face);
    }
    double flux = 0;  // divergence theorem: the flux of x / 3 is the volume
    for (const auto& p : face_quadrature(s.mesh, faces)) flux += p.area * p.at.X.dot(p.normal) / 3;
    const double v = volume(s.mesh, hex);
    EXPECT_GT(v, 0);
    EXPECT_NEAR(flux, v, 2e-4 * v);  // |n| dA is a square root, but n dA itself is a polynomial
  }
}

TEST(CapsuleShell, has_the_size_that_the_design_asks_for) {
  const CapsuleShell s = capsule_shell(Foot{});
  EXPECT_EQ(s.mesh.hex.size(), 66u);
  EXPECT_LT(3 * s.mesh.X.size(), 2000u);
  EXPECT_EQ(s.fibre.size(), s.mesh.hex.size());
  EXPECT_EQ(s.mesh.hex_region.size(), s.mesh.hex.size());
  EXPECT_GT(s.min_jacobian, 1);
}

TEST(CapsuleShell, sets_lie_where_their_names_say) {
  const CapsuleShell s = capsule_shell(Foot{});
  for (const int i : s.mesh.nodes.at("symmetry")) EXPECT_EQ(s.mesh.X[i].z(), 0);
  for (const int i : s.mesh.nodes.at("bearing")) EXPECT_EQ(s.mesh.X[i].y(), 0);
  double down = 0;
  for (const auto& p : face_quadrature(s.mesh, s.mesh.faces.at("bearing"))) {
    EXPECT_NEAR(p.normal.y(), -1, 1e-12);
    down += p.area;
  }
  // Half of the plan outline's ring; quadratic edges miss its curved rims by 0.4 % at this division.
  EXPECT_NEAR(2 * down, wall_ring_area(s.outline), 0.006 * wall_ring_area(s.outline));
  for (const auto& p : face_quadrature(s.mesh, s.mesh.faces.at("outer")))
    EXPECT_GT(p.normal.dot(Vec3(1, 0, 0.5)), -0.3);
  for (const auto& p : face_quadrature(s.mesh, s.mesh.faces.at("coronet"))) EXPECT_GT(p.normal.y(), 0.5);
}

TEST(CapsuleShell, lamellae_have_the_area_of_the_3d_reference) {
  const auto half = lamella_areas(capsule_shell(Foot{}));
  // Source: the project's 3D reference capsule (docs/capsule.md): 8103 mm^2, toe 3752. Its thickness function and the corner
  // at the widest point are not recorded: 3 % is what remains of that in the sum and at the toe.
  EXPECT_NEAR(2 * (half[0] + half[1] + half[2]), 8103, 0.03 * 8103);
  EXPECT_NEAR(2 * half[0], 3752, 0.03 * 3752);
}

TEST(CapsuleShell, lamellar_normals_point_from_the_bone_to_the_wall) {
  for (const auto& p : capsule_shell(Foot{}).lamella) {
    EXPECT_NEAR(p.normal.norm(), 1, 1e-12);
    EXPECT_GT(p.normal.dot(Vec3(1, 0, 1)), 0);
    EXPECT_GT(p.area, 0);
    EXPECT_NEAR(p.at.shape.sum(), 1, 1e-12);
    EXPECT_GE(p.at.X.y(), 14 - 1e-9);
  }
}

TEST(CapsuleShell, rear_end_of_the_lamellae_acts_smoothly) {
  const auto area = [](double end) {
    LamellaExtent e;
    e.end_x = end;
    const auto a = lamella_areas(capsule_shell(plan_outline(Foot{}), e));
    return a[0] + a[1] + a[2];
  };
  // Crossing brick edges on the way: area falls steadily and its slope (the height cut, 10 to 40 mm) never jumps.
  const double h = 0.25;
  double last_slope = (area(-118) - area(-118 + h)) / h;
  for (double end = -118 + h; end < -90; end += h) {
    const double slope = (area(end) - area(end + h)) / h;
    EXPECT_GT(slope, 10);
    EXPECT_LT(slope, 40);
    EXPECT_NEAR(slope, last_slope, 1.0) << end;
    last_slope = slope;
  }
}

TEST(CapsuleShell, inner_surface_point_is_found_where_it_is_seen_from_the_side) {
  const CapsuleShell s = capsule_shell(Foot{});
  for (const double y : {3.0, 10.0, 20.0})
    for (double x = -48; x > -126; x -= 5.5) {
      const FacePoint p = inner_surface_point(s, x, y);
      EXPECT_NEAR(p.X.x(), x, 1e-6);
      EXPECT_NEAR(p.X.y(), y, 1e-6);
      EXPECT_NEAR(p.X.z(), inner_half_width(s.outline, x, y), 0.25);  // the brick cuts the rounded corner
      Vec3 from_nodes = Vec3::Zero();
      for (int a = 0; a < 8; ++a) from_nodes += p.shape[a] * s.mesh.X[p.nodes[a]];
      EXPECT_LT((from_nodes - p.X).norm(), 1e-9);
    }
  const FacePoint toe = inner_surface_point(s, 0, 5);
  EXPECT_NEAR(toe.X.z(), 0, 1e-6);
  EXPECT_NEAR(toe.X.y(), 5, 1e-6);
}

TEST(CapsuleShell, gauges_lie_on_the_outer_wall) {
  const CapsuleShell s = capsule_shell(Foot{});
  const GaugePoint dorsal = outer_surface_point(s, 0, 30);
  EXPECT_LT((dorsal.X - wall_point(s.outline, 0, 30)).norm(), 1e-6);
  EXPECT_NEAR(std::atan2(dorsal.direction.y(), -dorsal.direction.x()), s.outline.toe_angle, 1e-12);
  const GaugePoint quarter = outer_surface_point(s, 1, 20);
  EXPECT_LT((quarter.X - wall_point(s.outline, 1, 20)).norm(), 1e-6);
  EXPECT_THROW((void)outer_surface_point(s, 0, 90), std::invalid_argument);
  EXPECT_THROW((void)outer_surface_point(s, 2.1, 5), std::invalid_argument);
}

TEST(CapsuleShell, no_brick_folds_over_the_range_of_feet) {
  std::mt19937 random(7);
  const auto between = [&](double lo, double hi) { return lo + (hi - lo) * (random() / 4294967296.0); };
  for (int k = 0; k < 60; ++k) {
    Foot f;
    f.toe_angle = between(42, 58) * degree;
    f.heel_angle = between(32, 58) * degree;
    f.toe_length = between(75, 100);
    f.heel_length = between(32, 48);
    f.bearing_length = between(110, 145);
    f.bearing_width = between(105, 145);
    f.wall_thickness_toe = between(7, 13);
    f.wall_thickness_quarter = between(6, 11);
    f.wall_thickness_heel = between(4, 8);
    f.lamella_thickness = between(2.5, 3.5);
    EXPECT_GT(capsule_shell(f).min_jacobian, 0.5) << k;
  }
}

TEST(CapsuleShell, refuses_what_cannot_be_meshed) {
  const PlanOutline o = plan_outline(Foot{});
  PlanOutline thick = o;
  thick.thickness_quarter = 60;
  EXPECT_THROW((void)capsule_shell(thick, LamellaExtent{}), std::runtime_error);
  LamellaExtent none;
  none.bottom = 40;
  EXPECT_THROW((void)capsule_shell(o, none), std::runtime_error);
  ShellDivisions empty;
  empty.lamellar = 0;
  EXPECT_THROW((void)capsule_shell(o, LamellaExtent{}, empty), std::runtime_error);
}

}  // namespace
