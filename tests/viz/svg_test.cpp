#include "viz/svg.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/viz/xml_check.hpp"
#include "viz/labels.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

// XML 1.0 (2008) sections 2.2-2.4: what the checker itself must refuse, so that the other tests mean something.
TEST(XmlCheck, refuses_what_is_not_well_formed) {
  EXPECT_EQ(tests::xml_problem("<?xml version=\"1.0\"?>\n<a><b c=\"1\"/>x &amp; y</a>"), "");
  for (const char* bad : {"<a><b></a></b>", "<a", "<a>&x;</a>", "<a c=1/>", "<a c=\"1\" c=\"2\"/>", "<a/><b/>", "x",
                          "<a>\x01</a>", "<a c=\"<\"/>", "<a>", ""})
    EXPECT_NE(tests::xml_problem(bad), "") << bad;
}

TEST(Svg, hostile_text_leaves_the_file_well_formed) {
  const std::string hostile = "a<b>&\"'\x01\xff\xc0\x80 ü 5″ \xed\xa0\x80";
  const auto file = svg::document({10, 10}, hostile, hostile, svg::text({1, 2}, hostile, {}) + svg::group(hostile, ""));
  EXPECT_EQ(tests::xml_problem(file), "");
  EXPECT_NE(file.find("a&lt;b&gt;&amp;&quot;"), std::string::npos);
  EXPECT_NE(file.find("ü 5″"), std::string::npos);
  EXPECT_EQ(file.find('\xff'), std::string::npos);
}

TEST(Svg, numbers_are_short_and_finite) {
  EXPECT_EQ(svg::number(1.0), "1");
  EXPECT_EQ(svg::number(-0.001), "0");
  EXPECT_EQ(svg::number(12.3456), "12.35");
  EXPECT_EQ(svg::number(-100), "-100");
  EXPECT_THROW((void)svg::number(std::nan("")), std::invalid_argument);
  EXPECT_THROW((void)svg::number(INFINITY), std::invalid_argument);
}

TEST(Svg, points_that_print_alike_are_written_once) {
  EXPECT_EQ(svg::path_data({{0, 0}, {0.001, 0}, {1, 2}}, "Z"), "M0 0L1 2Z");
}

TEST(Svg, a_negative_number_in_text_gets_a_minus_sign_and_a_word_keeps_its_hyphen) {
  EXPECT_NE(svg::text({0, 0}, "-3 kPa", {})
                .find("\xE2\x88\x92"
                      "3 kPa"),
            std::string::npos);
  EXPECT_NE(svg::text({0, 0}, "mid-stance", {}).find("mid-stance"), std::string::npos);
}

TEST(Text, numbers_keep_their_whole_digits) {
  EXPECT_EQ(number_text(1372.8), "1373");
  EXPECT_EQ(number_text(9.996), "10.0");
  EXPECT_EQ(number_text(0.04567), "0.0457");
  EXPECT_EQ(number_text(0), "0");
  EXPECT_EQ(number_text(-12.34), "-12.3");
  EXPECT_EQ(number_text(3.2e-7), "3.20e-07");
  EXPECT_EQ(number_text(std::nan("")), "n/a");
  EXPECT_EQ(signed_text(2.5), "+2.50");
  EXPECT_EQ(plain_text(0.5), "0.5");
  EXPECT_EQ(plain_text(20), "20");
}

TEST(Text, widths_count_characters_not_bytes) {
  EXPECT_EQ(columns("6° elevation"), 12);
  EXPECT_EQ(columns("e\xCC\x81"), 1);  // combining acute accent
  EXPECT_EQ(columns("蹄鉄"), 4);       // East Asian wide
  EXPECT_EQ(columns(left_aligned("µε", 6)), 6);
  EXPECT_EQ(right_aligned("6°", 4), "  6°");
  EXPECT_EQ(left_aligned("abcdef", 4), "abc…");
}

TEST(Text, wrapping_keeps_every_word_and_the_width) {
  std::string joined;
  for (const auto& line : wrapped("one two  three four five", 9)) {
    EXPECT_LE(columns(line), 9);
    joined += line + " ";
  }
  EXPECT_EQ(joined, "one two three four five ");
}

TEST(Text, ticks_are_round_and_inside) {
  EXPECT_EQ(ticks(0, 10, 5), (std::vector<double>{0, 2, 4, 6, 8, 10}));
  for (const double t : ticks(-0.37, 12.9, 7)) {
    EXPECT_GE(t, -0.37);
    EXPECT_LE(t, 12.9);
  }
  EXPECT_THROW((void)ticks(1, 1, 5), std::invalid_argument);
}

TEST(Labels, labels_at_one_place_do_not_overlap) {
  std::vector<Label> labels(12, {{200, 200}, "ground force 1373 N", {1, -1}, "#000000"});
  const Box taken{{190, 190}, {210, 210}};
  const auto placed = place(labels, {taken}, {{0, 0}, {600, 400}}, 13);
  for (std::size_t i = 0; i < placed.size(); ++i) {
    EXPECT_FALSE(overlap(placed[i].box, taken));
    EXPECT_GE(placed[i].box.low.minCoeff(), 0);
    for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(overlap(placed[i].box, placed[j].box)) << i << " " << j;
  }
}

}  // namespace
}  // namespace hoofload::viz
