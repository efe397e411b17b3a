// The section that other programs solved: the same geometry, the same size of mesh.
#include <gtest/gtest.h>

#include <numbers>

#include "mesh/peer_section.hpp"
#include "tests/mesh/section_measures.hpp"

namespace hoofload::mesh {
namespace {

constexpr double pi = std::numbers::pi;

TEST(PeerSection, has_the_volumes_of_its_definition) {
  const PlaneMesh m = peer_section(PeerSize::k5, false);
  // interface nodes lie on the parabolas and edges are quadratic, so volumes are exact to rounding
  EXPECT_NEAR(measures::revolved(m, "shoe") / (pi * (63.0 * 63 - 41.0 * 41) * 10), 1, 1e-9);
  const double packing = pi * 41 * 41 * 18 - 2 * pi * 8 / (53.0 * 53) * std::pow(41.0, 4) / 4;
  EXPECT_NEAR(measures::revolved(m, "packing") / packing, 1, 1e-9);
  const double wall = pi * 10 * ((63.0 + 53) * 80 - 0.225 * 80 * 80);
  EXPECT_NEAR(measures::revolved(m, "wall") / wall, 1, 1e-9);
}

TEST(PeerSection, is_as_fine_as_the_mesh_that_the_other_programs_used) {
  // 4868 nodes there (own runs of three programs on one file, Gmsh 4.8.4); 2 % for other versions of Gmsh
  EXPECT_NEAR(static_cast<double>(peer_section(PeerSize::k5, false).X.size()), 4868, 0.02 * 4868);
}

TEST(PeerSection, split_doubles_the_interface_and_nothing_else) {
  const PlaneMesh whole = peer_section(PeerSize::k5, false), split = peer_section(PeerSize::k5, true);
  EXPECT_EQ(split.X.size(), whole.X.size() + split.pairs.at("itf").size());
  EXPECT_EQ(split.pairs.at("itf").size(), nodes_of(whole.edges.at("itf")).size());
  EXPECT_EQ(measures::widest_gap(split, "itf"), 0);
  EXPECT_TRUE(measures::consistent(split));
  EXPECT_GT(smallest_jacobian(split), 0);
  EXPECT_GT(smallest_angle(split), 20 * pi / 180);
}

TEST(PeerSection, edge_sets_lie_where_their_names_say) {
  const PlaneMesh m = peer_section(PeerSize::k5, true);
  const auto all = [&](const char* set, auto test) {
    for (const int id : nodes_of(m.edges.at(set)))
      if (!test(m.X[static_cast<std::size_t>(id)])) return false;
    return !m.edges.at(set).edges.empty();
  };
  EXPECT_TRUE(all("pb", [](const Vec2& x) { return x.y() == 0 && x.x() < 41 + 1e-9; }));
  EXPECT_TRUE(all("sb", [](const Vec2& x) { return x.y() == 0 && x.x() > 41 - 1e-9; }));
  EXPECT_TRUE(all("b_t", [](const Vec2& x) { return std::abs(x.y() - 90) < 1e-9; }));
  EXPECT_TRUE(all("axis", [](const Vec2& x) { return x.x() == 0; }));
  EXPECT_TRUE(all("itf", [](const Vec2& x) { return std::abs(x.y() - 18 + 8 * x.x() * x.x() / (53.0 * 53)) < 1e-12; }));
}

}  // namespace
}  // namespace hoofload::mesh
