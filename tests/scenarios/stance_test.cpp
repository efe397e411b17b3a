// The smooth curve between load points, the table of a stance of the user's own, and what the result says of a stance.
#include <gtest/gtest.h>

#include <cmath>

#include "scenarios/load_curves.hpp"
#include "scenarios/stance_table.hpp"
#include "scenarios/tendon.hpp"
#include "tests/scenarios/case_fixture.hpp"

namespace hoofload::scenarios {
namespace {

// Fritsch & Carlson 1980: monotone data give a monotone curve, so it never leaves the range of its two points.
TEST(SmoothCurve, passes_its_points_and_never_overshoots_them) {
  const SmoothCurve c = smooth_curve({0, 1, 2, 3, 5}, {0, 0.1, 4, 4.1, 4.1});
  for (std::size_t i = 0; i + 1 < c.x.size(); ++i) {
    EXPECT_DOUBLE_EQ(value_at(c, c.x[i]), c.y[i]);
    double before = c.y[i];
    for (int k = 1; k <= 50; ++k) {
      const double now = value_at(c, c.x[i] + k * (c.x[i + 1] - c.x[i]) / 50);
      EXPECT_GE(now, before - 1e-14);
      EXPECT_LE(now, c.y[i + 1] + 1e-14);
      before = now;
    }
  }
}

// A straight line is one of its own pieces: exact to rounding.
TEST(SmoothCurve, keeps_a_straight_line) {
  const SmoothCurve c = smooth_curve({0, 1, 3, 4}, {1, 3, 7, 9});
  EXPECT_NEAR(value_at(c, 1.7), 4.4, 1e-14);
  EXPECT_NEAR(*first_crossing(c, 4.4, Crossing::rising), 1.7, 1e-12);
  EXPECT_FALSE(first_crossing(c, 4.4, Crossing::falling).has_value());
}

// The parabola through three points of a parabola is that parabola.
TEST(SmoothCurve, peak_of_a_parabola_is_exact) {
  const std::vector<double> x{0, 0.3, 0.7, 1.0};
  std::vector<double> y;
  for (double v : x) y.push_back(2 - (v - 0.6) * (v - 0.6));
  const Peak peak = peak_of(x, y);
  EXPECT_NEAR(peak.x, 0.6, 1e-12);
  EXPECT_NEAR(peak.y, 2, 1e-12);
}

TEST(LoadCurve, built_in_curves_pass_through_their_published_peaks) {
  EXPECT_DOUBLE_EQ(stance_point(Gait::trot, 0.5).normal, 11.5);       // Merkens 1993: 11.59 N/kg
  EXPECT_DOUBLE_EQ(stance_point(Gait::trot, 0.2).tangential, -1.13);  // Merkens 1993
}

const std::string kTable =
    "time,normal,tangential,pastern\nms,N,N,deg\n100,0,0,50\n200,2500,-300,46\n300,5000,0,53\n500,0,0,35\n";

TEST(LoadTable, replaces_forces_and_pastern_and_keeps_the_reference_centre_of_pressure) {
  const Case c = good_case("schema = 1\n[horse]\nmass = \"500 kg\"\n[load]\ngait = \"trot\"\ncurve = \"\"\"\n" +
                           kTable + "\"\"\"\n");
  const LoadPoint p = stance_point(c, 0.25);
  EXPECT_DOUBLE_EQ(p.normal, 5);
  EXPECT_DOUBLE_EQ(p.tangential, -0.6);
  EXPECT_NEAR(p.extension, -4 * mesh::degree, 1e-12);
  EXPECT_DOUBLE_EQ(p.cop, stance_point(Gait::trot, 0.25).cop);
}

TEST(LoadTable, every_fault_is_named_with_its_line) {
  const auto problem = [](const std::string& text) {
    const TableReading reading = read_load_table(text, "own.csv");
    return reading.errors.empty() ? std::string("none") : error_text(reading.errors.front());
  };
  const auto swapped = [](std::string text, const std::string& from, const std::string& to) {
    return text.replace(text.find(from), from.size(), to);
  };
  EXPECT_EQ(problem(kTable), "none");
  const auto says = [&](const std::string& text, const std::string& place, const std::string& what) {
    EXPECT_NE(problem(text).find(place), std::string::npos) << problem(text);
    EXPECT_NE(problem(text).find(what), std::string::npos) << problem(text);
  };
  says(swapped(kTable, "pastern", "angle"), "own.csv:1", "header");
  says(swapped(kTable, "ms,N,N", "ms,N,lb"), "own.csv:2", "unit of tangential");
  says(swapped(kTable, "300,5000", "200,5000"), "own.csv:5", "time does not rise");
  says(swapped(kTable, "2500", "nan"), "own.csv:4", "finite");
  says(swapped(kTable, "2500", "-2500"), "own.csv:4", "negative");
  says(swapped(kTable, "500,0,0,35\n", ""), "own.csv:5", "rows");
  says(swapped(kTable, ",46", ""), "own.csv:4", "columns");
}

TEST(LoadTable, a_file_that_is_not_there_is_an_error_of_the_case) {
  const CaseReading reading = read("schema = 1\n[load]\ncurve = \"no such file.csv\"\n");
  ASSERT_EQ(reading.errors.size(), 1U) << all_errors(reading.errors);
  EXPECT_EQ(reading.errors[0].at.line, 3);
}

// Crevier-Denoix et al. 2001: 0.98, 0.24 and 0.23 degrees per degree; held moves nothing.
TEST(Posture, passive_limb_follows_by_the_measured_ratios) {
  Case c;
  c.shoeing.shoe.elevation = 6 * mesh::degree;
  EXPECT_EQ(posture_of(c).extension, 0);
  EXPECT_EQ(posture_of(c).slack, 0);
  c.load.posture = Posture::passive;
  const PostureShift shift = posture_of(c);
  EXPECT_NEAR(shift.extension, 0.02 * 6 * mesh::degree, 1e-12);
  EXPECT_NEAR(shift.pastern_flexion - shift.fetlock_extension, 0.01 * 6 * mesh::degree, 1e-12);
  // The tendon runs nearly parallel to the pastern, so both arms are near 28 mm and the two joints nearly cancel.
  EXPECT_LT(std::abs(shift.slack), 0.01 * 6 * mesh::degree * 60);
}

}  // namespace
}  // namespace hoofload::scenarios
