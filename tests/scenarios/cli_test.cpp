// The command line with a stand-in for the solver: exit codes, streams, and what is handed on. docs/case-keys.md.
#include "scenarios/cli.hpp"
#include "scenarios/progress.hpp"
#include "tests/scenarios/case_fixture.hpp"

#include <gtest/gtest.h>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

namespace hoofload::scenarios {
namespace {

struct Outcome {
  int code;
  std::string out, err;
  std::vector<RunRequest> requests;
  std::vector<LessonRequest> lessons;
  std::vector<ServeRequest> pages;
  std::vector<SweepRequest> sweeps;
};

Outcome call(std::vector<std::string> arguments, int answer = exit_done) {
  std::ostringstream out, err;
  Outcome outcome{};
  Surroundings around{out, err};
  around.load_known = [] { return Explainable{catalogue_words(), {{"sole_pressure_peak", "a quantity\n"}}}; };
  around.solve = [&](const RunRequest& r) {
    outcome.requests.push_back(r);
    return answer;
  };
  around.teach = [&](const LessonRequest& r) {
    outcome.lessons.push_back(r);
    return answer;
  };
  around.serve = [&](const ServeRequest& r) {
    outcome.pages.push_back(r);
    return answer;
  };
  around.sweep = [&](const SweepRequest& r) {
    outcome.sweeps.push_back(r);
    return answer;
  };
  around.version = "9.9";
  outcome.code = run_cli(std::move(arguments), around);
  outcome.out = out.str();
  outcome.err = err.str();
  return outcome;
}

std::string temporary(const std::string& name, const std::string& text) {
  const auto path = std::filesystem::path(testing::TempDir()) / name;
  std::ofstream(path) << text;
  return path.string();
}

TEST(Cli, check_of_a_good_case_is_0_and_solves_nothing) {
  const Outcome o = call({"check", "scenarios/cases/demo.toml"});
  EXPECT_EQ(o.code, exit_done) << o.err;
  EXPECT_NE(o.out.find("9 runs"), std::string::npos);
  EXPECT_NE(o.out.find("shoe.setback = 3.18 mm (1/8 in)"), std::string::npos) << o.out;
  EXPECT_TRUE(o.requests.empty());
}

TEST(Cli, a_bad_case_is_3_for_every_command_and_is_never_solved) {
  const std::string path = temporary("bad.toml", "schema = 1\n[shoe]\nsetbak = \"1/8 in\"\n");
  for (const char* command : {"check", "run", "compare"}) {
    const Outcome o = call({command, path});
    EXPECT_EQ(o.code, exit_bad_case);
    EXPECT_EQ(o.err, path + ":3:1: shoe.setbak: unknown key; nearest: shoe.setback\n");
    EXPECT_EQ(o.out, "");
    EXPECT_TRUE(o.requests.empty());
  }
}

TEST(Cli, report_pdf_and_paper_are_handed_on) {
  const Outcome o =
      call({"compare", "scenarios/cases/demo.toml", "--report", "r.html", "--pdf", "r.pdf", "--paper", "letter"});
  ASSERT_EQ(o.requests.size(), 1U) << o.err;
  EXPECT_EQ(o.requests[0].report, "r.html");
  EXPECT_EQ(o.requests[0].pdf, "r.pdf");
  EXPECT_EQ(o.requests[0].paper, viz::Paper::letter);
  EXPECT_EQ(call({"compare", "scenarios/cases/demo.toml", "--paper", "a3"}).code, exit_usage);
  EXPECT_EQ(call({"run", "scenarios/cases/demo.toml", "--report", "r.html"}).code, exit_usage);
}

TEST(Cli, serve_takes_a_port_and_nothing_else) {
  const Outcome any = call({"serve"}), given = call({"serve", "--port", "8123", "--quiet"});
  ASSERT_EQ(any.pages.size(), 1U);
  EXPECT_EQ(any.pages[0].port, 0);
  ASSERT_EQ(given.pages.size(), 1U);
  EXPECT_EQ(given.pages[0].port, 8123);
  EXPECT_TRUE(given.pages[0].quiet);
  for (const char* port : {"0", "65536", "-1", "http"})
    EXPECT_EQ(call({"serve", "--port", port}).code, exit_usage) << port;
}

TEST(Cli, a_bad_case_as_json_goes_to_stdout) {
  const std::string path = temporary("bad.toml", "schema = 1\n[shoe]\nsetbak = \"1/8 in\"\n");
  const Outcome o = call({"check", path, "--json"});
  EXPECT_EQ(o.code, exit_bad_case);
  const auto j = nlohmann::json::parse(o.out);
  EXPECT_EQ(j["errors"][0]["line"], 3);
  EXPECT_EQ(j["errors"][0]["nearest"], "shoe.setback");
  EXPECT_TRUE(j["runs"].empty());
}

TEST(Cli, compare_hands_on_the_runs_and_returns_the_solvers_code) {
  const Outcome o = call({"compare", "scenarios/cases/demo.toml", "--out", "somewhere", "--json"}, exit_not_converged);
  EXPECT_EQ(o.code, exit_not_converged);
  ASSERT_EQ(o.requests.size(), 1u);
  EXPECT_EQ(o.requests[0].mode, RunMode::compare);
  EXPECT_EQ(o.requests[0].runs.size(), 9u);
  EXPECT_EQ(o.requests[0].out, std::filesystem::path("somewhere"));
  EXPECT_TRUE(o.requests[0].json);
  EXPECT_EQ(call({"run", "scenarios/cases/demo.toml"}).requests.at(0).mode, RunMode::run);
}

TEST(Cli, wrong_usage_is_2) {
  EXPECT_EQ(call({}).code, exit_usage);
  EXPECT_EQ(call({"chekc", "x"}).code, exit_usage);
  EXPECT_EQ(call({"check"}).code, exit_usage);
  EXPECT_EQ(call({"check", "x", "--nonsense"}).code, exit_usage);
  EXPECT_EQ(call({"explain", "shoe.setbak"}).code, exit_usage);
}

TEST(Cli, a_lesson_hands_on_its_runs) {
  const Outcome o = call({"lesson", "elevation", "--density", "0.4", "--json"}, exit_not_converged);
  EXPECT_EQ(o.code, exit_not_converged) << o.err;
  ASSERT_EQ(o.lessons.size(), 1u);
  EXPECT_EQ(o.lessons[0].request.runs.size(), 7u);
  EXPECT_EQ(o.lessons[0].request.runs[0].study.density, 0.4);
  EXPECT_TRUE(o.lessons[0].request.json);
  const Outcome on = call({"lesson", "setback", "scenarios/cases/demo.toml"});
  ASSERT_EQ(on.lessons.size(), 1u) << on.err;
  EXPECT_EQ(on.lessons[0].request.runs[0].horse.mass, 520);
}

TEST(Cli, an_unknown_lesson_is_2_and_names_the_known_ones) {
  const Outcome o = call({"lesson", "pakcing"});
  EXPECT_EQ(o.code, exit_usage);
  EXPECT_EQ(o.err,
            "lesson: there is none called 'pakcing'; allowed: packing, setback, elevation, trial; nearest: packing\n");
  EXPECT_EQ(call({"lesson", "nonsense"}).code, exit_usage);
  EXPECT_EQ(call({"lesson", "trial", "--density", "0"}).code, exit_usage);
  EXPECT_TRUE(o.lessons.empty());
}

TEST(Cli, help_and_version_are_0_and_on_stdout) {
  EXPECT_EQ(call({"--help"}).code, exit_done);
  EXPECT_NE(call({"--help"}).out.find("compare"), std::string::npos);
  EXPECT_EQ(call({"--version"}).out, "9.9\n");
}

TEST(Cli, a_file_that_cannot_be_read_is_5) {
  const Outcome o = call({"check", "no/such/case.toml"});
  EXPECT_EQ(o.code, exit_system);
  EXPECT_NE(o.err.find("no/such/case.toml"), std::string::npos);
  EXPECT_EQ(call({"check", "scenarios/cases"}).code, exit_system);
}

TEST(Cli, explain_tells_of_keys_sections_materials_and_quantities) {
  const std::string key = call({"explain", "shoe.setback"}).out;
  EXPECT_NE(key.find("toe of the shoe behind the toe of the hoof"), std::string::npos);
  EXPECT_NE(key.find("0 mm to 60 mm"), std::string::npos);
  EXPECT_EQ(call({"explain", "setback"}).out, key);
  EXPECT_NE(call({"explain", "packing"}).out.find("packing.proud"), std::string::npos);
  EXPECT_NE(call({"explain", "mild steel"}).out.find("E = 205000 MPa"), std::string::npos);
  EXPECT_EQ(call({"explain", "sole_pressure_peak"}).out, "a quantity\n");
  EXPECT_NE(call({"explain", "shoe.setbak"}).err.find("nearest: shoe.setback"), std::string::npos);
  EXPECT_EQ(nlohmann::json::parse(call({"explain", "shoe.web", "--json"}).out)["unit"], "mm");
}

TEST(Cli, every_key_can_be_explained) {
  for (const Key& key : case_keys()) EXPECT_EQ(call({"explain", std::string(key.name)}).code, exit_done) << key.name;
}

TEST(Cli, the_table_of_keys_in_the_docs_is_current) {
  std::ifstream stream("docs/case-keys.md");
  std::ostringstream text;
  text << stream.rdbuf();
  EXPECT_EQ(text.str(), case_keys_markdown()) << "write it anew: hoofload explain --markdown > docs/case-keys.md";
}

TEST(Cli, colour_marks_only_the_place) {
  const CaseErrors errors = {{"a.toml", {3, 11}, "k", "bad", "", "", ""}};
  EXPECT_EQ(errors_text(errors, false), "a.toml:3:11: k: bad\n");
  EXPECT_EQ(errors_text(errors, true), "\x1b[1ma.toml:3:11\x1b[0m: k: bad\n");
}

TEST(Progress, the_line_shows_the_time_left_after_three_steps) {
  EXPECT_EQ(progress_line(2, 4, 10, "a"), "[##########----------] 2/4  a");
  EXPECT_EQ(progress_line(3, 4, 90, "a"), "[###############-----] 3/4  0:30 left  a");
  EXPECT_EQ(progress_line(4, 4, 90, "a"), "[####################] 4/4  a");
}

TEST(Cli, sweep_hands_on_its_part_of_the_plan) {
  const Outcome o = call({"sweep", "plan.toml", "--out", "r.sqlite", "--shard", "3/10", "--threads", "2", "--quiet"});
  EXPECT_EQ(o.code, exit_done) << o.err;
  ASSERT_EQ(o.sweeps.size(), 1u);
  EXPECT_EQ(o.sweeps[0].plan_file, "plan.toml");
  EXPECT_EQ(o.sweeps[0].out->string(), "r.sqlite");
  EXPECT_EQ(o.sweeps[0].shard.part, 3u);
  EXPECT_EQ(o.sweeps[0].shard.of, 10u);
  EXPECT_EQ(o.sweeps[0].threads, 2u);
  EXPECT_TRUE(o.sweeps[0].quiet);
}

TEST(Cli, sweep_without_a_file_or_with_a_part_that_is_none_is_2) {
  EXPECT_EQ(call({"sweep", "plan.toml"}).code, exit_usage);
  for (const char* part : {"0/3", "4/3", "1", "a/b", "1/3x", "-1/3", "1/-3", ""}) {
    const Outcome o = call({"sweep", "plan.toml", "--out", "r.sqlite", "--shard", part});
    EXPECT_EQ(o.code, exit_usage) << part;
    EXPECT_TRUE(o.sweeps.empty());
  }
  EXPECT_EQ(call({"sweep", "plan.toml", "--dry-run"}).code, exit_done);
}

}  // namespace
}  // namespace hoofload::scenarios
