#include "mesh/breadths.hpp"

#include <gtest/gtest.h>
#include <Eigen/Geometry>

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <vector>

namespace {

using namespace hoofload::mesh;

/// Midpoint sum of f over [lo, hi].
template <class Function>
double integral(const Function& f, double lo, double hi, int n) {
  double sum = 0;
  for (int i = 0; i < n; ++i) sum += f(lo + (hi - lo) * (i + 0.5) / n);
  return sum * (hi - lo) / n;
}

Breadths reference() { return breadths(Foot{}); }

TEST(Outline, coronet_passes_through_the_points_of_the_3d_reference) {
  const PlanOutline o = plan_outline(Foot{});
  // Source: the project's 3D reference capsule (docs/capsule.md), which lists its points to 0.1 and 1 mm.
  const auto widest = wall_point(o, 1, coronet_height(o, 1));
  EXPECT_NEAR(widest.x(), -110.6, 0.15);
  EXPECT_NEAR(widest.y(), 43.8, 0.05);
  EXPECT_NEAR(widest.z(), 57.9, 0.05);
  const auto shoulder = wall_point(o, 0.5, coronet_height(o, 0.5));
  EXPECT_NEAR(shoulder.x(), -71, 0.5);
  EXPECT_NEAR(shoulder.y(), 59, 0.5);
  EXPECT_NEAR(shoulder.z(), 40, 0.5);
}

TEST(Outline, coronet_ends_at_the_measured_walls) {
  const Foot foot;
  const PlanOutline o = plan_outline(foot);
  // Geometry: wall length and angle give both ends of the coronet line.
  EXPECT_NEAR(coronet_height(o, 0), foot.toe_length * std::sin(foot.toe_angle), 1e-10);
  EXPECT_NEAR(coronet_height(o, 2), foot.heel_length * std::sin(foot.heel_angle), 1e-10);
}

TEST(Outline, is_smooth_where_the_branch_leaves_the_ellipse) {
  const PlanOutline o = plan_outline(Foot{});
  const double h = 1e-3, x = o.quarter_x;
  const auto W = [&](double s) { return outer_half_width(o, s); };
  EXPECT_NEAR((W(x + h) - W(x)) / h, 0, 2e-5);
  EXPECT_NEAR((W(x) - W(x - h)) / h, 0, 2e-5);
  EXPECT_NEAR(W(x), 63, 1e-9);  // half of bearing_width
}

TEST(Outline, wall_thickness_is_measured_normal_to_the_surface) {
  const PlanOutline o = plan_outline(Foot{});
  const double h = 1e-4;
  for (const double t : {0.1, 0.5, 0.9, 1.4, 1.9})
    for (const double y : {5.0, 25.0}) {
      const Eigen::Vector3d along = wall_point(o, t + h, y) - wall_point(o, t - h, y);
      const Eigen::Vector3d up = wall_point(o, t, y + h) - wall_point(o, t, y - h);
      const Eigen::Vector3d n = along.cross(up).normalized();
      const Eigen::Vector3d step = inside_point(o, t, y, 8) - wall_point(o, t, y);
      EXPECT_NEAR(std::abs(step.dot(n)), 8, 1e-5);
      EXPECT_EQ(step.y(), 0);
    }
}

TEST(Outline, wall_thickness_takes_the_three_measured_values) {
  const Foot foot;
  const PlanOutline o = plan_outline(foot);
  EXPECT_NEAR(wall_thickness(o, 0), foot.wall_thickness_toe, 1e-12);
  EXPECT_NEAR(wall_thickness(o, 1), foot.wall_thickness_quarter, 1e-12);
  EXPECT_NEAR(wall_thickness(o, 2), foot.wall_thickness_heel, 1e-12);
  EXPECT_NEAR(wall_thickness(o, 1 - 1e-9), wall_thickness(o, 1 + 1e-9), 1e-6);
}

TEST(Outline, areas_are_the_integrals_of_the_breadths) {
  const PlanOutline o = plan_outline(Foot{});
  const double outer = integral([&](double x) { return 2 * outer_half_width(o, x); }, o.heel_x, 0, 8000);
  const double inner = integral([&](double x) { return 2 * inner_half_width(o, x); }, o.heel_x, 0, 8000);
  // Midpoint rule over a square-root front: error about h^1.5 (h = 0.016 mm), below 1 mm^2.
  EXPECT_NEAR(outline_area(o), outer, 1);
  EXPECT_NEAR(inner_area(o), inner, 1);
  EXPECT_NEAR(wall_ring_area(o), outer - inner, 2);
}

TEST(Outline, arc_length_and_its_inverse_agree_with_the_chords) {
  const PlanOutline o = plan_outline(Foot{});
  double chords = 0;
  for (int i = 0; i < 4000; ++i) chords += (bearing_point(o, (i + 1) / 2000.0) - bearing_point(o, i / 2000.0)).norm();
  EXPECT_NEAR(arc_length(o, 2), chords, 1e-4);  // chord error h^2 K^2 L / 24
  for (const double t : {0.2, 0.9, 1.05, 1.7}) EXPECT_NEAR(parameter_at_arc(o, arc_length(o, t)), t, 1e-9);
}

TEST(Outline, refuses_a_foot_that_cannot_be) {
  const auto refuses = [](auto change) {
    Foot foot;
    change(foot);
    EXPECT_THROW((void)plan_outline(foot), std::invalid_argument);
  };
  refuses([](Foot& f) { f.bearing_width = 0; });
  refuses([](Foot& f) { f.toe_angle = 95 * degree; });
  refuses([](Foot& f) { f.wall_thickness_quarter = -1; });
  refuses([](Foot& f) { f.wall_thickness_toe = 40; });
  refuses([](Foot& f) { f.heel_length = 120; });
  refuses([](Foot& f) { f.toe_angle = std::nan(""); });
}

TEST(Breadth, ring_of_the_shoe_has_the_area_of_a_parallel_band) {
  const Breadths b = reference();
  Shoe shoe;
  shoe.heel_extension = 0;
  // Steiner's formula for a band of width w inside a curve of length L that turns by the angle pi/2 + a, and the triangle
  // between the branch's square end and the line x = const where the breadths stop.
  const auto d = (bearing_point(b.outline, 2) - bearing_point(b.outline, 1.9)).eval();
  const double a = std::atan2(-d.y(), -d.x()), w = shoe.web;
  const double half =
      arc_length(b.outline, 2) * w - w * w * (std::numbers::pi / 2 + a) / 2 + w * w * std::sin(a) * std::cos(a) / 2;
  const double area = integral([&](double x) { return shoe_breadth(b, shoe, x); }, shoe_end_x(b, shoe), 0, 8000);
  EXPECT_NEAR(area, 2 * half, 2);
}

TEST(Breadth, setback_moves_the_shoe_and_nothing_else) {
  const Breadths b = reference();
  Shoe flush, back;
  back.setback = 6.35;
  for (double x = -1.3; x > -135; x -= 3.7) {
    EXPECT_NEAR(shoe_outer_chord(b, back, x - 6.35), shoe_outer_chord(b, flush, x), 1e-9);
    EXPECT_NEAR(shoe_inner_chord(b, back, x - 6.35), shoe_inner_chord(b, flush, x), 1e-9);
  }
  EXPECT_EQ(shoe_breadth(b, back, -6.3), 0);
  EXPECT_GT(shoe_breadth(b, back, -6.4), 0);
}

TEST(Breadth, every_breadth_is_zero_outside_its_part_and_never_negative) {
  const Breadths b = reference();
  const Foot& f = b.foot;
  EXPECT_EQ(b_sole(b, inner_toe_x(b.outline) + 1e-6), 0);
  EXPECT_EQ(w_frog(b, frog_apex_x(f) + 1e-6), 0);
  EXPECT_NEAR(w_frog(b, frog_base_x(f)), f.frog_width, 1e-9);
  EXPECT_EQ(b_corium(b, -f.toe_to_tip), 0);
  EXPECT_NEAR(bone_end_x(f), -110.8, 0.05);  // reference foot, palmar process 75 mm at 4 deg behind the tip
  EXPECT_EQ(b_corium(b, bone_end_x(f)), 0);
  for (const ShoeType type : {ShoeType::bare, ShoeType::open, ShoeType::straight_bar, ShoeType::egg_bar,
                              ShoeType::heart_bar, ShoeType::full_plate}) {
    Shoe shoe;
    shoe.type = type;
    for (double x = 5; x > -160; x -= 0.7) {
      EXPECT_GE(shoe_breadth(b, shoe, x), 0);
      EXPECT_GE(b_corium(b, x), 0);
      EXPECT_LE(b_corium(b, x), b_sole(b, x));
      EXPECT_LE(plate_breadth(b, shoe, x), shoe_inner_chord(b, shoe, x) + 1e-9);
      EXPECT_LE(wall_on_shoe_breadth(b, shoe, x), shoe_breadth(b, shoe, x) + 1e-9);
    }
  }
}

TEST(Breadth, branches_of_the_bones_footprint_lie_beside_the_frog) {
  const Breadths b = reference();
  for (double x = -109; x < -96; x += 1) EXPECT_LT(b_corium(b, x) + w_frog(b, x), b_sole(b, x));
  const double before = b_corium(b, branch_start_x(b.foot));
  EXPECT_LT(b_corium(b, branch_start_x(b.foot) - 24), 0.75 * before);
}

TEST(Breadth, breadths_have_no_kinks_away_from_blunt_ends) {
  const Breadths b = reference();
  const double h = 0.01;
  const auto kink = [&](const auto& f, double x) { return std::abs(f(x + h) - 2 * f(x) + f(x - h)) / h; };
  for (double x = -40; x > -108; x -= 0.31) {
    EXPECT_LT(kink([&](double s) { return b_sole(b, s); }, x), 0.02) << x;
    EXPECT_LT(kink([&](double s) { return w_frog(b, s); }, x), 0.02) << x;
    EXPECT_LT(kink([&](double s) { return b_corium(b, s); }, x), 0.05) << x;
  }
}

TEST(Breadth, bars_close_the_ring_at_its_end) {
  const Breadths b = reference();
  for (const ShoeType type : {ShoeType::straight_bar, ShoeType::egg_bar}) {
    Shoe shoe;
    shoe.type = type;
    const double x = shoe_end_x(b, shoe) + 0.5 * shoe.bar_width;
    EXPECT_EQ(shoe_inner_chord(b, shoe, x), 0);
    EXPECT_GT(shoe_breadth(b, shoe, x), 45);
    EXPECT_GT(shoe_inner_chord(b, shoe, -80), 60);
  }
  Shoe heart;
  heart.type = ShoeType::heart_bar;
  EXPECT_EQ(plate_breadth(b, heart, frog_apex_x(b.foot)), 0);
  EXPECT_NEAR(plate_breadth(b, heart, -100), 0.8 * w_frog(b, -100), 1e-9);
}

}  // namespace
