#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <regex>

#include "tests/viz/mock_section.hpp"
#include "tests/viz/xml_check.hpp"
#include "viz/axisymmetric_figure.hpp"
#include "viz/field_figure.hpp"
#include "viz/profile_figure.hpp"
#include "viz/side_view_figure.hpp"

namespace hoofload::viz {
namespace {

bool says(const std::string& figure, const std::string& words) {
  return figure.find(">" + words + "<") != std::string::npos;
}

int count(const std::string& text, const std::string& part) {
  int n = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

Section section_of(const mesh::PlaneMesh& mesh, const std::string& region) {
  Section s;
  s.mesh = &mesh;
  s.field_regions = {region};
  for (const auto& X : mesh.X) {
    s.field.push_back(10 * X.x());
    s.u.emplace_back(0.01 * X.y(), -0.02 * X.x());
  }
  return s;
}

SideView side_view(const mesh::PlaneMesh& mesh) {
  SideView v;
  v.heading = {"set back 1/8 in", "mid-stance, walk", "sagittal core in 3D capsule", {"sole pressure, peak  31.2 kPa"}};
  v.section = section_of(mesh, "sole");
  v.scale = {0, 500, "compressive stress", "kPa", Map::sequential};
  v.outer_wall = {{0, 0}, {10, 40}};
  v.inner_wall = {{8, 0}, {16, 36}};
  v.coronet = {{10, 40}, {60, 30}};
  v.bones = {{"distal phalanx", {{10, 20}, {60, 20}, {40, 45}}}};
  v.joint = Vec2(45, 45);
  v.ground = GroundLine{{0, -10}, {1, 0}};
  v.sole = {{{5, 7}, {15, 7}, {25, 6}, {35, 4}}, {0, 120, 80, 0}};
  v.forces = {{"ground force", {30, -10}, {-200, 2000}}};
  v.cables = {{"deep flexor tendon", {{30, 20}, {50, 40}, {56, 60}}, 1373}};
  return v;
}

// Design, not literature: each picture must carry option, phase, model, sizes of the forces, unit, both scales, caution.
TEST(SideViewFigure, carries_everything_a_reader_needs) {
  const auto mesh = tests::ring_section();
  const auto figure = side_view_figure(side_view(mesh));
  EXPECT_EQ(tests::xml_problem(figure), "");
  for (const char* words : {"set back 1/8 in", "ground force 2010 N", "deep flexor tendon 1373 N", "distal phalanx",
                            "compressive stress, kPa", "here 0 to 500 kPa", "sole", "shoe", "unloaded", "31.2 kPa"})
    EXPECT_TRUE(says(figure, words)) << words;
  EXPECT_TRUE(says(figure, "mid-stance, walk  ·  sagittal core in 3D capsule"));
  EXPECT_NE(figure.find(" mm  ·  deformation × 1<"), std::string::npos);
  EXPECT_NE(figure.find("Mechanical model"), std::string::npos);
  EXPECT_NE(figure.find("<desc>Side view of the foot. ground force 2010 N."), std::string::npos);
}

TEST(SideViewFigure, an_arrow_twice_the_force_is_twice_as_long) {
  const auto mesh = tests::ring_section();
  SideView v = side_view(mesh);
  v.window = Window{{-20, -40}, {80, 100}};
  const View view = fitted_view(*v.window, {0, 0}, {500, 700});
  const auto tip = [&](double newton) {
    return force_arrow({"", {30, -10}, {0, newton}}, 0.01, view).labels.front().anchor;
  };
  const Vec2 foot = to_page(view, Vec2(30, -10));
  EXPECT_NEAR(foot.y() - tip(2000).y(), 2 * (foot.y() - tip(1000).y()), 1e-9);
  EXPECT_NEAR(foot.y() - tip(1000).y(), 10 * view.scale, 1e-9);  // 1000 N at 0.01 mm a newton
}

TEST(SideViewFigure, without_contact_it_says_so) {
  const auto mesh = tests::ring_section();
  SideView v = side_view(mesh);
  v.sole.pressure.assign(4, 0.0);
  const auto figure = side_view_figure(v);
  EXPECT_TRUE(says(figure, "pressure on the sole:") && says(figure, "none"));
  EXPECT_EQ(ribbon(v.sole, 0.04, fitted_view({{0, 0}, {1, 1}}, {0, 0}, {9, 9})).drawing, "");
}

TEST(SideViewFigure, a_list_that_does_not_fit_is_refused) {
  const auto mesh = tests::ring_section();
  SideView v = side_view(mesh);
  v.sole.pressure.pop_back();
  EXPECT_THROW((void)side_view_figure(v), std::invalid_argument);
  v = side_view(mesh);
  v.section.u.pop_back();
  EXPECT_THROW((void)side_view_figure(v), std::invalid_argument);
  v = side_view(mesh);
  v.forces[0].force.x() = std::numeric_limits<double>::infinity();
  EXPECT_THROW((void)side_view_figure(v), std::invalid_argument);
}

// The ribbon hangs off the body: the surface is walked with its body on the left, so it lies to the right.
TEST(Marks, the_pressure_ribbon_stands_outside_the_body_by_its_scale) {
  const View view = fitted_view({{0, -10}, {10, 10}}, {0, 0}, {100, 200});
  const auto mark = ribbon({{{0, 0}, {5, 0}, {10, 0}}, {50, 100, 50}}, 0.05, view);
  double lowest = -1e9, highest = 1e9;
  for (const auto& box : mark.taken) {
    lowest = std::max(lowest, box.high.y());
    highest = std::min(highest, box.low.y());
  }
  EXPECT_NEAR(lowest, to_page(view, Vec2(0, -5)).y(), 1e-9);  // 100 kPa at 0.05 mm a kPa, downwards
  EXPECT_NEAR(highest, to_page(view, Vec2(0, 0)).y(), 1e-9);
}

TEST(AxisymmetricFigure, is_well_formed_labelled_and_mirrored) {
  const auto mesh = tests::ring_section();
  AxisymmetricView v;
  v.heading = {"packed", "standing", "axisymmetric", {}};
  v.section = section_of(mesh, "sole");
  v.section.u.assign(mesh.X.size(), Vec2(0, 0));
  v.scale = {0, 500, "compressive stress", "kPa", Map::sequential};
  v.ground = -10;
  v.load = 1373;
  const auto figure = axisymmetric_figure(v);
  EXPECT_EQ(tests::xml_problem(figure), "");
  EXPECT_TRUE(says(figure, "load 1373 N"));
  EXPECT_TRUE(says(figure, "here 0 to 500 kPa"));
  // Two shoe rings and one sole across the axis: a tone path of two loops.
  const auto tone = figure.find("fill=\"#9aa3ab\"");
  ASSERT_NE(tone, std::string::npos);
  const auto start = figure.rfind("<path d=\"", tone);
  EXPECT_EQ(count(figure.substr(start, tone - start), "Z"), 2);
}

TEST(FieldFigure, every_band_that_the_field_reaches_is_painted) {
  const auto mesh = tests::plate_with_hole();
  FieldFigure f{{"plate", "", "", {}}, section_of(mesh, "plate"), {0, 100, "field", "kPa", Map::sequential}, {}};
  f.section.u.clear();
  const auto figure = field_figure(f);
  EXPECT_EQ(tests::xml_problem(figure), "");
  const auto levels = band_levels(f.scale);
  for (std::size_t k = 0; k + 1 < levels.size(); ++k) {
    const std::string fill = "fill=\"" + hex(band_colour(f.scale, k, levels.size() - 1)) + "\"";
    EXPECT_EQ(count(figure, fill), 2) << "once in the section, once in the bar: band " << k;
  }
  EXPECT_EQ(figure, field_figure(f)) << "same data, same bytes";
}

TEST(FieldFigure, values_beyond_the_shared_scale_are_owned_up_to) {
  const auto mesh = tests::plate_with_hole();
  FieldFigure f{{"plate", "", "", {}}, section_of(mesh, "plate"), {0, 50, "field", "kPa", Map::sequential}, {}};
  EXPECT_TRUE(says(field_figure(f), "beyond the bar: its end colours"));
  f.scale.high = 100;
  EXPECT_FALSE(says(field_figure(f), "beyond the bar: its end colours"));
}

TEST(ProfileFigure, names_and_tags_every_option_and_tells_them_apart_without_colour) {
  ProfileFigure p;
  p.heading = {"Pressure on the sole", "standing", "sagittal", {}};
  for (int k = 0; k < 9; ++k) {
    Profile profile{"option " + std::to_string(k), {}, {}};
    for (int i = 0; i <= 50; ++i) {
      profile.x.push_back(20 + 2 * i);
      profile.pressure.push_back((10 + 9 * k) * std::exp(-std::pow((i - 25) / 9.0, 2)));
    }
    p.profiles.push_back(profile);
  }
  const auto figure = profile_figure(p);
  EXPECT_EQ(tests::xml_problem(figure), "");
  EXPECT_TRUE(says(figure, "pressure on the sole, kPa"));
  EXPECT_TRUE(says(figure, "behind the toe, mm"));
  for (int k = 0; k < 9; ++k) {
    EXPECT_TRUE(says(figure, "option " + std::to_string(k)));
    const std::regex tag("font-weight=\"bold\">" + std::to_string(k) + "</text>");
    EXPECT_EQ(std::distance(std::sregex_iterator(figure.begin(), figure.end(), tag), std::sregex_iterator()), 2)
        << "on the curve and in the key";
  }
}

TEST(ProfileFigure, the_toe_is_on_the_right) {
  ProfileFigure p;
  p.profiles = {{"only", {10, 90}, {5, 5}}};
  const auto figure = profile_figure(p);
  const std::regex first_point("<title>only</title>\n<path d=\"M([0-9.]+) [0-9.]+L([0-9.]+) ");
  std::smatch m;
  ASSERT_TRUE(std::regex_search(figure, m, first_point));
  EXPECT_GT(std::stod(m[1]), std::stod(m[2]));
}

TEST(CurveFigure, nothing_to_draw_is_an_error_and_a_hole_interrupts_the_line) {
  CurveFigure c{.heading = {"t", "", "", {}}, .x = {"x"}, .y = {"y"}, .curves = {}, .landmarks = {}};
  EXPECT_THROW((void)curve_figure(c), std::invalid_argument);
  c.curves = {{"a", {0, 1}, {1}}};
  EXPECT_THROW((void)curve_figure(c), std::invalid_argument);
  c.curves = {{"a", {0, 1, 2, 3, 4}, {1, 2, std::nan(""), 2, 1}}};
  const auto figure = curve_figure(c);
  const auto group = figure.substr(figure.find("<title>a</title>"));
  EXPECT_EQ(count(group.substr(0, group.find("</g>")), "<path"), 2);
}

}  // namespace
}  // namespace hoofload::viz
