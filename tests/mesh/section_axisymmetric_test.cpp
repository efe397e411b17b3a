// The axisymmetric section against solids of revolution in closed form, and its promises of topology, pairs and refusal.
#include <gtest/gtest.h>

#include <numbers>

#include "mesh/axisymmetric_section.hpp"
#include "tests/mesh/section_measures.hpp"
#include "tests/mesh/section_samples.hpp"

namespace hoofload::mesh {
namespace {

constexpr double pi = std::numbers::pi;
// Mid-side nodes lie on the exact curves and every curve is at most quadratic along an edge, so volumes are exact to rounding.
constexpr double rounding = 1e-9;

Shoeing packed(ShoeType type = ShoeType::open, PackingRegion region = PackingRegion::full_sole) {
  Shoeing s;
  s.shoe.type = type;
  s.packing.region = region;
  return s;
}

double wall_inner(const Foot& f) {
  return f.bearing_width / 2 - std::sqrt(1 + 0.225 * 0.225) *
                                   (f.wall_thickness_toe + 2 * f.wall_thickness_quarter + f.wall_thickness_heel) / 4;
}

/// Void volume under the dome inside radius r.
double under_dome(const Foot& f, double r) {
  const double w = wall_inner(f);
  return 2 * pi * f.sole_cup * (r * r / 2 - r * r * r * r / (4 * w * w));
}

TEST(AxisymmetricSection, shoe_is_a_ring_and_packing_a_disc_with_the_dome_on_top) {
  const Foot f;
  const AxisymmetricSection a = axisymmetric_section(f, packed());
  EXPECT_NEAR(measures::revolved(a.mesh, "shoe") / (pi * (63.0 * 63 - 41.0 * 41) * 10), 1, rounding);
  EXPECT_NEAR(measures::revolved(a.mesh, "packing") / (pi * 41 * 41 * 10 + under_dome(f, 41)), 1, rounding);
}

TEST(AxisymmetricSection, wall_is_the_shell_between_two_cones) {
  const Foot f;
  const AxisymmetricSection a = axisymmetric_section(f, packed());
  const double r = wall_inner(f), top = a.coronet;
  const double volume = pi * (63 - r) * ((63 + r) * top - 0.225 * top * top);
  EXPECT_NEAR(measures::revolved(a.mesh, "wall") / volume, 1, rounding);
}

TEST(AxisymmetricSection, sole_and_white_line_fill_the_horn_between_dome_and_wall) {
  const Foot f;
  const AxisymmetricSection a = axisymmetric_section(f, packed());
  const double w = wall_inner(f), horn = f.sole_horn;
  const auto dome = [&](double r) { return f.sole_cup * (1 - r * r / (w * w)); };
  const auto height = [&](double r) { return 2 * pi * r * (std::min(dome(r) + horn, (w - r) / 0.225) - dome(r)); };
  // the integrand's one kink limits the quadrature to about 1e-7
  EXPECT_NEAR(
      (measures::revolved(a.mesh, "sole") + measures::revolved(a.mesh, "white_line")) / measures::along(0, w, height),
      1, 1e-6);
}

TEST(AxisymmetricSection, lamella_has_the_area_of_the_foot) {
  for (const double area : {7000.0, 8100.0, 9000.0}) {
    const AxisymmetricSection a = axisymmetric_section(Foot{}, Shoeing{}, area);
    const double r1 = wall_inner(Foot{}) - 0.225 * a.lamella_from, r2 = wall_inner(Foot{}) - 0.225 * a.lamella_to;
    const double slant = (a.lamella_to - a.lamella_from) * std::sqrt(1 + 0.225 * 0.225);
    EXPECT_NEAR(pi * (r1 + r2) * slant, area, 1e-6);  // frustum of a cone
  }
}

TEST(AxisymmetricSection, partial_packings_keep_their_share_of_the_void) {
  const auto disc = axisymmetric_section(Foot{}, packed(ShoeType::open, PackingRegion::palmar_two_thirds));
  const auto ring = axisymmetric_section(Foot{}, packed(ShoeType::open, PackingRegion::dorsal_half));
  EXPECT_NEAR(disc.packing_to * disc.packing_to / (41.0 * 41), 2.0 / 3, 1e-12);
  EXPECT_NEAR((ring.packing_to * ring.packing_to - ring.packing_from * ring.packing_from) / (41.0 * 41), 0.5, 1e-12);
}

TEST(AxisymmetricSection, plate_lies_on_the_ground_face_unless_recessed) {
  Shoeing s = packed(ShoeType::full_plate);
  EXPECT_NEAR(measures::revolved(axisymmetric_section(Foot{}, s).mesh, "plate"), pi * 41 * 41 * 6, 1e-6);
  s.shoe.plate_recess = 2;
  const AxisymmetricSection a = axisymmetric_section(Foot{}, s);
  EXPECT_NEAR(measures::revolved(a.mesh, "plate"), pi * 41 * 41 * 6, 1e-6);
  EXPECT_DOUBLE_EQ(a.mesh.X[static_cast<std::size_t>(a.mesh.edges.at("ground_plate").edges.front().a)].y(), -8);
}

TEST(AxisymmetricSection, doubled_lines_coincide_and_gaps_open_toward_the_axis) {
  Shoeing s = packed(ShoeType::full_plate);
  s.pad.type = PadType::rim;
  const AxisymmetricSection a = axisymmetric_section(Foot{}, s);
  for (const char* name : {"sole_packing", "packing_backing", "packing_shoe", "packing_pad", "wall_shoe", "pad_shoe"}) {
    ASSERT_FALSE(a.mesh.pairs.at(name).empty()) << name;
    EXPECT_LT(measures::widest_gap(a.mesh, name), 1e-12) << name;
  }
  for (const NodePair& p : a.mesh.pairs.at("sole_shoe")) {
    const Vec2 d = a.mesh.X[static_cast<std::size_t>(p.slave)] - a.mesh.X[static_cast<std::size_t>(p.master)];
    EXPECT_NEAR(d.x(), 0, 1e-12);
    EXPECT_GT(d.y(), 0);
  }
}

TEST(AxisymmetricSection, every_node_on_the_axis_has_radius_zero_exactly) {
  const AxisymmetricSection a = axisymmetric_section(Foot{}, packed(ShoeType::full_plate));
  for (const int id : nodes_of(a.mesh.edges.at("axis"))) EXPECT_EQ(a.mesh.X[static_cast<std::size_t>(id)].x(), 0);
}

TEST(AxisymmetricSection, lengths_move_nodes_and_leave_the_connectivity) {
  samples::Dice dice{std::mt19937_64{11}};
  for (const auto type : {ShoeType::open, ShoeType::full_plate})
    for (const auto region : {PackingRegion::none, PackingRegion::full_sole, PackingRegion::palmar_two_thirds}) {
      const PlaneMesh reference = axisymmetric_section(Foot{}, packed(type, region)).mesh;
      for (int k = 0; k < 5; ++k) {
        Shoeing s = packed(type, region);
        s.shoe.web = dice.between(20, 28), s.shoe.thickness = dice.between(8, 14), s.packing.proud = dice.between(0, 2);
        const Foot f = samples::random_foot(dice);
        EXPECT_TRUE(measures::same_topology(reference,
                                            axisymmetric_section(f, s, 0.5 * f.bearing_length * f.bearing_width).mesh));
      }
    }
}

TEST(AxisymmetricSection, two_calls_give_the_same_bits) {
  EXPECT_TRUE(
      measures::same_bits(axisymmetric_section(Foot{}, packed()).mesh, axisymmetric_section(Foot{}, packed()).mesh));
}

TEST(AxisymmetricSection, coarse_default_and_fine_mesh_have_the_same_volumes) {
  for (const double density : {0.5, 2.0}) {
    const AxisymmetricSection a = axisymmetric_section(Foot{}, packed(), 8100, density),
                              b = axisymmetric_section(Foot{}, packed());
    EXPECT_NEAR(measures::revolved(a.mesh, "corium") / measures::revolved(b.mesh, "corium"), 1, 1e-6);
    EXPECT_NE(a.mesh.X.size(), b.mesh.X.size());
  }
}

TEST(AxisymmetricSection, unfolded_for_300_feet_and_shoeings) {
  samples::Dice dice{std::mt19937_64{7}};
  for (int k = 0; k < 300; ++k) {
    const Foot f = samples::random_foot(dice);
    const Shoeing s = samples::random_shoeing(dice);
    const AxisymmetricSection a = axisymmetric_section(f, s, 0.5 * f.bearing_length * f.bearing_width, 0.5);
    ASSERT_GT(a.quality.smallest_jacobian, 0) << k;
    ASSERT_TRUE(measures::consistent(a.mesh)) << k;
  }
}

TEST(AxisymmetricSection, impossible_geometry_is_refused_with_its_measurements) {
  const auto refusal = [](const Foot& f, const Shoeing& s) -> std::string {
    try {
      (void)axisymmetric_section(f, s);
    } catch (const std::invalid_argument& e) {
      return e.what();
    }
    return "";
  };
  Foot deep;
  deep.sole_depth_tip = 40, deep.sole_horn = 30;
  EXPECT_NE(refusal(deep, Shoeing{}).find("sole_depth_tip"), std::string::npos);
  Shoeing narrow;
  narrow.shoe.web = 9;
  EXPECT_NE(refusal(Foot{}, narrow).find("web"), std::string::npos);
  Shoeing thick = packed(ShoeType::full_plate);
  thick.shoe.plate_thickness = 14;
  EXPECT_NE(refusal(Foot{}, thick).find("plate_thickness"), std::string::npos);
  EXPECT_NE(refusal(Foot{}, packed(ShoeType::bare)).find("packing"), std::string::npos);
}

}  // namespace
}  // namespace hoofload::mesh
