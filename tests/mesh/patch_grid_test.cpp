// Grids of patches: shared nodes, areas, grading and alternating diagonals.
#include "mesh/patch_grid.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

namespace {

using namespace hoofload::mesh;

const PatchGrid& sample() {
  static const PatchGrid grid{{{5, 0.5}, {1, 1}, {4, 2}}, {{1, 1}, {7, 1.7}}, {{2, 1}, {0, 0}, {1, 0}, {1, 1}}};
  return grid;
}

double area_of(const PatchMesh& mesh, const std::array<int, 6>& tri) {
  const auto at = [&](std::size_t k) { return mesh.q[static_cast<std::size_t>(tri[k])]; };
  const Vec2 a = at(1) - at(0), b = at(2) - at(0);
  return 0.5 * (a.x() * b.y() - a.y() * b.x());
}

// Geometry: a patch is a unit square; corners run counter-clockwise and mid-side nodes halve their sides (mesh::Block).
TEST(PatchGrid, triangles_of_a_patch_fill_its_unit_square) {
  const PatchMesh mesh = mesh_patches(sample());
  ASSERT_EQ(mesh.tri.size(), 4u);
  for (const auto& patch : mesh.tri) {
    double area = 0;
    for (const auto& tri : patch) {
      EXPECT_GT(area_of(mesh, tri), 0);
      area += area_of(mesh, tri);
      for (std::size_t k = 0; k < 3; ++k) {
        const auto at = [&](std::size_t i) { return mesh.q[static_cast<std::size_t>(tri[i])]; };
        EXPECT_LT((at(3 + k) - 0.5 * (at(k) + at((k + 1) % 3))).norm(), 1e-14);
      }
    }
    EXPECT_NEAR(area, 1, 1e-13);
  }
}

// Geometry: two patches that touch share the nodes of their line, so no two nodes have one place.
TEST(PatchGrid, patches_that_touch_share_their_nodes) {
  const PatchMesh mesh = mesh_patches(sample());
  std::set<std::pair<double, double>> places;
  for (const Vec2& q : mesh.q) EXPECT_TRUE(places.insert({q.x(), q.y()}).second) << q.transpose();
  // Patches (0,0), (1,0), (1,1), (2,1) of 5 + 1 + 4 columns and 1 + 7 rows: 11 x 3 + 3 x 3 + 3 x 15 + 9 x 15 less the
  // shared lines of 3, 3 and 15 nodes; Euler's count by hand.
  EXPECT_EQ(mesh.q.size(), 11u * 3 + 3 * 3 + 3 * 15 + 9 * 15 - 3 - 3 - 15);
}

// Definition of a geometric progression: the last step is `ratio` times the first.
TEST(PatchGrid, last_step_is_ratio_times_the_first) {
  const PatchMesh mesh = mesh_patches({{{5, 0.5}}, {{1, 1}}, {{0, 0}}});
  std::set<double> x;
  for (const auto& tri : mesh.tri.front())
    for (std::size_t k = 0; k < 3; ++k) x.insert(mesh.q[static_cast<std::size_t>(tri[k])].x());
  const std::vector<double> at(x.begin(), x.end());
  ASSERT_EQ(at.size(), 6u);
  EXPECT_NEAR((at[5] - at[4]) / (at[1] - at[0]), 0.5, 1e-13);
  EXPECT_NEAR((at[2] - at[1]) / (at[1] - at[0]), std::pow(0.5, 0.25), 1e-13);
}

// Symmetry: as many diagonals fall as rise, or the mesh would be stiffer to shear one way (common practice, no source).
TEST(PatchGrid, diagonals_alternate) {
  const PatchMesh mesh = mesh_patches({{{6, 1}}, {{4, 1}}, {{0, 0}}});
  int rising = 0, falling = 0;
  for (const auto& tri : mesh.tri.front())
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec2 d = mesh.q[static_cast<std::size_t>(tri[(k + 1) % 3])] - mesh.q[static_cast<std::size_t>(tri[k])];
      if (d.x() * d.y() > 1e-12) ++rising;
      if (d.x() * d.y() < -1e-12) ++falling;
    }
  EXPECT_EQ(rising, falling);
  EXPECT_EQ(rising + falling, 2 * 6 * 4);
}

}  // namespace
