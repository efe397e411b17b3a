// What a page may ask for, and what it is told when it asks for something else.
#include <gtest/gtest.h>

#include "scenarios/page_case.hpp"
#include "tests/page_server/served.hpp"

namespace hoofload::scenarios {
namespace {

using nlohmann::json;

std::string problem(const std::string& body) { return read_page_request(body).problem; }

TEST(PageRequest, bad_requests_say_where_and_why) {
  EXPECT_EQ(problem("{"), "not JSON");
  EXPECT_EQ(problem("\xff\xfe"), "not JSON");
  EXPECT_EQ(problem("[]"), "expected an object");
  EXPECT_EQ(problem("{}"), "runs: expected a list of at least one run");
  EXPECT_EQ(problem(R"({"runs":[]})"), "runs: expected a list of at least one run");
  EXPECT_EQ(problem(R"({"runs":[1]})"), "runs[0]: expected an object");
  EXPECT_EQ(problem(R"({"runs":[{},{},{},{},{},{},{}]})"), "runs: at most 6");
  EXPECT_EQ(problem(R"({"runs":[{"settings":{"shoe.setbak":1}}]})"), "runs[0]: unknown key \"shoe.setbak\"");
  EXPECT_EQ(problem(R"({"runs":[{"settings":{"shoe.setback":{}}}]})"), "runs[0].shoe.setback: expected a text");
  EXPECT_EQ(problem(R"({"phase":"flying","runs":[{}]})"), "phase: unknown word");
  EXPECT_EQ(problem(R"({"number":1.5,"runs":[{}]})"), "number: expected a whole number");
  EXPECT_EQ(problem(R"({"run":2,"runs":[{}]})"), "run: expected the number of a run");
  for (const char* draws : {"19", "1001", "-20", "20.5", "\"20\"", "null", "true"})
    EXPECT_EQ(problem(std::string(R"({"runs":[{}],"draws":)") + draws + "}"),
              "draws: expected 0 or a whole number from 20 to 1000");
  EXPECT_EQ(problem(R"({"runs":[{}],"draws":0})"), "");
  EXPECT_EQ(problem(R"({"runs":[{}],"moving":1})"), "moving: expected true or false");
  EXPECT_EQ(problem(R"({"wanted":"everything","runs":[{}]})"), "wanted: unknown word");
  EXPECT_EQ(problem(std::string(5000, '[')), "nested too deeply");
  EXPECT_EQ(problem(R"({"title":")" + std::string(300, 'x') + R"(","runs":[{}]})"), "title: longer than 200 bytes");
  EXPECT_EQ(problem(R"({"runs":[{}]})"), "");
}

// load.curve may name a file, study.density may take hours, load.phases is the page's own choice.
TEST(PageRequest, keys_that_read_files_or_take_hours_are_not_the_pages) {
  for (const std::string key :
       {"load.curve", "study.density", "study.bars", "study.samples", "load.phases", "schema", "name"})
    EXPECT_EQ(problem(R"({"common":{")" + key + R"(":"/etc/passwd"},"runs":[{}]})"),
              "common: " + key + " is not the page's to set");
}

TEST(PageRequest, its_case_reads_back_as_what_was_asked_for) {
  const PageReading page = read_page_request(
      R"({"title":"a \"b\"\n","phase":"swing","common":{"horse.mass":"520 kg"},"runs":[{"name":"x"},)"
      R"({"name":"y","settings":{"shoe.setback":"1/8 in","packing.region":"full sole","packing.material":"silicone A30"}}]})");
  ASSERT_EQ(page.problem, "");
  const std::string text = page_case_text(page.request, {{Phase::swing}, 0.5, false});
  const CaseReading reading = read_case(text, "page.toml", material_words(materials::load_catalogue()));
  ASSERT_TRUE(reading.errors.empty()) << error_text(reading.errors.front()) << text;
  ASSERT_EQ(reading.runs.size(), 2U);
  EXPECT_EQ(reading.runs[0].title, "a \"b\"\n");
  EXPECT_NEAR(reading.runs[1].shoeing.shoe.setback, 25.4 / 8, 1e-9);
  EXPECT_DOUBLE_EQ(reading.runs[1].horse.mass, 520);
  EXPECT_EQ(reading.runs[1].name, "y");
}

TEST(PageRequest, a_name_cannot_become_a_key) {
  const PageReading page = read_page_request(R"({"runs":[{"name":"x\"\nload.curve = \"/etc/passwd"}]})");
  ASSERT_EQ(page.problem, "");
  const CaseReading reading = read_case(page_case_text(page.request, {{Phase::swing}, 0.5, false}), "page.toml",
                                        material_words(materials::load_catalogue()));
  ASSERT_EQ(reading.runs.size(), 1U);
  EXPECT_EQ(reading.runs[0].load.curve, "");
}

TEST(PageRequest, malformed_is_400_and_impossible_is_422_with_the_key) {
  for (const std::string body : {"", "{", "null", "\"x\"", "{\"runs\":3}", "\xc3\x28"})
    EXPECT_EQ(post("api/solve", body).status, 400) << body;
  EXPECT_EQ(post("api/export", R"({"runs":[{}]})").status, 400);
  EXPECT_EQ(post("api/study", R"({"runs":[{}]})").status, 400);
  for (const std::string body : {"{", "[]", "{}", R"({"client":1})"})
    EXPECT_EQ(post("api/cancel", body).status, 400) << body;
  for (const std::string body : {"{}", "[]", R"({"question":-1})", R"({"question":"1"})", "{"})
    EXPECT_EQ(post("api/lesson", body).status, 400) << body;
  EXPECT_EQ(post("api/lesson", R"({"question":99})").status, 404);
  const Answer answer = post("api/solve", R"({"client":"r","runs":[{"settings":{"shoe.setback":"900 mm"}}]})");
  ASSERT_EQ(answer.status, 422);
  const json told = json::parse(answer.body);
  EXPECT_EQ(told["problems"][0]["key"], "shoe.setback");
  EXPECT_EQ(told["problems"][0]["allowed"], "0 mm to 60 mm");
}

}  // namespace
}  // namespace hoofload::scenarios
