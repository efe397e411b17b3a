#include "viz/colour.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "viz/scale.hpp"

namespace hoofload::viz {
namespace {

// CIE L* of known colours: white 100, black 0, mid grey #777777 50.03 (IEC 61966-2-1 and CIE 1976, computed by hand).
TEST(Colour, lightness_of_white_black_and_mid_grey) {
  EXPECT_NEAR(lightness({1, 1, 1}), 100, 1e-6);
  EXPECT_NEAR(lightness({0, 0, 0}), 0, 1e-12);
  EXPECT_NEAR(lightness({119 / 255.0, 119 / 255.0, 119 / 255.0}), 50.03, 0.01);
}

// Common practice, no source: a map that is to survive grey printing must never rise in lightness.
TEST(Colour, sequential_lightness_falls_all_along) {
  for (int k = 0; k < 256; ++k)
    EXPECT_GT(lightness(sequential(k / 256.0)), lightness(sequential((k + 1) / 256.0))) << k;
  EXPECT_GT(lightness(sequential(0)) - lightness(sequential(1)), 70);
}

// Perceptual uniformity: steps of equal t have about equal OKLab length by construction; here seen from CIE L*, which
// the construction does not use. Tolerance: a factor 2 about the mean, because L* is only one of three coordinates.
TEST(Colour, sequential_lightness_falls_evenly) {
  const double mean = (lightness(sequential(0)) - lightness(sequential(1))) / 16;
  for (int k = 0; k < 16; ++k) {
    const double step = lightness(sequential(k / 16.0)) - lightness(sequential((k + 1) / 16.0));
    EXPECT_GT(step, mean / 2) << k;
    EXPECT_LT(step, mean * 2) << k;
  }
}

TEST(Colour, diverging_lightness_falls_alike_on_both_sides) {
  for (int k = 0; k < 64; ++k) {
    const double s = k / 64.0, t = (k + 1) / 64.0;
    EXPECT_GT(lightness(diverging(s)), lightness(diverging(t)));
    EXPECT_GT(lightness(diverging(-s)), lightness(diverging(-t)));
    // OKLab and CIE lightness differ a little with hue: 4 units of L* are hardly seen.
    EXPECT_NEAR(lightness(diverging(t)), lightness(diverging(-t)), 4);
  }
}

TEST(Colour, values_beyond_the_ends_take_the_end_colours) {
  EXPECT_EQ(hex(sequential(-3)), hex(sequential(0)));
  EXPECT_EQ(hex(sequential(7)), hex(sequential(1)));
  EXPECT_EQ(hex(diverging(-9)), hex(diverging(-1)));
  EXPECT_EQ(hex({2, -1, 0.5}), "#ff0080");
}

TEST(Colour, curve_colours_are_dark_enough_for_lines_and_neighbours_differ) {
  for (std::size_t k = 0; k < 20; ++k) {
    EXPECT_LE(lightness(curve_colour(k)), 62) << k;
    EXPECT_NE(hex(curve_colour(k)), hex(curve_colour(k + 1)));
  }
}

TEST(Scale, bands_are_whole_steps_between_the_ends) {
  const auto levels = band_levels({0, 300, "pressure", "kPa", Map::sequential});
  EXPECT_DOUBLE_EQ(levels.front(), 0);
  EXPECT_DOUBLE_EQ(levels.back(), 300);
  for (std::size_t k = 1; k < levels.size(); ++k) EXPECT_NEAR(levels[k] - levels[k - 1], 25, 1e-9);
  const auto odd = band_levels({0.3, 9.9, "pressure", "kPa", Map::sequential});
  EXPECT_DOUBLE_EQ(odd.front(), 0.3);
  EXPECT_DOUBLE_EQ(odd.back(), 9.9);
}

TEST(Scale, a_diverging_scale_is_symmetric_about_zero) {
  const ColourScale scale = rounded_scale(-3, 17, "difference", "kPa", Map::diverging);
  EXPECT_DOUBLE_EQ(scale.low, -scale.high);
  EXPECT_GE(scale.high, 17);
}

TEST(Scale, a_scale_without_width_is_refused) {
  EXPECT_THROW((void)band_levels({5, 5, "pressure", "kPa", Map::sequential}), std::invalid_argument);
  EXPECT_THROW((void)band_levels({0, std::nan(""), "pressure", "kPa", Map::sequential}), std::invalid_argument);
}

}  // namespace
}  // namespace hoofload::viz
