#include "scenarios/result_json.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <limits>
#include <sstream>

#include "scenarios/commands.hpp"
#include "scenarios/quantity_text.hpp"
#include "tests/scenarios/schema_check.hpp"
#include "tests/scenarios/solved_fixture.hpp"

namespace hoofload::scenarios {
namespace {

using nlohmann::json;

std::string text_of(const std::string& path) {
  std::ifstream stream(std::string(HOOFLOAD_DATA_DIR) + "/" + path, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

const tests::SchemaCheck& schema() {
  static const tests::SchemaCheck check(json::parse(text_of("docs/result.schema.json")));
  return check;
}

const json& small_json() {
  static const json j = result_json(small_results(), compare(small_results()), {"small.toml", {"a warning"}});
  return j;
}

TEST(ResultJson, a_real_result_follows_its_schema) { EXPECT_EQ(schema().problem(small_json()), ""); }

TEST(ResultJson, the_schema_refuses_a_result_with_a_fault) {
  json j = small_json();
  j["differences"][0].erase("percent");
  EXPECT_EQ(schema().problem(j), "$.differences[0] lacks percent");
  j = small_json();
  j["options"][0]["phases"]["standing"]["sole_pressure_peak"]["model"] = "other";
  EXPECT_EQ(schema().problem(j), "$.options[0].phases.standing.sole_pressure_peak.model is \"other\"");
  j = small_json();
  j["extra"] = 1;
  EXPECT_EQ(schema().problem(j), "$.extra is not allowed");
}

TEST(ResultJson, says_what_was_solved_and_from_what) {
  const json& j = small_json();
  EXPECT_EQ(j["provenance"]["case_sha256"].get<std::string>().size(), 64U);
  EXPECT_EQ(j["provenance"]["meshes"].size(), 3U);
  EXPECT_GT(j["provenance"]["meshes"][0]["unknowns"].get<int>(), 100);
  EXPECT_EQ(j["options"][0]["name"], "baseline");
  const json& peak = j["options"][1]["phases"]["standing"]["sole_pressure_peak"];
  EXPECT_EQ(peak["unit"], "kPa");
  EXPECT_GT(peak["value"].get<double>(), 1.0);
  EXPECT_TRUE(peak["mesh_bar"].is_number());  // the twin was solved
  EXPECT_TRUE(peak["low"].is_null());         // nothing was sampled
}

// Design: a result alone is enough to repeat it.
TEST(ResultJson, its_case_reads_back_to_the_same_case) {
  const json& texts = small_json()["provenance"]["case_toml"];
  ASSERT_EQ(texts.size(), small_runs().size());
  for (std::size_t k = 0; k < texts.size(); ++k) {
    const CaseReading again = read(texts[k]);
    ASSERT_TRUE(again.errors.empty()) << all_errors(again.errors);
    EXPECT_EQ(again.runs[0].shoeing.packing.proud, small_runs()[k].shoeing.packing.proud);
    EXPECT_EQ(again.runs[0].horse.mass, small_runs()[k].horse.mass);
  }
}

TEST(ResultJson, a_number_that_is_not_finite_becomes_null) {
  auto results = small_results();
  for (auto& phase : results[1].models[0].phases)
    for (auto& [key, reading] : phase.values) reading.value = std::numeric_limits<double>::quiet_NaN();
  const json j = result_json(results, compare(results), {"small.toml", {}});
  EXPECT_EQ(schema().problem(j), "");
  EXPECT_TRUE(j["options"][1]["phases"]["standing"]["sole_pressure_peak"]["value"].is_null());
}

TEST(RunCommand, json_goes_to_stdout_and_the_exit_code_is_0) {
  RunRequest request;
  request.case_file = "small.toml";
  request.runs = {small_runs()[0]};
  request.runs[0].study.bars = false;
  request.json = request.quiet = true;
  testing::internal::CaptureStdout();
  const int code = run_command(request);
  const json j = json::parse(testing::internal::GetCapturedStdout());
  EXPECT_EQ(code, exit_done);
  EXPECT_EQ(schema().problem(j), "");
  EXPECT_TRUE(j["differences"].empty());
}

TEST(RunCommand, a_run_that_cannot_be_built_exits_4_and_says_which) {
  RunRequest request;
  request.case_file = "small.toml";
  request.runs = {small_runs()[0]};
  request.runs[0].study.bars = false;
  request.runs[0].foot.sole_depth_tip = 1e4;  // no reader would let it pass
  request.quiet = true;
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  const int code = run_command(request);
  (void)testing::internal::GetCapturedStdout();
  const std::string said = testing::internal::GetCapturedStderr();
  EXPECT_EQ(code, exit_not_converged);
  EXPECT_NE(said.find("baseline, axisymmetric model"), std::string::npos) << said;
}

TEST(RunCommand, an_output_folder_that_cannot_be_made_exits_5) {
  RunRequest request;
  request.runs = {small_runs()[0]};
  request.runs[0].study.bars = false;
  request.json = request.quiet = true;
  request.out = "/dev/null/results";
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  const int code = run_command(request);
  (void)testing::internal::GetCapturedStdout();
  EXPECT_NE(testing::internal::GetCapturedStderr().find("/dev/null/results"), std::string::npos);
  EXPECT_EQ(code, exit_system);
}

TEST(QuantityText, the_table_in_docs_is_current) { EXPECT_EQ(text_of("docs/quantities.md"), quantities_markdown()); }

TEST(QuantityText, every_quantity_can_be_explained) {
  const Explainable known{catalogue_words(), quantity_topics()};
  for (const QuantityKey& q : quantity_catalogue()) {
    const auto text = explain(known, q.key);
    ASSERT_TRUE(text.has_value()) << q.key;
    EXPECT_NE(text->find(std::string(q.definition)), std::string::npos) << *text;
  }
}

}  // namespace
}  // namespace hoofload::scenarios
