// Figures of many runs: each carries its unit, what its marks mean and the caution, and is drawn where its numbers say.
#include <gtest/gtest.h>

#include <cmath>

#include "tests/viz/xml_check.hpp"
#include "viz/interval_figure.hpp"
#include "viz/map_figure.hpp"
#include "viz/scatter_figure.hpp"
#include "viz/tornado_figure.hpp"

namespace hoofload::viz {
namespace {

const Heading heading{"Title", "standing", "axisymmetric", {}};

bool says(const std::string& figure, const std::string& words) { return figure.find(words) != std::string::npos; }

int count(const std::string& text, const std::string& part) {
  int n = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

TEST(IntervalFigure, keeps_the_draws_and_the_meshs_bar_apart) {
  const std::string figure = interval_figure(
      {heading, "change of the pressure, kPa", {{"a", -20, 2, Spread{-30, -18, -5}, ""}, {"b", 4, 0, {}, "holds 0"}}});
  EXPECT_EQ(tests::xml_problem(figure), "");
  for (const char* words : {"change of the pressure, kPa", "5, 50 and 95 % over the draws", "the mesh's bar alone",
                            "-20.0 ± 2.0", "(-30.0 to -5.00)", "holds 0", "Mechanical model"})
    EXPECT_TRUE(says(figure, words)) << words;
  EXPECT_THROW((void)interval_figure({heading, "x", {}}), std::invalid_argument);
  EXPECT_THROW((void)interval_figure({heading, "x", {{"a", NAN, 0, {}, ""}}}), std::invalid_argument);
}

TEST(TornadoFigure, says_that_it_is_one_at_a_time_and_what_the_ends_are) {
  const std::string figure = tornado_figure(
      {heading, "pressure, kPa", 10, {{"depth", "7 mm", "17 mm", 4, 12}, {"both up", "1", "2", 11, 12}}});
  EXPECT_EQ(tests::xml_problem(figure), "");
  for (const char* words : {"One at a time", "input at its 5 %", "7 mm", "17 mm", "both up", "Mechanical model"})
    EXPECT_TRUE(says(figure, words)) << words;
  EXPECT_THROW((void)tornado_figure({heading, "x", 0, {{"a", "", "", 1, INFINITY}}}), std::invalid_argument);
}

MapFigure plane(double hole) {
  MapFigure f{heading, {"hardness, ShoreA"}, {"depth, mm"}, {20, 30, 50}, {1, 2, 4}, {}, {0, 100, "pressure", "kPa"}};
  for (const double y : f.y_values)
    for (const double x : f.x_values) f.value.push_back(x + 10 * y);
  f.value[8] += hole;
  return f;
}

TEST(MapFigure, contours_of_a_plane_are_where_the_plane_has_their_level) {
  const std::string figure = map_figure(plane(0));
  EXPECT_EQ(tests::xml_problem(figure), "");
  for (const char* words : {"hardness, ShoreA", "depth, mm", "pressure, kPa", "here 30.0 to 90.0 kPa", "solved"})
    EXPECT_TRUE(says(figure, words)) << words;
  // x + 10 y = 50 leaves the lower edge (y = 1) at x = 40: two thirds of the way along the axis.
  const Axes axes = axes_spanning({20, 50}, {1, 4});
  EXPECT_TRUE(says(figure, svg::number(on_page(axes, 40, 1).x()) + " " + svg::number(on_page(axes, 40, 1).y())));
}

TEST(MapFigure, a_run_that_was_not_solved_leaves_its_cells_blank) {
  const std::string whole = map_figure(plane(0)), part = map_figure(plane(NAN));
  EXPECT_TRUE(says(part, "here 30.0 to 80.0 kPa") || says(part, "here 30.0 to 70.0 kPa"));
  EXPECT_NE(whole, part);
  MapFigure f = plane(0);
  f.value.assign(9, NAN);
  EXPECT_THROW((void)map_figure(f), std::invalid_argument);
  f.value.pop_back();
  EXPECT_THROW((void)map_figure(f), std::invalid_argument);
  f = plane(0);
  std::swap(f.x_values[0], f.x_values[1]);
  EXPECT_THROW((void)map_figure(f), std::invalid_argument);
}

TEST(ScatterFigure, draws_a_dot_for_every_run_that_has_both_numbers) {
  const std::string figure = scatter_figure({heading, {"a, mm"}, {"b, kPa"}, {1, 2, NAN, 4}, {3, 4, 5, 7}});
  EXPECT_EQ(tests::xml_problem(figure), "");
  EXPECT_EQ(count(figure, "<circle"), 3);
  EXPECT_TRUE(says(figure, "3 runs"));
  EXPECT_THROW((void)scatter_figure({heading, {""}, {""}, {NAN}, {1}}), std::invalid_argument);
  EXPECT_THROW((void)scatter_figure({heading, {""}, {""}, {1, 2}, {1}}), std::invalid_argument);
}

}  // namespace
}  // namespace hoofload::viz
