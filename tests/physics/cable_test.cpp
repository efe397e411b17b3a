// The frictionless cable over a round pulley: statics, geometry in closed form, derivatives and the start of wrapping.
#include "solver/interactions/cable.hpp"
#include "tests/support/record.hpp"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <cmath>
#include <numbers>

namespace {

using namespace hoofload::solver;
using namespace hoofload::tests;

/// A(-60, -20), B(40, -80), pulley at the origin with R = 10, cable over the top; B turns about a joint below.
Cable over_the_top() {
  Cable cable;
  cable.insertion = {-60, -20};
  cable.pulley = {0, 0};
  cable.radius = 10;
  cable.joint = {0, -30};
  cable.arm = Vec2(40, -80) - cable.joint;
  return cable;
}

// Plane geometry; values to 9 digits by an independent evaluation of the tangent formulas.
TEST(CableGeometry, tangent_points_wrap_length_and_pulley_force) {
  const CablePath path = cable_path(over_the_top(), 0);
  EXPECT_NEAR((path.T1 - Vec2(-4.622499, 8.867497)).norm(), 0, 1e-6);
  EXPECT_NEAR((path.T2 - Vec2(9.38819442, 3.44409721)).norm(), 0, 1e-8);
  EXPECT_NEAR((path.A - path.T1).norm(), 62.44998, 1e-6);
  EXPECT_NEAR((path.B - path.T2).norm(), 88.8819442, 1e-7);
  EXPECT_NEAR(path.wrap, 1.69971713, 1e-8);
  EXPECT_NEAR(path.length, 168.329095, 1e-6);
  const Claim claim{"cable over a pulley", "plane geometry, evaluated independently", "exact geometry"};
  record(claim, "length", 168.329095, path.length);
  record(claim, "wrap", 1.69971713, path.wrap);
  EXPECT_NEAR((pulley_force(path, 1.0) - Vec2(-0.542339979, -1.40106934)).norm(), 0, 1e-8);
}

// Statics of a frictionless pulley: equal tension, |N| = 2 T sin(w/2) along the bisector, no moment on the pulley.
TEST(CableStatics, pulley_resultant_is_twice_the_tension_times_the_sine_of_half_the_wrap) {
  for (const auto& [degrees, ratio] : {std::pair{30.0, 0.5176380902}, std::pair{60.0, 1.0},
                                       std::pair{90.0, 1.414213562}, std::pair{120.0, 1.732050808}}) {
    const double w = degrees * std::numbers::pi / 180, R = 7;
    Cable cable;
    cable.radius = R;
    cable.joint = {0, -50};
    // Tangent points at -w/2 and +w/2 from the top; free strands of 40 and 55.
    const auto end = [&](double side, double length) {
      const double angle = std::numbers::pi / 2 - side * w / 2;
      const Vec2 T = R * Vec2(std::cos(angle), std::sin(angle));
      return Vec2(T + length * side * Vec2(std::sin(angle), -std::cos(angle)));
    };
    cable.insertion = end(-1, 40);
    cable.arm = end(1, 55) - cable.joint;
    const CablePath path = cable_path(cable, 0);
    EXPECT_NEAR(path.wrap, w, 1e-12);
    EXPECT_NEAR(path.length, 95 + R * w, 1e-10);
    const Vec2 N = pulley_force(path, 3.0);
    EXPECT_NEAR(N.norm(), 3 * ratio, 1e-8);
    record({"the pulley feels 2 T sin(w/2)", "statics", "exact geometry"}, text("w %g", degrees), ratio, N.norm() / 3);
    EXPECT_NEAR(N.x(), 0, 1e-12);
    const auto cross = [](const Vec2& a, const Vec2& b) { return a.x() * b.y() - a.y() * b.x(); };
    EXPECT_NEAR(cross(path.T1, path.e_A) + cross(path.T2, path.e_B), 0, 1e-12);
  }
}

// EA = 1e4, slack 1 mm short: T = EA / L0 = 59.7624697; with the pulley on a spring of 100 the equilibrium lies at
// (-0.138141071, -0.356233025), T = 25.5092309, L = 167.755939 (minimum of the energy).
TEST(CableStatics, an_elastic_cable_balances_a_sprung_pulley) {
  Cable cable = over_the_top();
  cable.slack_length = cable_path(cable, 0).length - 1;
  cable.stiffness = 1e4 / cable.slack_length;
  EXPECT_NEAR(cable_tension(cable, cable_path(cable, 0)), 59.7624697, 1e-6);
  cable.pulley = {-0.138141071, -0.356233025};
  const CablePath path = cable_path(cable, 0);
  const double T = cable_tension(cable, path);
  EXPECT_NEAR(path.length, 167.755939, 1e-6);
  EXPECT_NEAR(T, 25.5092309, 1e-5);
  record({"an elastic cable balances a sprung pulley, tension", "minimum of the energy", "exact geometry"}, "EA 1e4",
         25.5092309, T);
  EXPECT_NEAR((100 * cable.pulley - pulley_force(path, T)).norm(), 0, 1e-5);
}

// Envelope theorem, Eqs. (58) to (60), against central differences of the length.
TEST(CableGeometry, derivatives_by_rotation_match_differences) {
  Cable cable = over_the_top();
  cable.extension = 0.2;
  cable.stiffness = 5;
  cable.slack_length = 150;
  for (double theta : {-0.3, 0.0, 0.25}) {
    const double h = 1e-5;
    const CablePath at = cable_path(cable, theta), up = cable_path(cable, theta + h),
                    down = cable_path(cable, theta - h);
    EXPECT_NEAR(at.dL, (up.length - down.length) / (2 * h), 1e-6 * std::abs(at.dL));
    EXPECT_NEAR(at.d2L, (up.dL - down.dL) / (2 * h), 1e-6 * std::max(1.0, std::abs(at.d2L)));
    const CableValue v = evaluate(cable, theta), vu = evaluate(cable, theta + h), vd = evaluate(cable, theta - h);
    EXPECT_NEAR(v.moment, (vu.energy - vd.energy) / (2 * h), 1e-6 * std::abs(v.moment));
    EXPECT_NEAR(v.stiffness, (vu.moment - vd.moment) / (2 * h), 1e-6 * std::abs(v.stiffness));
  }
}

// Where wrapping starts, length and gradient are continuous (a taut string); the second derivative may jump.
TEST(CableGeometry, length_and_gradient_are_continuous_where_wrapping_starts) {
  Cable cable = over_the_top();
  double with = 0, without = 0;  // bracket the start of wrapping by rotation of B
  bool found = false;
  for (double theta = 0; theta < 3.0 && !found; theta += 0.01)
    for (double sign : {1.0, -1.0})
      if (!found && cable_path(cable, sign * theta).wrap == 0) {
        without = sign * theta;
        with = sign * (theta - 0.01);
        found = true;
      }
  ASSERT_TRUE(found);
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (with + without);
    (cable_path(cable, middle).wrap > 0 ? with : without) = middle;
  }
  const CablePath a = cable_path(cable, with), b = cable_path(cable, without);
  EXPECT_GT(a.wrap, 0);
  EXPECT_EQ(b.wrap, 0);
  EXPECT_NEAR(a.length, b.length, 1e-6);
  EXPECT_NEAR(a.dL, b.dL, 1e-4 * std::abs(b.dL));
}

// Tension only: no force, no energy, no stiffness below the slack length.
TEST(CableStatics, a_slack_cable_does_nothing) {
  Cable cable = over_the_top();
  cable.stiffness = 10;
  cable.slack_length = 169;
  const CableValue v = evaluate(cable, 0);
  EXPECT_EQ(v.energy, 0);
  EXPECT_EQ(v.moment, 0);
  EXPECT_EQ(v.stiffness, 0);
  EXPECT_EQ(cable_tension(cable, cable_path(cable, 0)), 0);
}

}  // namespace
