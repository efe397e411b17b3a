// The draws of a study: what they vary, that options share them, and what is made of them.
#include "scenarios/study.hpp"

#include <cmath>
#include <set>

#include "scenarios/interval_text.hpp"
#include "scenarios/result_json.hpp"
#include "scenarios/uncertainty_foot.hpp"
#include "scenarios/units.hpp"
#include "tests/scenarios/solved_fixture.hpp"

#include <gtest/gtest.h>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

namespace hoofload::scenarios {
namespace {

const materials::Catalogue& catalogue() {
  static const materials::Catalogue all = materials::load_catalogue();
  return all;
}

std::string sampled_case(int samples) {
  std::string text = small_case();
  const std::string study = "[study]\n";
  return text.replace(text.find(study), study.size(),
                      study + "samples = " + std::to_string(samples) + "\nsample_density = 0.25\n");
}

const Uncertainty* find(const Uncertainties& list, const std::string& name) {
  for (const Uncertainty& u : list)
    if (u.name == name) return &u;
  return nullptr;
}

TEST(Draws, quantiles_are_those_of_hyndman_and_fan_type_7) {  // Hyndman & Fan 1996: at (n - 1) p + 1
  const std::vector<double> five{1, 2, 4, 8, 16};
  EXPECT_DOUBLE_EQ(quantile_of(five, 0.5), 4);
  EXPECT_DOUBLE_EQ(quantile_of(five, 0.05), 1.2);
  EXPECT_DOUBLE_EQ(quantile_of(five, 0.95), 14.4);
  EXPECT_DOUBLE_EQ(quantile_of(five, 1), 16);
}

TEST(Draws, every_measurement_of_a_foot_has_an_error_and_every_catalogue_value_a_distribution) {
  Case c;
  for (const Key& key : case_keys()) c.given.emplace_back(key.name);
  const Uncertainties list = measuring_errors(c);
  for (const Key& key : case_keys())
    if (key.name.substr(0, 5) == "foot.") {
      EXPECT_NE(find(list, "reading of " + std::string(key.name)), nullptr) << key.name;
    }
  for (const materials::Entry& e : catalogue().entries)
    for (const auto& [name, v] : e.parameters) {
      const Distribution d = distribution_of(v);
      EXPECT_EQ(v.low < v.high ? unsound(d) : "", "") << e.id << " " << name;
      EXPECT_EQ(d.low, v.low);
      EXPECT_EQ(d.high, v.high);
    }
}

TEST(Draws, every_default_of_the_foot_that_does_not_follow_has_a_spread) {
  const Case c = good_case("schema = 1\n");
  const Uncertainties list = unmeasured_foot(c);
  std::set<std::string> moved;
  for (const Uncertainty& u : list)
    for (const Moved& m : u.moved) moved.insert(m.input);
  // The wall stands parallel to the bone, and what complete_foot derives follows the draws.
  const std::set<std::string> follow{"foot.toe_angle",  "foot.hl_distal",  "foot.sole_horn",      "foot.toe_to_tip",
                                     "foot.toe_to_cor", "foot.cor_height", "foot.sole_depth_wing"};
  for (const Key& key : case_keys())
    if (key.name.substr(0, 5) == "foot." && follow.count(std::string(key.name)) == 0) {
      EXPECT_EQ(moved.count(std::string(key.name)), 1U) << key.name;
    }
}

TEST(Draws, a_given_value_is_drawn_around_itself_and_magnification_moves_film_lengths_together) {
  const Case c = good_case(
      "schema = 1\n[foot]\nsole_depth_tip = \"12 mm\"\nhl_proximal = \"16 mm\"\ntoe_length = \"80 mm\"\n"
      "[study]\nsamples = 8\nvary = [\"measurements\"]\n");
  const Uncertainties list = uncertainties({c}, catalogue());
  for (const Uncertainty& u : list) EXPECT_EQ(u.group, UncertainGroup::measurements);
  std::vector<double> shares(list.size(), 0.5);
  const auto drawn = [&] {
    std::map<std::string, double> values;
    for (const InputValue& v : drawn_inputs(list, c, catalogue_words(), shares))
      values[v.input.name] = std::stod(v.value);
    return values;
  };
  const auto middle = drawn();
  EXPECT_NEAR(middle.at("foot.sole_depth_tip"), 12, 1e-6);
  EXPECT_NEAR(middle.at("foot.toe_length"), 80, 1e-6);
  for (std::size_t k = 0; k < list.size(); ++k)
    if (list[k].name == "magnification of the radiograph") shares[k] = 1 - 1e-9;
  const auto magnified = drawn();
  EXPECT_NEAR(magnified.at("foot.sole_depth_tip"), 12 * 1.035, 1e-5);
  EXPECT_NEAR(magnified.at("foot.hl_proximal"), 16 * 1.035, 1e-5);
  EXPECT_NEAR(magnified.at("foot.toe_length"), 80, 1e-5);  // measured on the hoof
}

TEST(Draws, what_the_case_sets_of_a_material_is_not_drawn) {
  const std::string text = "schema = 1\n[study]\nsamples = 8\n";
  EXPECT_NE(find(uncertainties({good_case(text)}, catalogue()), "materials.sole horn.E"), nullptr);
  const Case set = good_case(text + "[materials]\n\"sole horn\".E = \"200 MPa\"\n");
  EXPECT_EQ(find(uncertainties({set}, catalogue()), "materials.sole horn.E"), nullptr);
}

// Made up: the baseline scatters by 100, the change between the two by 1. Pairing must leave the small one.
TEST(Draws, what_options_share_cancels_in_the_paired_change) {
  std::vector<RunResult> results = small_results();
  Comparison comparison = compare(results);
  SampledStudy study;
  const int n = 101;
  for (int draw = 0; draw < n; ++draw) {
    const double shared = 100.0 * ((draw * 37) % n) / n;
    SweepRun run;
    for (const auto& [option, change] :
         {std::pair(results[0].run.name, 0.0), std::pair(results[1].run.name, 1 + 0.01 * draw),
          std::pair(results[2].run.name, -0.5 + 0.01 * draw)})
      run.rows.push_back(
          {option, "axisymmetric", "standing", "sole_pressure_peak", "kPa", shared + change, {}, "solved", ""});
    study.runs.push_back(run);
  }
  add_intervals(study, results, comparison);
  int seen = 0;
  for (const Difference& d : comparison.differences) {
    if (d.quantity->key != "sole_pressure_peak" || d.phase != Phase::standing) {
      EXPECT_FALSE(d.interval.has_value());
      continue;
    }
    ++seen;
    const double first = d.option == results[1].run.name ? 1 : -0.5;
    ASSERT_TRUE(d.interval.has_value());
    EXPECT_EQ(d.interval->draws, 101U);
    EXPECT_NEAR(d.interval->low, first + 0.05, 1e-9);
    EXPECT_NEAR(d.interval->median, first + 0.5, 1e-9);
    EXPECT_NEAR(d.interval->high, first + 0.95, 1e-9);
    EXPECT_NEAR(d.p_better.value(), first > 0 ? 0 : 50.0 / 101, 1e-9);  // more pressure is worse; zero is not better
    EXPECT_EQ(d.is_distinguishable, first > 0);
    EXPECT_EQ(d.verdict == Verdict::neither, first < 0);
  }
  EXPECT_EQ(seen, 2);
  const Reading& base = results[0].models[0].phases[1].values.at("sole_pressure_peak");
  EXPECT_GT(base.interval->high - base.interval->low, 80);
}

TEST(Draws, fewer_than_twenty_draws_give_no_interval) {
  std::vector<RunResult> results = small_results();
  Comparison comparison = compare(results);
  SampledStudy study;
  study.runs.resize(19);
  for (SweepRun& run : study.runs)
    for (const RunResult& r : results)
      run.rows.push_back({r.run.name, "axisymmetric", "standing", "bone_sink", "mm", 1.0, {}, "solved", ""});
  add_intervals(study, results, comparison);
  for (const Difference& d : comparison.differences) EXPECT_FALSE(d.interval.has_value());
}

const SampledStudy& solved_study() {
  static const SampledStudy study = [] {
    const std::string text = sampled_case(32);
    return solve_study(text, "case.toml", read(text).runs, 3);
  }();
  return study;
}

TEST(Draws, all_options_get_the_same_draw) {
  const SampledStudy& study = solved_study();
  ASSERT_EQ(study.runs.size(), 32U);
  std::map<std::string, std::vector<double>> peaks;
  for (const SweepRun& run : study.runs)
    for (const SweepRow& row : run.rows)
      if (row.quantity == "sole_pressure_peak" && row.phase == "standing")
        peaks[row.option].push_back(row.value.value());
  EXPECT_EQ(peaks.at("plate, packed before nailing"), peaks.at("the same again"));
  const std::set<double> different(peaks.at("the same again").begin(), peaks.at("the same again").end());
  EXPECT_EQ(different.size(), peaks.at("the same again").size());
}

TEST(Draws, the_draws_do_not_depend_on_the_threads) {
  const std::string text = sampled_case(32);
  const SampledStudy one = solve_study(text, "case.toml", read(text).runs, 1);
  ASSERT_EQ(one.runs.size(), solved_study().runs.size());
  for (std::size_t draw = 0; draw < one.runs.size(); ++draw) {
    ASSERT_EQ(one.runs[draw].rows.size(), solved_study().runs[draw].rows.size());
    for (std::size_t k = 0; k < one.runs[draw].rows.size(); ++k)
      EXPECT_EQ(one.runs[draw].rows[k].value, solved_study().runs[draw].rows[k].value);
  }
}

// Packing before nailing presses on the sole whatever the foot and its tissues are: the mechanics of interference
// (design of the lesson; no source for the size).
TEST(Draws, pressure_from_packing_before_nailing_is_told_with_an_interval_above_zero) {
  std::vector<RunResult> results = small_results();
  Comparison comparison = compare(results);
  add_intervals(solved_study(), results, comparison);
  for (const Difference& d : comparison.differences) {
    if (d.option != "plate, packed before nailing" || d.quantity->key != "swing_sole_pressure") continue;
    ASSERT_TRUE(d.interval.has_value());
    EXPECT_GT(d.interval->low, 0);
    EXPECT_EQ(d.verdict, Verdict::worse);
    EXPECT_EQ(d.p_better, 0.0);
  }
  EXPECT_NE(interval_text(results, comparison).find("P(better)"), std::string::npos);
  const auto j = result_json(results, comparison, {"small.toml", study_notes(solved_study(), 1)});
  EXPECT_TRUE(j["options"][1]["phases"]["standing"]["sole_pressure_peak"]["low"].is_number());
  EXPECT_TRUE(j["options"][1]["phases"]["standing"]["sole_pressure_peak"]["mesh_bar"].is_number());
  EXPECT_NE(j["warnings"][0].get<std::string>().find("32 draws"), std::string::npos);
}

TEST(Draws, the_page_of_uncertainties_is_that_of_the_program) {
  std::ifstream stream("docs/uncertainty.md", std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  EXPECT_EQ(text.str(), uncertainty_markdown(catalogue()))
      << "build/hoofload explain uncertainty --markdown > docs/uncertainty.md";
}

}  // namespace
}  // namespace hoofload::scenarios
