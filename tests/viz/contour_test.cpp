#include "viz/contour.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "tests/viz/mock_section.hpp"

namespace hoofload::viz {
namespace {

std::vector<double> values_of(const mesh::PlaneMesh& mesh, const std::function<double(const Vec2&)>& f) {
  std::vector<double> v;
  for (const Vec2& X : mesh.X) v.push_back(f(X));
  return v;
}

TEST(Contour, outline_of_a_plate_with_a_hole_has_two_loops_and_its_area) {
  const auto mesh = tests::plate_with_hole();
  const auto loops = outline(mesh.X, triangles_of(mesh, {"plate"}));
  EXPECT_EQ(loops.size(), 2U);
  EXPECT_NEAR(area(loops), 38, 1e-12);  // 10 x 4 less 2 x 1
}

// Exact for a linear field: the part of the plate beyond x = c has area 4 (10 - c) less what the hole takes of it.
TEST(Contour, a_linear_field_is_cut_exactly) {
  const auto mesh = tests::plate_with_hole();
  const auto triangles = triangles_of(mesh, {"plate"});
  const auto x = values_of(mesh, [](const Vec2& X) { return X.x(); });
  for (const double c : {0.0, 0.13, 3.9, 4.0, 4.77, 6.0, 9.99}) {
    const double hole = std::min(2.0, std::max(0.0, 6 - c));
    EXPECT_NEAR(area(region_above(mesh.X, triangles, x, c)), 4 * (10 - c) - hole, 1e-11) << c;
  }
}

// Bands are nested differences, so with the lowest level under the field their areas must sum to the plate.
TEST(Contour, band_areas_sum_to_the_mesh_area) {
  const auto mesh = tests::plate_with_hole();
  const auto triangles = triangles_of(mesh, {"plate"});
  const auto f = values_of(mesh, [](const Vec2& X) { return std::sin(1.7 * X.x()) + std::cos(2 * X.y()); });
  double sum = 0, above = area(region_above(mesh.X, triangles, f, -2.5));
  for (double level = -2; level < 2.6; level += 0.25) {
    const double next = area(region_above(mesh.X, triangles, f, level));
    EXPECT_GE(above - next, -1e-12);
    sum += above - next;
    above = next;
  }
  EXPECT_NEAR(sum, 38, 1e-11);
}

// A disc x^2 + y^2 <= r^2 by its field on linear sub-triangles: the error falls with h^2 (from memory: interpolation).
TEST(Contour, a_round_contour_converges_at_order_2) {
  double error[2];
  for (int k = 0; k < 2; ++k) {
    mesh::PlaneMesh mesh;
    const int n = 8 << k;
    tests::add_patch(mesh, "square", n, n, [](double s, double t) { return Vec2(2 * s - 1, 2 * t - 1); });
    const auto f = values_of(mesh, [](const Vec2& X) { return -X.squaredNorm(); });
    error[k] = std::abs(area(region_above(mesh.X, triangles_of(mesh, {"square"}), f, -0.49)) - 0.49 * M_PI);
  }
  EXPECT_NEAR(std::log2(error[0] / error[1]), 2, 0.5);
}

TEST(Contour, loops_are_closed_without_seams_where_nodes_lie_on_the_level) {
  const auto mesh = tests::plate_with_hole();
  const auto f = values_of(mesh, [](const Vec2& X) { return std::round(X.x()); });
  const auto loops = region_above(mesh.X, triangles_of(mesh, {"plate"}), f, 7.0);
  ASSERT_EQ(loops.size(), 1U);
  double length = 0;
  for (std::size_t k = 0; k < loops[0].size(); ++k)
    length += (loops[0][k] - loops[0][(k + 1) % loops[0].size()]).norm();
  const double width = area(loops) / 4;  // the region is a rectangle at the right end
  EXPECT_NEAR(length, 2 * (4 + width), 1e-9);
}

TEST(Contour, the_same_triangles_in_two_blocks_count_once) {
  auto mesh = tests::plate_with_hole();
  mesh.blocks.push_back(mesh.blocks.front());
  mesh.blocks.back().region = "second breadth";
  EXPECT_NEAR(area(outline(mesh.X, triangles_of(mesh, {"plate", "second breadth"}))), 38, 1e-12);
}

TEST(Contour, a_value_that_is_missing_or_not_finite_is_refused) {
  const auto mesh = tests::plate_with_hole();
  const auto triangles = triangles_of(mesh, {"plate"});
  std::vector<double> f(mesh.X.size(), 1.0);
  f[5] = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW((void)region_above(mesh.X, triangles, f, 0.5), std::invalid_argument);
  EXPECT_THROW((void)region_above(mesh.X, triangles, {1.0, 2.0}, 0.5), std::invalid_argument);
}

}  // namespace
}  // namespace hoofload::viz
