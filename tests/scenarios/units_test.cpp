// Number grammar, unit table and text of scenarios/units. Factors: SI brochure 9th ed. and NIST SP 811 (inch, pound and
// standard gravity are exact by definition); fractions: common practice.
#include "scenarios/units.hpp"

#include <gtest/gtest.h>
#include <cmath>
#include <numbers>
#include <random>

namespace hoofload::scenarios {
namespace {

struct Good {
  const char* text;
  Dimension dimension;
  double value;
};

TEST(Units, good_texts_give_the_inside_value) {
  const double degree = std::numbers::pi / 180;
  const Good table[] = {
      {"3.2 mm", Dimension::length, 3.2},
      {"3.2mm", Dimension::length, 3.2},
      {"1/8 in", Dimension::length, 3.175},
      {"1 1/4 in", Dimension::length, 31.75},  // the case that general unit parsers read as 6.35 mm
      {"5/16\"", Dimension::length, 7.9375},
      {"2 cm", Dimension::length, 20},
      {"-3 deg", Dimension::angle, -3 * degree},
      {"6 deg", Dimension::angle, 6 * degree},
      {"6\u00b0", Dimension::angle, 6 * degree},
      {"55 ShoreA", Dimension::hardness, 55},
      {"55 Shore A", Dimension::hardness, 55},
      {"500 kg", Dimension::mass, 500},
      {"1100 lb", Dimension::mass, 498.951607},
      {"2500 N", Dimension::force, 2500},
      {"2.5 kN", Dimension::force, 2500},
      {"100 lbf", Dimension::force, 444.8221615260500},
      {"0.3 MPa", Dimension::pressure, 0.3},
      {"300 kPa", Dimension::pressure, 0.3},
      {"205 GPa", Dimension::pressure, 205000},
      {"100 psi", Dimension::pressure, 0.6894757293168361},
      {"285 ms", Dimension::time, 0.285},
      {"2.75 N/kg", Dimension::force_per_mass, 2.75},
      {"0.247 kN/mm", Dimension::stiffness, 247},
      {"110 mm^2", Dimension::area, 110},
      {"50 %", Dimension::none, 0.5},
      {"1e3 N", Dimension::force, 1000},
      {"  .5  mm ", Dimension::length, 0.5},
  };
  for (const Good& good : table) {
    const ParsedQuantity parsed = parse_quantity(good.text);
    ASSERT_TRUE(parsed.quantity) << good.text << ": " << parsed.problem;
    EXPECT_EQ(parsed.quantity->dimension, good.dimension) << good.text;
    EXPECT_NEAR(parsed.quantity->value, good.value, 1e-12 * std::abs(good.value)) << good.text;
  }
}

TEST(Units, anything_else_is_refused_with_a_reason) {
  for (const char* text :
       {"",           "   ",       "mm",      "1-3 mm", "3,2 mm",   "3.2.1 mm",     "1/0 in", "1 2 mm",
        "1 1/4/2 in", "a mm",      "nan mm",  "inf mm", "1e999 mm", "0x10 mm",      "1e400",  "+-1 mm",
        "-",          "/8 in",     "1/ in",   "3 4 mm", "1. 5 mm",  "1234567/8 in", "6 mPa",  "6 kn",
        "200 gpa",    "3 furlong", "\xff mm", "3 \xff"}) {
    const ParsedQuantity parsed = parse_quantity(text);
    EXPECT_FALSE(parsed.quantity) << text;
    EXPECT_FALSE(parsed.problem.empty()) << text;
  }
}

TEST(Units, a_misspelt_unit_names_the_nearest) {
  EXPECT_EQ(parse_quantity("200 gpa").nearest, "GPa");
  EXPECT_EQ(parse_quantity("3 degs").nearest, "deg");
}

TEST(Units, a_bare_number_has_no_dimension) {
  const ParsedQuantity parsed = parse_quantity("3.2");
  ASSERT_TRUE(parsed.quantity);
  EXPECT_EQ(parsed.quantity->dimension, Dimension::none);
}

TEST(Units, a_value_read_from_text_writes_text_that_reads_back_to_the_same_bits) {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> decades(-6, 6);
  for (const Unit& unit : all_units()) {
    for (int k = 0; k < 300; ++k) {
      const std::string written =
          number_text((k % 2 == 0 ? 1 : -1) * std::pow(10, decades(random))) + " " + std::string(unit.name);
      const ParsedQuantity first = parse_quantity(written);
      ASSERT_TRUE(first.quantity) << written;
      const ParsedQuantity back = parse_quantity(quantity_text(first.quantity->value, unit.name));
      ASSERT_TRUE(back.quantity) << written;
      EXPECT_EQ(back.quantity->value, first.quantity->value) << written;
    }
  }
}

TEST(Units, text_of_a_value_is_the_one_a_person_would_write) {
  EXPECT_EQ(quantity_text(48 * (std::numbers::pi / 180), "deg"), "48 deg");
  EXPECT_EQ(quantity_text(3.175, "mm"), "3.175 mm");
  EXPECT_EQ(quantity_text(0.3, "kPa"), "300 kPa");
  EXPECT_EQ(quantity_text(0.5, ""), "0.5");
}

// Conversions of common practice: 1/16 = 1.6, 1/8 = 3.2, 1/4 = 6.4, 5/16 = 7.9, 7/8 = 22.2 mm.
TEST(Units, millimetres_carry_the_nearest_sixteenth) {
  EXPECT_EQ(with_inch_fraction(6.35), "6.35 mm (1/4 in)");
  EXPECT_EQ(with_inch_fraction(3.2), "3.2 mm (1/8 in)");
  EXPECT_EQ(with_inch_fraction(7.9), "7.9 mm (5/16 in)");
  EXPECT_EQ(with_inch_fraction(22.225), "22.23 mm (7/8 in)");
  EXPECT_EQ(with_inch_fraction(31.75), "31.75 mm (1 1/4 in)");
  EXPECT_EQ(with_inch_fraction(25.4), "25.4 mm (1 in)");
  EXPECT_EQ(with_inch_fraction(10), "10 mm (about 3/8 in)");
  EXPECT_EQ(with_inch_fraction(0), "0 mm");
  EXPECT_EQ(with_inch_fraction(-6.35), "-6.35 mm (-1/4 in)");
}

}  // namespace
}  // namespace hoofload::scenarios
