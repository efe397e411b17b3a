#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "scenarios/commands.hpp"
#include "tests/scenarios/solved_fixture.hpp"

namespace hoofload::scenarios {
namespace {

namespace fs = std::filesystem;

/// A filling that stands a hundred times its void proud: no equilibrium exists that the elements could reach.
std::vector<Case> impossible_runs() {
  std::vector<Case> runs = small_runs();
  runs.resize(2);
  for (Case& c : runs) c.study.bars = false, c.study.density = 0.3;
  runs[1].shoeing.packing.proud = 400;
  return runs;
}

TEST(NotConverged, says_why_exits_with_4_and_keeps_the_last_good_state) {
  const fs::path out = fs::temp_directory_path() / "hoofload-not-converged";
  fs::remove_all(out);
  RunRequest request;
  request.case_file = "impossible.toml";
  request.runs = impossible_runs();
  request.quiet = true;
  request.json = true;
  request.out = out;
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  const int code = run_command(request);
  const std::string said = testing::internal::GetCapturedStderr();
  const auto result = nlohmann::json::parse(testing::internal::GetCapturedStdout());
  EXPECT_EQ(code, exit_not_converged);
  EXPECT_NE(said.find("impossible.toml: plate, packed before nailing, axisymmetric model, swing: not solved: fit-up:"),
            std::string::npos)
      << said;
  // What was solved is still reported, what was not is absent, not zero.
  EXPECT_TRUE(result["options"][0]["phases"]["standing"].contains("bone_sink"));
  EXPECT_FALSE(result["options"][1]["phases"]["standing"].contains("bone_sink"));
  int states = 0;
  for (const auto& entry : fs::directory_iterator(out / "last-good")) {
    ++states;
    std::ifstream file(entry.path());
    std::stringstream text;
    text << file.rdbuf();
    EXPECT_NE(text.str().find("<VTKFile"), std::string::npos) << entry.path();
  }
  EXPECT_EQ(states, 2);
  fs::remove_all(out);
}

}  // namespace
}  // namespace hoofload::scenarios
