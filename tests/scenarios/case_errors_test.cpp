// Bad cases: each seeded fault is found at its line and column, with key, reason and nearest name; all in one pass.
#include "tests/scenarios/case_fixture.hpp"

#include <gtest/gtest.h>

namespace hoofload::scenarios {
namespace {

struct Bad {
  const char* text;  ///< below "schema = 1\n", so that its first line is line 2
  int line, column;
  const char* key;
  const char* problem;  ///< part of it
  const char* nearest;  ///< part of it
};

void expect_found(const std::string& text, const Bad& bad) {
  const CaseReading r = read(text);
  EXPECT_TRUE(r.runs.empty()) << text;
  const auto found = std::find_if(r.errors.begin(), r.errors.end(), [&](const CaseError& e) {
    return e.at == Location{bad.line, bad.column} && e.key == bad.key &&
           e.problem.find(bad.problem) != std::string::npos && e.nearest.find(bad.nearest) != std::string::npos;
  });
  EXPECT_NE(found, r.errors.end()) << text << "wanted " << bad.line << ":" << bad.column << " " << bad.key << ": "
                                   << bad.problem << "\n"
                                   << all_errors(r.errors);
}

/// The fault, and nothing else, must be reported.
void expect_alone(const Bad& bad) {
  const std::string text = std::string("schema = 1\n") + bad.text;
  expect_found(text, bad);
  EXPECT_EQ(read(text).errors.size(), 1u) << text << all_errors(read(text).errors);
}

TEST(CaseErrors, names_and_values) {
  const Bad table[] = {
      {"[shoe]\nsetbak = \"1/8 in\"\n", 3, 1, "shoe.setbak", "unknown key", "shoe.setback"},
      {"[nails]\nsetback = \"1/8 in\"\n", 3, 1, "nails.setback", "unknown key", "shoe.setback"},
      {"[sho]\nsetback = \"1/8 in\"\n", 2, 2, "sho", "unknown section", "shoe"},
      {"titel = \"x\"\n", 2, 1, "titel", "unknown key", "title"},
      {"mass = \"500 kg\"\n", 2, 1, "mass", "unknown key", "horse.mass"},
      {"[shoe]\nsetback = \"1/8 deg\"\n", 3, 11, "shoe.setback", "wrong unit", ""},
      {"[shoe]\nsetback = 3.2\n", 3, 11, "shoe.setback", "without a unit", ""},
      {"[shoe]\nsetback = \"3.2\"\n", 3, 11, "shoe.setback", "without a unit", ""},
      {"[shoe]\nsetback = \"3.2 mn\"\n", 3, 11, "shoe.setback", "unknown unit", "mm"},
      {"[shoe]\nsetback = \"\"\n", 3, 11, "shoe.setback", "missing value", ""},
      {"[shoe]\nsetback =\n", 3, 1, "setback", "missing value", ""},
      {"[shoe]\nsetback = true\n", 3, 11, "shoe.setback", "expected", ""},
      {"[shoe]\nsetback = [1]\n", 3, 11, "shoe.setback", "expected", ""},
      {"[shoe]\nsetback = \"1-3 mm\"\n", 3, 11, "shoe.setback", "malformed number", ""},
      {"[shoe]\nsetback = \"-3 mm\"\n", 3, 11, "shoe.setback", "out of range", ""},
      {"[foot]\ntoe_angle = \"80 deg\"\n", 3, 13, "foot.toe_angle", "out of range", ""},
      {"[shoe]\ntype = \"opne\"\n", 3, 8, "shoe.type", "unknown word", "open"},
      {"[shoe]\ntype = 3\n", 3, 8, "shoe.type", "expected one of", ""},
      {"[shoe]\nmaterial = \"mild stel\"\n", 3, 12, "shoe.material", "unknown material", "mild steel"},
      {"[shoe]\nmaterial = \"lamellae\"\n", 3, 12, "shoe.material", "not a shoe material", ""},
      {"[nails]\ncount = 2.5\n", 3, 9, "nails.count", "expected a whole number", ""},
      {"[nails]\ncount = 99\n", 3, 9, "nails.count", "out of range", ""},
      {"[study]\nbars = 1\n", 3, 8, "study.bars", "expected true or false", ""},
      {"[study]\ndensity = nan\n", 3, 11, "study.density", "not a finite number", ""},
      {"[study]\ndensity = \"2 mm\"\n", 3, 11, "study.density", "wrong unit", ""},
      {"[load]\nphases = \"standing\"\n", 3, 10, "load.phases", "expected a list", ""},
      {"[load]\nphases = []\n", 3, 10, "load.phases", "empty list", ""},
      {"[load]\nphases = [\"standng\"]\n", 3, 10, "load.phases", "unknown word", "standing"},
      {"[load]\nphases = [\"swing\", \"swing\"]\n", 3, 10, "load.phases", "twice", ""},
      {"[horse]\nmass = 1979-05-27\n", 3, 8, "horse.mass", "date or time", ""},
      {"horse = 3\n", 2, 1, "horse", "expected a section", ""},
      {"option = 3\n", 2, 1, "option", "expected tables", ""},
      {"[shoe]\nweb = \"20 mm\"\nweb = \"22 mm\"\n", 4, 1, "web", "duplicate", ""},
      {"[foot]\ntoe_to_cor = \"85 mm\"\ntoe_to_centre = \"85 mm\"\n", 4, 1, "foot.toe_to_centre", "duplicate", ""},
      {"[materials]\n\"mild stel\".E = \"200 GPa\"\n", 3, 1, "materials.mild stel", "unknown material", "mild steel"},
      {"[materials]\n\"mild steel\".e = \"200 GPa\"\n", 3, 14, "materials.mild steel.e", "unknown parameter", "E"},
      {"[materials]\n\"mild steel\".E = \"2 mm\"\n", 3, 18, "materials.mild steel.E", "wrong unit", ""},
      {"[materials]\n\"mild steel\".E = \"-2 GPa\"\n", 3, 18, "materials.mild steel.E", "out of range", ""},
      {"[[option]]\nshoe.setback = \"1/8 in\"\n", 2, 1, "option", "no name", ""},
      {"[[option]]\nname = \"baseline\"\n", 3, 8, "name", "duplicate", ""},
      {"[[option]]\nname = \"a\"\nload.phases = [\"swing\"]\n", 4, 6, "load.phases", "whole case", ""},
      {"[shoe]\nthis line is no TOML\n", 3, 6, "", "not TOML", ""},
      {"title = \"\xc3(\"\n", 2, 10, "", "UTF-8", ""},
  };
  for (const Bad& bad : table) expect_alone(bad);
}

TEST(CaseErrors, impossible_geometry) {
  const Bad table[] = {
      {"[shoe]\nheel_extension = \"50 mm\"\n", 3, 18, "shoe.heel_extension", "longer than its foot", ""},
      {"[shoe]\nweb = \"70 mm\"\n", 3, 7, "shoe.web", "wider than the foot", ""},
      {"[shoe]\nsetback = \"24 mm\"\n", 3, 11, "shoe.setback", "misses the shoe", ""},
      {"[foot]\nsole_depth_tip = \"45 mm\"\n", 3, 18, "foot.sole_depth_tip", "deeper than the bone is high", ""},
      {"[foot]\nsole_horn = \"15 mm\"\n", 3, 13, "foot.sole_horn", "no corium", ""},
      {"[foot]\nwall_thickness_toe = \"15 mm\"\n", 3, 22, "foot.wall_thickness_toe", "thicker than the horn-lamellar",
       ""},
      {"[foot]\nlamella_end = \"60 mm\"\nbearing_length = \"119 mm\"\n", 3, 15, "foot.lamella_end", "dorsal half", ""},
      {"[foot]\nfrog_length = \"129 mm\"\n", 3, 15, "foot.frog_length", "longer than the foot", ""},
      {"[foot]\ntoe_to_cor = \"129 mm\"\n", 3, 14, "foot.toe_to_cor", "behind the foot", ""},
      {"[shoe]\ntype = \"full plate\"\nplate_thickness = \"12 mm\"\n", 4, 19, "shoe.plate_thickness", "negative void",
       ""},
      {"[shoe]\nlayer_thickness = \"12 mm\"\nlayer_material = \"polyurethane A90\"\n", 3, 19, "shoe.layer_thickness",
       "as thick as", ""},
      {"[shoe]\ntoe = \"rocker\"\nrocker_angle = \"40 deg\"\n", 4, 16, "shoe.rocker_angle", "cuts through", ""},
      {"[shoe]\nbreakover = \"80 mm\"\nsetback = \"10 mm\"\n", 3, 13, "shoe.breakover", "behind the coffin joint", ""},
      {"[nails]\nlast = \"140 mm\"\n", 3, 8, "nails.last", "outside the shoe", ""},
      {"[nails]\nfirst = \"80 mm\"\n", 3, 9, "nails.first", "behind the last", ""},
      {"[packing]\nregion = \"full sole\"\nmaterial = \"silicone A30\"\nthickness = \"30 mm\"\n", 5, 13,
       "packing.thickness", "deeper than the void", ""},
      {"[foot]\npalmar_angle = \"-12 deg\"\ntoe_angle = \"50 deg\"\n", 3, 16, "foot.palmar_angle",
       "foot.hl_distal follows", ""},
  };
  for (const Bad& bad : table) expect_found(std::string("schema = 1\n") + bad.text, bad);
}

TEST(CaseErrors, contradictions) {
  const Bad table[] = {
      {"[packing]\nregion = \"full sole\"\n", 3, 10, "packing.region", "without a material", ""},
      {"[pad]\ntype = \"full\"\n", 3, 8, "pad.type", "without a material", ""},
      {"[shoe]\ntype = \"bare\"\n[pad]\ntype = \"full\"\n", 5, 8, "pad.type", "the foot is bare", ""},
      {"[shoe]\ntype = \"bare\"\n[nails]\ncount = 6\n", 5, 9, "nails.count", "the foot is bare", ""},
      {"[shoe]\nattachment = \"glued\"\n[nails]\ncount = 6\n", 5, 9, "nails.count", "not nailed", ""},
      {"[shoe]\nplate_thickness = \"5 mm\"\n", 3, 19, "shoe.plate_thickness", "no plate or bar", ""},
      {"[shoe]\nroll_radius = \"20 mm\"\n", 3, 15, "shoe.roll_radius", "not rolled", ""},
      {"[packing]\nmaterial = \"silicone A30\"\n", 3, 12, "packing.material", "no packing", ""},
      {"[ground]\ndepth = \"50 mm\"\n", 3, 9, "ground.depth", "rigid", ""},
      {"[ground]\ntype = \"elastic\"\n", 3, 8, "ground.type", "without a material", ""},
      {"[load]\nforce = \"2500 N\"\n", 3, 9, "load.force", "not asked for", ""},
      {"[load]\nphases = [\"press\"]\n", 3, 10, "load.phases", "without a force", ""},
      {"[shoe]\ntype = \"full plate\"\n[packing]\nregion = \"full sole\"\nmaterial = \"silicone A30\"\nproud = \"1 "
       "mm\"\n",
       7, 9, "packing.proud", "just fills the void", ""},
      {"[packing]\nregion = \"full sole\"\nmaterial = \"silicone A30\"\nproud = \"1 mm\"\nthickness = \"3 mm\"\n", 5, 9,
       "packing.proud", "does not reach the sole", ""},
  };
  for (const Bad& bad : table) expect_alone(bad);
}

TEST(CaseErrors, a_setting_that_some_option_uses_is_no_contradiction) {
  const CaseReading r = read(
      "schema = 1\n[shoe]\ntype = \"bare\"\n[nails]\ncount = 8\n[[option]]\nname = \"shod\"\nshoe.type = \"open\"\n");
  EXPECT_EQ(r.runs.size(), 2u) << all_errors(r.errors);
}

TEST(CaseErrors, packing_before_nailing_without_a_backing_may_stand_proud_of_the_ground_face) {
  EXPECT_EQ(read("schema = 1\n[packing]\nregion = \"full sole\"\nmaterial = \"silicone A30\"\norder = \"before "
                 "nailing\"\nproud = \"1 mm\"\n")
                .errors.size(),
            0u);
}

TEST(CaseErrors, all_problems_are_found_in_one_pass_and_in_order) {
  const CaseReading r = read(
      "[horse]\nmass = \"520 stone\"\n[shoe]\nsetback =\nweb = \"70 mm\"\ntype = \"opn\"\nthis is no TOML\nwbe = 3\n"
      "[foot]\nsole_depth_tip = \"50 mm\"\nsole_depth_tip = \"11 mm\"\n[[option]]\nshoe.setback = \"1/8 kg\"\n");
  std::vector<std::string> places;
  for (const CaseError& e : r.errors) places.push_back(std::to_string(e.at.line) + " " + e.key);
  EXPECT_EQ(places, (std::vector<std::string>{"1 schema", "2 horse.mass", "4 setback", "5 shoe.web", "6 shoe.type",
                                              "7 ", "8 shoe.wbe", "10 foot.sole_depth_tip", "11 sole_depth_tip",
                                              "12 option", "13 shoe.setback"}))
      << all_errors(r.errors);
}

TEST(CaseErrors, one_fault_of_the_baseline_is_told_once_however_many_options_inherit_it) {
  const CaseReading r =
      read("schema = 1\n[shoe]\nweb = \"70 mm\"\n[[option]]\nname = \"a\"\n[[option]]\nname = \"b\"\n");
  EXPECT_EQ(r.errors.size(), 1u) << all_errors(r.errors);
}

TEST(CaseErrors, a_fault_of_an_option_points_into_the_option) {
  const CaseReading r =
      read("schema = 1\n[shoe]\nweb = \"20 mm\"\n[[option]]\nname = \"a\"\nshoe.setback = \"21 mm\"\n");
  ASSERT_EQ(r.errors.size(), 1u) << all_errors(r.errors);
  EXPECT_EQ(r.errors[0].at, (Location{6, 16}));
  EXPECT_EQ(r.errors[0].key, "shoe.setback");
}

TEST(CaseErrors, an_error_is_one_line_with_place_key_value_range_and_nearest) {
  const CaseReading r = read("schema = 1\n[shoe]\nsetback = \"80 mm\"\nsetbak = 1\n");
  EXPECT_EQ(all_errors(r.errors),
            "case.toml:3:11: shoe.setback: out of range; given: \"80 mm\"; allowed: 0 mm to 60 mm\n"
            "case.toml:4:1: shoe.setbak: unknown key; nearest: shoe.setback\n");
}

TEST(CaseErrors, two_bytes_that_abort_the_parser_behind_are_an_error_like_any_other) {
  const CaseReading r = read("schema = 1\ntitle = \"x\"\n[&");
  ASSERT_EQ(r.errors.size(), 1u);
  EXPECT_EQ(r.errors[0].at.line, 3);
}

TEST(CaseErrors, letters_beyond_ascii_are_text_in_strings_and_an_error_elsewhere) {
  EXPECT_EQ(good_case("schema = 1\ntitle = \"\u00e9t\u00e9 \u2014 \u72ac \U0001F40E\" # \u00e4\n").title,
            "\u00e9t\u00e9 \u2014 \u72ac \U0001F40E");
  EXPECT_EQ(good_case("\xEF\xBB\xBFschema = 1\n").schema, 1);
  const CaseReading r = read("schema = 1\n\u00e9 = 3\n");
  ASSERT_EQ(r.errors.size(), 1u) << all_errors(r.errors);
  EXPECT_EQ(r.errors[0].at.line, 2);
  EXPECT_EQ(r.errors[0].value, "\u00e9 = 3");
  EXPECT_EQ(read("schema = 1\ntitle = \"\xF4\x8F\xBB\xBF\"\n").errors.size(), 1u) << "plane 16";
}

TEST(CaseErrors, measurements_that_disagree_are_a_warning) {
  const CaseReading r = read("schema = 1\n[foot]\ntoe_to_tip = \"45 mm\"\n");
  EXPECT_EQ(r.runs.size(), 1u) << all_errors(r.errors);
  ASSERT_EQ(r.warnings.size(), 1u) << all_errors(r.warnings);
  EXPECT_EQ(r.warnings[0].key, "foot.toe_to_tip");
}

}  // namespace
}  // namespace hoofload::scenarios
