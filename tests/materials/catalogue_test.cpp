// The catalogue that is shipped, and what the reader says about a bad one.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

#include "materials/catalogue.hpp"
#include "materials/catalogue_keys.hpp"
#include "materials/catalogue_table.hpp"
#include "materials/hardness.hpp"

namespace hoofload::materials::test {
namespace {

const Catalogue& shipped() {
  static const Catalogue catalogue = load_catalogue();
  return catalogue;
}

const Entry& entry(std::string_view id) {
  const Entry* found = find(shipped(), id);
  if (!found) throw std::runtime_error("no entry " + std::string(id));
  return *found;
}

double parameter(std::string_view id, std::string_view key) { return entry(id).parameters.find(key)->second.value; }

TEST(Catalogue, every_solid_makes_its_law_at_value_low_and_high) {
  for (const Entry& e : shipped().entries) {
    if (!is_solid(e)) continue;
    EXPECT_NO_THROW((void)law_of(e)) << e.id;
    for (const auto& [key, graded] : e.parameters) {
      for (double end : {graded.low, graded.high}) {
        Entry sampled = e;
        sampled.parameters.find(key)->second.value = end;
        EXPECT_NO_THROW((void)law_of(sampled)) << e.id << " " << key << " " << end;
      }
    }
  }
}

TEST(Catalogue, what_is_no_solid_says_so) {
  EXPECT_FALSE(is_solid(entry("deep digital flexor tendon")));
  EXPECT_FALSE(is_solid(entry("rigid")));
  try {
    (void)law_of(entry("rigid"));
    FAIL();
  } catch (const CatalogueError& error) {
    EXPECT_STREQ(error.what(), "material \"rigid\": \"rigid\" is not a solid and has no stress");
  }
}

// Ranges of moduli: Hinterhofer et al. 1998 (wall 735, sole 230, frog 9.9 MPa as rounded for standing), Douglas et al. 1996
// (wall 460-1049), Douglas et al. 1998 with Kochova et al. 2013 (lamellae), handbooks (metals).
TEST(Catalogue, default_tissues_and_metals_carry_the_reviewed_values) {
  EXPECT_EQ(parameter("wall", "E"), 735);
  EXPECT_EQ(parameter("sole horn", "E"), 230);
  EXPECT_EQ(parameter("frog horn", "E"), 10);
  EXPECT_EQ(parameter("wall outer", "E_L"), 900);
  EXPECT_EQ(parameter("wall inner", "E_T"), 350);
  EXPECT_EQ(parameter("lamellae", "C20"), 1.93);
  EXPECT_EQ(parameter("lamellae", "kappa"), 10);
  EXPECT_EQ(parameter("sole corium", "E"), 1);
  EXPECT_EQ(parameter("distal phalanx", "E"), 3000);
  EXPECT_EQ(parameter("mild steel", "E"), 205000) << "given in GPa";
  EXPECT_EQ(parameter("polyurethane A95", "E"), 55);
  EXPECT_EQ(parameter("arena", "E"), 3);
}

// Gent 1958 for the value; the range spans Qi, Joyce & Boyce 2003 and Gent's theory with the tip radius in place of the mean
// radius of the punch (1.33 E). The ends are printed to two decimals or three digits.
TEST(Catalogue, elastomers_graded_by_shore_a_follow_gent_within_the_range_of_other_readings) {
  int seen = 0;
  for (const Entry& e : shipped().entries) {
    if (!e.source.starts_with("Gent 1958 (value)")) continue;
    const double A = e.properties.at("shore_a").value;
    const Graded& E = e.parameters.at("E");
    EXPECT_NEAR(E.value, gent_modulus(A).E, 5e-4 * E.value) << e.id;
    EXPECT_NEAR(E.high, std::max(qi_modulus(A).E, 1.33 * gent_modulus(A).E), 0.005 + 0.005 * E.high) << e.id;
    EXPECT_NEAR(E.low, std::min(qi_modulus(A).E, gent_modulus(A).E), 0.01) << e.id;
    const auto law = std::get<NeoHooke>(law_of(e));
    EXPECT_NEAR(law.mu, shear_modulus(E.value, 1500), 1e-12) << e.id;
    ++seen;
  }
  EXPECT_EQ(seen, 14);
}

TEST(Catalogue, nearly_incompressible_entries_split_off_their_bulk_modulus) {
  for (const char* id :
       {"silicone A30", "polyurethane A40", "lamellae", "digital cushion palmar", "natural rubber 60"}) {
    const double ratio = std::visit(
        [](const auto& law) {
          if constexpr (requires { law.kappa; }) return kappa0(law) / mu0(law);
          return 0.0;
        },
        law_of(entry(id)));
    EXPECT_GT(ratio, 20) << id;
  }
}

TEST(Catalogue, words_of_the_trade_are_found_under_any_spelling_of_case_and_alias) {
  EXPECT_EQ(find(shipped(), "Mild Steel"), find(shipped(), "steel"));
  EXPECT_EQ(find(shipped(), "DDFT"), find(shipped(), "deep digital flexor tendon"));
  EXPECT_EQ(find(shipped(), "unobtainium"), nullptr);
  EXPECT_EQ(nearest_id(shipped(), "sillicone A30"), "silicone A30");
  EXPECT_TRUE(serves(entry(nearest_id(shipped(), "steel", Kind::ground)), Kind::ground));
}

TEST(Catalogue, every_surface_rubs_on_every_ground_and_on_horn) {
  std::set<std::string> surfaces, grounds;
  for (const Entry& e : shipped().entries) {
    if (e.surface.empty()) continue;
    (serves(e, Kind::ground) ? grounds : surfaces).insert(e.surface);
  }
  for (const std::string& a : surfaces) {
    EXPECT_NE(find_friction(shipped(), a, "horn"), nullptr) << a;
    for (const std::string& b : grounds) EXPECT_NE(find_friction(shipped(), b, a), nullptr) << a << " " << b;
  }
  EXPECT_EQ(find_friction(shipped(), "mild steel", "concrete")->mu.value, 0.4);
  EXPECT_EQ(find_friction(shipped(), "concrete", "sole horn")->mu.value, 0.6);
}

/// What the reader says about a text, "" when it is content.
std::string complaint(std::string_view text) {
  Catalogue catalogue;
  try {
    read_catalogue(text, "x.toml", catalogue);
    return "";
  } catch (const CatalogueError& error) {
    return error.what();
  }
}

/// A valid entry with one line replaced.
std::string variant_of(const std::string& line, const std::string& replacement) {
  std::string text =
      "[[material]]\nid = \"m\"\nkind = \"pad\"\nlaw = \"neo-Hooke\"\nsource = \"s\"\ngrade = "
      "\"C\"\n[material.parameters]\n"
      "E = { value = 2, low = 1, high = 3, unit = \"MPa\" }\nkappa = { value = 1, low = 1, high = 2, unit = \"GPa\" "
      "}\n";
  if (!line.empty()) text.replace(text.find(line), line.size(), replacement);
  return text;
}

TEST(CatalogueReader, converts_units_and_inherits_source_and_grade) {
  Catalogue catalogue;
  read_catalogue(variant_of("", ""), "x.toml", catalogue);
  const Graded& kappa = catalogue.entries.at(0).parameters.at("kappa");
  EXPECT_EQ(kappa.value, 1000);
  EXPECT_EQ(kappa.high, 2000);
  EXPECT_EQ(kappa.unit, "MPa");
  EXPECT_EQ(kappa.source, "s");
  EXPECT_EQ(kappa.grade, 'C');
}

TEST(CatalogueReader, every_fault_names_file_line_entry_key_and_what_is_allowed) {
  const struct {
    std::string line, replacement, says;
  } faults[] = {
      {"kind = \"pad\"", "kindd = \"pad\"", "x.toml:3: material \"m\": unknown key \"kindd\"; did you mean \"kind\"?"},
      {"kind = \"pad\"", "kind = \"hat\"",
       "x.toml:3: material \"m\": kind must be tissue, shoe, pad, packing or ground"},
      {"neo-Hooke", "neo-Hook", "x.toml:4: material \"m\": unknown law \"neo-Hook\"; did you mean \"neo-Hooke\"?"},
      {"source = \"s\"\n", "", "x.toml:1: material \"m\": key \"source\" is missing"},
      {"\"C\"", "\"E\"", "grade must be A, B, C or D"},
      {"\"MPa\"", "\"mPa\"", "x.toml:8: material \"m\", E: unit \"mPa\" does not fit; allowed: MPa, N/mm^2, kPa, GPa"},
      {"\"MPa\"", "\"deg\"", "x.toml:8: material \"m\", E: unit \"deg\" does not fit"},
      {"value = 2", "value = 9", "x.toml:8: material \"m\", E: low <= value <= high does not hold"},
      {"value = 2", "value = nan", "\"value\" must be a finite number"},
      {"value = 2, ", "", "material \"m\", E: key \"value\" is missing"},
      {"low = 1, high = 3", "low = -1, high = 3", "E: must lie between 0 and inf MPa"},
      {"E = {", "mu = {", ""},
      {"E = { value = 2, low = 1, high = 3, unit = \"MPa\" }",
       "nu = { value = 0.3, low = 0.1, high = 0.5, unit = \"1\" }", "nu: must lie between -1 and 0.5"},
      {"E = {", "area = {", "unit \"MPa\" does not fit; allowed: mm^2, cm^2"},
      {"E = { value = 2, low = 1, high = 3, unit = \"MPa\" }\n", "",
       "parameters of law \"neo-Hooke\" must be exactly {mu, kappa} or {E, nu} or {E, kappa} or {shore_a, kappa}"},
      {"id = \"m\"", "id = \"\"", "\"id\" must be a text that is not empty"},
      {"id = \"m\"", "id = 3", "\"id\" must be a text that is not empty"},
      {"[[material]]", "[[materiall]]", "unknown key \"materiall\"; did you mean \"material\"?"},
      {"[[material]]", "[material]", "must be a list of tables"},
  };
  for (const auto& fault : faults) {
    const std::string said = complaint(variant_of(fault.line, fault.replacement));
    if (fault.says.empty()) {
      EXPECT_EQ(said, "") << fault.replacement;
    } else {
      EXPECT_NE(said.find(fault.says), std::string::npos) << fault.replacement << " -> " << said;
    }
  }
}

TEST(CatalogueReader, an_entry_cannot_be_given_twice) {
  EXPECT_NE(
      complaint(variant_of("", "") + variant_of("", "")).find("x.toml:10: material \"m\": \"m\" is taken already"),
      std::string::npos);
}

TEST(CatalogueReader, unstable_anisotropy_is_refused) {
  const std::string text =
      "[[material]]\nid = \"m\"\nkind = \"pad\"\nlaw = \"linear transverse\"\nsource = \"s\"\ngrade = "
      "\"C\"\n[material.parameters]\n"
      "E_L = { value = 500, low = 500, high = 500, unit = \"MPa\" }\nE_T = { value = 300, low = 300, high = 300, unit "
      "= \"MPa\" }\n"
      "G_LT = { value = 150, low = 150, high = 150, unit = \"MPa\" }\nnu_TT = { value = 0.35, low = 0.35, high = 0.35, "
      "unit = \"1\" }\n"
      "nu_LT = { value = 0.8, low = 0.8, high = 0.8, unit = \"1\" }\n";
  EXPECT_NE(complaint(text).find("give a negative energy"), std::string::npos) << complaint(text);
}

// Inputs on which release 3.3 of the parser is known to abort, and text that is no UTF-8.
TEST(CatalogueReader, broken_text_is_an_error_and_not_a_crash) {
  for (const std::string& text : {std::string("[&"), std::string("a = \"\xff\xfe\""), std::string("[[material]"),
                                  std::string("material = [1, 2]"), std::string("a = 1e999999x"), std::string("=")}) {
    EXPECT_TRUE(complaint(text).starts_with("x.toml:")) << text << " -> " << complaint(text);
  }
}

TEST(CatalogueReader, a_folder_without_catalogue_is_named) {
  EXPECT_THROW((void)load_catalogue("no/such/folder"), CatalogueError);
}

TEST(Catalogue, documentation_page_is_current) {
  const auto path = data_directory().parent_path() / "docs" / "materials.md";
  const std::string page = catalogue_table_markdown(shipped());
  if (std::getenv("HOOFLOAD_WRITE_DOCS")) std::ofstream(path) << page;
  std::ifstream stream(path);
  std::ostringstream stored;
  stored << stream.rdbuf();
  EXPECT_TRUE(stored.str() == page)
      << "docs/materials.md differs from the catalogue: run this test with HOOFLOAD_WRITE_DOCS=1";
}

}  // namespace
}  // namespace hoofload::materials::test
