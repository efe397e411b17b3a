// Reading good cases: defaults, options, synonyms, what follows from measurements, and the way back to text.
#include "scenarios/case_checks.hpp"
#include "scenarios/case_keys.hpp"
#include "scenarios/case_resolved.hpp"
#include "tests/scenarios/case_fixture.hpp"

#include <gtest/gtest.h>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

namespace hoofload::scenarios {
namespace {

using mesh::degree;

bool has(const std::vector<std::string>& keys, const std::string& key) {
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

std::string demo_text() {
  std::ifstream stream("scenarios/cases/demo.toml");
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

TEST(Case, the_shortest_case_is_the_reference_foot_and_says_so) {
  const Case c = good_case("schema = 1\n");
  EXPECT_EQ(c.name, "baseline");
  EXPECT_EQ(c.foot.toe_angle, mesh::Foot{}.toe_angle);
  EXPECT_EQ(c.foot.toe_to_cor, mesh::Foot{}.toe_to_cor);
  EXPECT_TRUE(c.followed.empty());
  EXPECT_TRUE(has(c.defaulted, "foot.toe_angle"));
  EXPECT_TRUE(has(c.defaulted, "shoe.type"));
  EXPECT_FALSE(has(c.defaulted, "packing.order")) << "without packing its order is no default in use";
}

TEST(Case, given_keys_are_not_called_defaults) {
  const Case c = good_case("schema = 1\n[foot]\ntoe_length = \"3 1/2 in\"\n");
  EXPECT_NEAR(c.foot.toe_length, 88.9, 1e-12);
  EXPECT_TRUE(has(c.given, "foot.toe_length"));
  EXPECT_FALSE(has(c.defaulted, "foot.toe_length"));
}

TEST(Case, options_override_by_dotted_keys_and_by_inline_tables_and_keep_the_rest) {
  const CaseReading r = read(
      "schema = 1\n[shoe]\nweb = \"20 mm\"\n[[option]]\nname = \"a\"\nshoe.setback = \"1/8 in\"\nfoot.sole_cup = \"8 "
      "mm\"\n"
      "[[option]]\nname = \"b\"\nshoe = { type = \"egg bar\", thickness = \"8 mm\" }\n[[option]]\nname = "
      "\"c\"\n[option.shoe]\nweb = \"1 in\"\n");
  ASSERT_EQ(r.runs.size(), 4u) << all_errors(r.errors);
  EXPECT_EQ(r.runs[0].name, "baseline");
  EXPECT_EQ(r.runs[0].shoeing.shoe.setback, 0);
  EXPECT_NEAR(r.runs[1].shoeing.shoe.setback, 3.175, 1e-12);
  EXPECT_EQ(r.runs[1].foot.sole_cup, 8);
  EXPECT_EQ(r.runs[1].shoeing.shoe.web, 20);
  EXPECT_EQ(r.runs[2].shoeing.shoe.type, mesh::ShoeType::egg_bar);
  EXPECT_EQ(r.runs[2].shoeing.shoe.setback, 0) << "options start from the baseline, not from each other";
  EXPECT_EQ(r.runs[3].shoeing.shoe.web, 25.4);
  EXPECT_TRUE(has(r.runs[1].changed, "shoe.setback"));
  EXPECT_FALSE(has(r.runs[1].changed, "shoe.web"));
}

TEST(Case, the_baseline_takes_a_name_from_the_top_level) {
  EXPECT_EQ(good_case("schema = 1\nname = \"as she came in\"\n").name, "as she came in");
}

TEST(Case, british_american_and_veterinary_words_mean_the_same) {
  const Case us = good_case(
      "schema = 1\n[foot]\ntoe_to_center = \"84 mm\"\n[nails]\nclinch = \"60 N\"\n[shoe]\nmaterial = \"aluminum\"\n");
  const Case uk = good_case(
      "schema = 1\n[foot]\ntoe_to_centre = \"84 mm\"\n[nails]\nclench = \"60 N\"\n[shoe]\nmaterial = \"aluminium\"\n");
  EXPECT_EQ(us.foot.toe_to_cor, 84);
  EXPECT_EQ(us.shoeing.nails.preload, 60);
  EXPECT_EQ(resolved_case_toml(us), resolved_case_toml(uk));
  EXPECT_EQ(good_case("schema = 1\n[shoe]\ntype = \"Full_Plate\"\n").shoeing.shoe.type, mesh::ShoeType::full_plate);
}

TEST(Case, catalogue_values_can_be_replaced_and_say_when_they_leave_the_published_range) {
  const CaseReading r = read(
      "schema = 1\n[materials]\n\"mild steel\".E = \"200 GPa\"\nlamellae.C20 = \"1 MPa\"\n\"sole horn\".E = \"2 "
      "GPa\"\n");
  ASSERT_EQ(r.runs.size(), 1u) << all_errors(r.errors);
  const auto& o = r.runs[0].overrides;
  ASSERT_EQ(o.size(), 3u);
  EXPECT_EQ(o[0], (MaterialOverride{"lamellae", "C20", 1, "MPa"}));
  EXPECT_EQ(o[1], (MaterialOverride{"mild steel", "E", 200000, "MPa"}));
  ASSERT_EQ(r.warnings.size(), 1u) << all_errors(r.warnings);
  EXPECT_EQ(r.warnings[0].key, "materials.sole horn.E");
}

TEST(Case, the_demo_has_its_nine_runs) {
  const CaseReading r = read(demo_text());
  ASSERT_EQ(r.runs.size(), 9u) << all_errors(r.errors);
  EXPECT_TRUE(r.warnings.empty()) << all_errors(r.warnings);
  const auto& runs = r.runs;
  EXPECT_NE(runs[0].title.find("invented horse"), std::string::npos);
  EXPECT_NEAR(runs[1].shoeing.shoe.setback, 25.4 / 8, 1e-12);
  EXPECT_NEAR(runs[2].shoeing.shoe.setback, 25.4 / 4, 1e-12);
  EXPECT_NEAR(runs[3].shoeing.shoe.elevation, 6 * degree, 1e-15);
  EXPECT_EQ(runs[4].shoeing.shoe.toe, mesh::ToeShape::rolled);
  for (std::size_t k = 5; k < 9; ++k) EXPECT_EQ(runs[k].shoeing.shoe.type, mesh::ShoeType::full_plate);
  EXPECT_EQ(runs[5].shoeing.packing.region, mesh::PackingRegion::none);
  EXPECT_EQ(runs[6].shoeing.packing.order, mesh::PackingOrder::before_nailing);
  EXPECT_EQ(runs[6].shoeing.packing.proud, 1);
  EXPECT_EQ(runs[7].shoeing.packing.order, mesh::PackingOrder::after_nailing);
  EXPECT_EQ(runs[8].shoeing.packing.region, mesh::PackingRegion::frog_rear);
}

TEST(Case, a_resolved_case_reads_back_to_the_same_case) {
  for (const Case& c : read(demo_text()).runs) {
    const std::string text = resolved_case_toml(c);
    const CaseReading again = read(text);
    ASSERT_EQ(again.runs.size(), 1u) << text << all_errors(again.errors);
    EXPECT_EQ(resolved_case_toml(again.runs[0]), text);
    EXPECT_EQ(case_fingerprint(again.runs[0]), case_fingerprint(c));
    for (const Key& key : case_keys()) {
      if (!why_unused(c, key.name).reason.empty()) continue;
      const auto* n = std::get_if<NumberAt>(&key.binding);
      if (n == nullptr) continue;
      EXPECT_EQ(n->get(again.runs[0]), n->get(c)) << key.name;
    }
  }
}

TEST(Case, every_run_has_its_own_fingerprint) {
  std::vector<std::string> prints;
  for (const Case& c : read(demo_text()).runs) prints.push_back(case_fingerprint(c));
  std::sort(prints.begin(), prints.end());
  EXPECT_EQ(std::unique(prints.begin(), prints.end()), prints.end());
  EXPECT_EQ(prints[0].size(), 64u);
}

TEST(Case, the_json_case_gives_value_unit_and_origin) {
  const nlohmann::json j = resolved_case_json(read(demo_text()).runs.at(1));
  EXPECT_EQ(j["shoe"]["setback"]["value"], 3.175);
  EXPECT_EQ(j["shoe"]["setback"]["unit"], "mm");
  EXPECT_EQ(j["shoe"]["setback"]["text"], "3.18 mm (1/8 in)");
  EXPECT_EQ(j["foot"]["toe_angle"]["value"], 48);
  EXPECT_EQ(j["foot"]["toe_angle"]["origin"], "given");
  EXPECT_EQ(j["foot"]["sole_horn"]["origin"], "follows");
  EXPECT_EQ(j["foot"]["toe_length"]["origin"], "default");
  EXPECT_EQ(j["load"]["phases"]["value"].size(), 4u);
  EXPECT_EQ(j["changed"], (std::vector<std::string>{"name", "shoe.setback"}));
}

TEST(Case, every_default_lies_in_its_own_range) {
  for (const Key& key : case_keys()) {
    const std::string value = toml_value(key, Case{});
    if (value.empty()) continue;
    const auto* n = std::get_if<NumberAt>(&key.binding);
    if (n == nullptr) continue;
    const std::string text = "schema = 1\n" + std::string(key.name) + " = " + value + "\n";
    for (const CaseError& e : read(text).errors)
      EXPECT_EQ(e.problem.find("out of range"), std::string::npos) << error_text(e);
  }
}

TEST(Case, every_key_reads_back_what_it_writes) {
  const Case reference;
  for (const Key& key : case_keys()) {
    const auto* n = std::get_if<NumberAt>(&key.binding);
    if (n == nullptr) continue;
    Case changed;
    n->set(changed, 12.5);
    EXPECT_EQ(n->get(changed), 12.5) << key.name;
    for (const Key& other : case_keys()) {
      const auto* m = std::get_if<NumberAt>(&other.binding);
      if (m == nullptr || &other == &key) continue;
      EXPECT_EQ(m->get(changed), m->get(reference)) << key.name << " writes " << other.name;
    }
  }
}

}  // namespace
}  // namespace hoofload::scenarios
