// The sagittal section: breadth integrals against plan areas, curves against measurements, and the promises of topology,
// pairs and refusal.
#include <gtest/gtest.h>

#include "mesh/breadths.hpp"
#include "mesh/sagittal_section.hpp"
#include "mesh/side_view.hpp"
#include "tests/mesh/section_measures.hpp"
#include "tests/mesh/section_samples.hpp"

namespace hoofload::mesh {
namespace {

Shoeing packed(ShoeType type = ShoeType::open, PackingRegion region = PackingRegion::full_sole) {
  Shoeing s;
  s.shoe.type = type;
  s.packing.region = region;
  return s;
}

std::string refusal(const Foot& f, const Shoeing& s) {
  try {
    (void)sagittal_section(f, s);
  } catch (const std::invalid_argument& e) {
    return e.what();
  }
  return "";
}

TEST(SideView, reference_foot_passes_through_its_landmarks) {
  // reference foot, design choices: tip (-36, 18), palmar process (-110.8, 23.2), sole 9 high at -85, frog apex (-52, 4)
  const SideView v = side_view(Foot{});
  EXPECT_NEAR(v.bone(v.tip), 18, 1e-9);
  EXPECT_NEAR(v.process, -110.8, 0.05);
  EXPECT_NEAR(v.bone(v.process), 23.2, 0.05);
  EXPECT_NEAR(v.bone(-56), 20.3, 0.05);
  EXPECT_NEAR(v.bone(-76), 23.5, 0.05);
  EXPECT_NEAR(sole_ground(v, -85), 9, 0.01);
  EXPECT_NEAR(frog_ground(v, -52), 4, 0.1);  // rounded where frog and sole part
}

TEST(SideView, depths_and_angle_are_those_measured) {
  Foot f;
  f.sole_depth_tip = 12, f.sole_horn = 8, f.palmar_angle = 6 * degree, f.sole_depth_wing = 20;
  const SideView v = side_view(f);
  EXPECT_NEAR(v.bone(v.tip) - sole_ground(v, v.tip), 12, 1e-9);
  EXPECT_NEAR(horn_top(v, v.tip) - sole_ground(v, v.tip), 8, 0.05);
  EXPECT_NEAR((v.bone(v.process) - v.bone(v.tip)) / (v.tip - v.process), std::tan(f.palmar_angle), 1e-9);
  EXPECT_NEAR(v.bone(v.process) - sole_ground(v, v.process), 20, 1e-9);
}

TEST(SideView, curve_keeps_monotone_points_monotone) {
  const Curve c = curve_through({{0, 0}, {1, 0.1}, {2, 3}, {3, 3.05}, {4, 9}});  // Fritsch and Carlson 1980
  for (double x = 0; x < 4; x += 0.01) EXPECT_GE(c(x + 0.01), c(x));
}

TEST(SagittalSection, breadth_integrals_equal_volumes_from_the_plan) {
  const Foot f;
  const SagittalSection a = sagittal_section(f, packed());
  const Breadths b = breadths(f);
  const SideView v = side_view(f);
  const double front = inner_toe_x(b.outline) - 1;
  const auto horn = [&](double x) { return horn_top(v, x) - sole_ground(v, x); };
  // breadths ~ sqrt at blunt ends and the 1 mm floor at their tips: interpolation over elements of 1 to 2 mm leaves 0.3 %
  const double whole = measures::broad(a.mesh, "sole") + measures::broad(a.mesh, "frog_plate");
  EXPECT_NEAR(whole / measures::along(v.sole_end, front, [&](double x) { return horn(x) * b_sole(b, x); }), 1, 3e-3);
  EXPECT_NEAR(measures::broad(a.mesh, "corium") /
                  measures::along(v.process, v.tip,
                                  [&](double x) { return (bone_underside(v, x) - horn_top(v, x)) * b_corium(b, x); }),
              1, 3e-3);
  const Shoe shoe;
  EXPECT_NEAR(measures::broad(a.mesh, "packing") /
                  measures::along(a.packing_from, a.packing_to,
                                  [&](double x) {
                                    return (10 + sole_ground(v, x)) * (shoe_inner_chord(b, shoe, x) - w_frog(b, x));
                                  }),
              1, 3e-3);
}

TEST(SagittalSection, ground_face_of_the_shoe_has_the_area_of_its_plan) {
  for (const auto type : {ShoeType::open, ShoeType::egg_bar, ShoeType::straight_bar}) {
    Shoeing s;
    s.shoe.type = type, s.shoe.breakover = 0;
    const SagittalSection a = sagittal_section(Foot{}, s);
    const Breadths b = breadths(Foot{});
    const double plan =
        measures::along(a.shoe_end + 1e-9, a.shoe_front, [&](double x) { return shoe_breadth(b, s.shoe, x); });
    EXPECT_NEAR(a.shoe_ground_area / plan, 1, 5e-3);  // as above; a straight bar's edge ramps within two elements
  }
}

TEST(SagittalSection, setback_moves_the_shoe_and_not_the_foot) {
  Shoeing s;
  s.shoe.setback = 6;
  const SagittalSection back = sagittal_section(Foot{}, s), plain = sagittal_section(Foot{}, Shoeing{});
  EXPECT_DOUBLE_EQ(back.shoe_front, plain.shoe_front - 6);
  EXPECT_DOUBLE_EQ(back.breakover, plain.breakover - 6);
  EXPECT_DOUBLE_EQ(back.shoe_end, plain.shoe_end - 6);
  EXPECT_NEAR(measures::broad(back.mesh, "corium") / measures::broad(plain.mesh, "corium"), 1, 2e-3);
}

TEST(SagittalSection, wedge_tilts_the_ground_face_about_the_front_edge) {
  Shoeing s;
  s.shoe.elevation = 6 * degree;
  const SagittalSection a = sagittal_section(Foot{}, s);
  const Vec2& heel = a.mesh.X[static_cast<std::size_t>(a.mesh.edges.at("ground_shoe").edges.front().a)];
  EXPECT_NEAR(heel.y(), -10 - 136 * std::tan(6 * degree), 1e-9);
}

TEST(SagittalSection, final_contact_zone_has_eight_edges_or_more) {
  for (const double density : {0.5, 1.0})
    for (const auto toe : {ToeShape::flat, ToeShape::rolled}) {
      Shoeing s;
      s.shoe.toe = toe;
      const SagittalSection a = sagittal_section(Foot{}, s, density);
      int edges = 0;
      for (const Edge& e : a.mesh.edges.at("ground_shoe").edges)
        edges += a.mesh.X[static_cast<std::size_t>(e.b)].x() > a.breakover - 1e-9;
      EXPECT_GE(edges, 8);
    }
}

TEST(SagittalSection, doubled_lines_coincide_and_ties_share_stations) {
  Shoeing s = packed(ShoeType::full_plate);
  for (const auto pad : {PadType::none, PadType::full, PadType::rim}) {
    s.pad.type = pad;
    const SagittalSection a = sagittal_section(Foot{}, s);
    for (const auto& [name, list] : a.mesh.pairs) {
      EXPECT_FALSE(list.empty()) << name;
      const bool apart = name == "plate_shoe" || name == "pad_plate";
      if (!apart) {
        EXPECT_LT(measures::widest_gap(a.mesh, name), 1e-12) << name;
      }
      for (const NodePair& p : list)
        EXPECT_NEAR(a.mesh.X[static_cast<std::size_t>(p.slave)].x(), a.mesh.X[static_cast<std::size_t>(p.master)].x(),
                    1e-12)
            << name;
    }
    EXPECT_EQ(a.mesh.pairs.at("plate_shoe").size(), nodes_of(a.mesh.edges.at("plate_rim")).size());
    EXPECT_EQ(a.mesh.pairs.at("sole_packing").size(), nodes_of(a.mesh.edges.at("sole_packing")).size());
  }
}

TEST(SagittalSection, shallow_filling_leaves_a_gap_to_the_sole) {
  Shoeing s = packed(ShoeType::full_plate, PackingRegion::frog_rear);
  s.packing.thickness = 5;
  const SagittalSection a = sagittal_section(Foot{}, s);
  for (const NodePair& p : a.mesh.pairs.at("sole_packing"))
    EXPECT_GE(a.mesh.X[static_cast<std::size_t>(p.slave)].y(), -10 + 6);
  EXPECT_GT(measures::widest_gap(a.mesh, "sole_packing"), 5);
}

TEST(SagittalSection, lengths_move_nodes_and_leave_the_connectivity) {
  samples::Dice dice{std::mt19937_64{23}};
  for (const auto type : {ShoeType::bare, ShoeType::open, ShoeType::full_plate, ShoeType::heart_bar}) {
    const auto region = type == ShoeType::bare ? PackingRegion::none : PackingRegion::full_sole;
    const PlaneMesh reference = sagittal_section(Foot{}, packed(type, region)).mesh;
    for (int k = 0; k < 5; ++k) {
      Shoeing s = packed(type, region);
      s.shoe.setback = dice.between(0, 3), s.shoe.thickness = dice.between(8, 12),
      s.shoe.elevation = dice.between(0, 6) * degree;
      Foot f = samples::random_foot(dice);
      f.toe_to_tip = dice.between(34, 38);
      EXPECT_TRUE(measures::same_topology(reference, sagittal_section(f, s).mesh)) << k;
    }
  }
}

TEST(SagittalSection, two_calls_give_the_same_bits) {
  EXPECT_TRUE(measures::same_bits(sagittal_section(Foot{}, packed()).mesh, sagittal_section(Foot{}, packed()).mesh));
}

TEST(SagittalSection, unfolded_and_without_loose_nodes_for_300_feet_and_shoeings) {
  samples::Dice dice{std::mt19937_64{7}};
  for (int k = 0; k < 300; ++k) {
    const Foot f = samples::random_foot(dice);
    const Shoeing s = samples::random_shoeing(dice);
    const SagittalSection a = sagittal_section(f, s, 0.5);
    ASSERT_GT(a.quality.smallest_jacobian, 0) << k;
    ASSERT_TRUE(measures::consistent(a.mesh)) << k;
    for (const Block& block : a.mesh.blocks)
      for (const auto& b : block.breadth)
        for (const double value : b) ASSERT_GE(value, 1) << k << block.region;
  }
}

// A sheet has a breadth everywhere (geometry): a full pad over a bar ends within an element, where the quadratic through the
// nodes' breadths used to dip below zero and made the energy unbounded.
TEST(SagittalSection, breadth_is_positive_inside_every_element) {
  samples::Dice dice{std::mt19937_64(11)};
  for (int i = 0; i < 60; ++i) {
    Shoeing s;
    s.shoe.type =
        std::array{ShoeType::straight_bar, ShoeType::egg_bar, ShoeType::heart_bar}[static_cast<std::size_t>(i % 3)];
    s.pad.type = PadType::full;
    s.shoe.setback = dice.between(0, 9);
    Foot foot;
    foot.bearing_length = dice.between(120, 136);
    foot.bearing_width = foot.bearing_length * dice.between(0.94, 1.02);
    const SagittalSection section = sagittal_section(foot, s, 0.35);
    for (const Block& block : section.mesh.blocks)
      for (const auto& b : block.breadth) EXPECT_GT(smallest_inside(b), 0) << block.region << ", foot " << i;
  }
}

TEST(SagittalSection, impossible_geometry_is_refused_with_its_measurements) {
  Foot deep;
  deep.sole_depth_tip = 45, deep.sole_horn = 35;
  EXPECT_NE(refusal(deep, Shoeing{}).find("sole_depth_tip"), std::string::npos);
  Shoeing longer;
  longer.shoe.heel_extension = 150;
  EXPECT_NE(refusal(Foot{}, longer).find("bearing_length"), std::string::npos);
  Shoeing narrow;
  narrow.shoe.web = 10;
  EXPECT_NE(refusal(Foot{}, narrow).find("web"), std::string::npos);
  Shoeing thick = packed(ShoeType::full_plate);
  thick.shoe.plate_thickness = 14;
  EXPECT_NE(refusal(Foot{}, thick).find("plate_thickness"), std::string::npos);
  Shoeing rocker;
  rocker.shoe.toe = ToeShape::rocker, rocker.shoe.rocker_angle = 30 * degree;
  EXPECT_NE(refusal(Foot{}, rocker).find("toe shape"), std::string::npos);
}

}  // namespace
}  // namespace hoofload::mesh
