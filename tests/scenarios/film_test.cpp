// The stance as files over time: every place of every run is there, at its share of the stance.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include "scenarios/commands.hpp"
#include "scenarios/stance_frames.hpp"
#include "tests/scenarios/case_fixture.hpp"

namespace hoofload::scenarios {
namespace {

namespace fs = std::filesystem;

std::vector<Case> coarse_runs() {
  const CaseReading reading =
      read("schema = 1\n[study]\ndensity = 0.4\n[[option]]\nname = \"b\"\nshoe.setback = \"3 mm\"\n");
  if (!reading.errors.empty()) throw std::runtime_error(all_errors(reading.errors));
  return reading.runs;
}

// PVD: a Collection of DataSets with timestep, part and file (VTK's file formats, as written by its own tools; from memory).
TEST(Film, has_every_place_of_every_run_at_its_share) {
  const fs::path folder = fs::path(testing::TempDir()) / "film";
  fs::remove_all(folder);
  ASSERT_EQ(film_command({"b.toml", coarse_runs(), folder, 5, true}), exit_done);
  std::ifstream stream(folder / "stance.pvd");
  std::ostringstream text;
  text << stream.rdbuf();
  const std::string pvd = text.str();
  const std::regex entry("timestep=\"([0-9.]+)\" group=\"\" part=\"([0-9]+)\" file=\"([^\"]+)\"");
  std::set<double> times;
  std::set<int> parts;
  std::size_t files = 0;
  for (std::sregex_iterator it(pvd.begin(), pvd.end(), entry), end; it != end; ++it) {
    times.insert(std::stod((*it)[1]));
    parts.insert(std::stoi((*it)[2]));
    EXPECT_GT(fs::file_size(folder / (*it)[3].str()), 500U) << (*it)[3];
    ++files;
  }
  EXPECT_EQ(times, (std::set<double>{5, 27.5, 50, 72.5, 95}));
  EXPECT_EQ(parts, (std::set<int>{0, 1, 2, 3, 4, 5}));  // section, capsule, lines of two runs
  EXPECT_EQ(files, 30U);
}

// A state that is kept is the step's own: its readings carry that place's load (5 % of a walk's stance has little, 50 % much).
TEST(Film, keeps_the_state_of_each_place) {
  const auto all = stance_frames(coarse_runs(), materials::load_catalogue(), 3);
  ASSERT_EQ(all.size(), 2U);
  for (const StanceFrames& f : all) {
    ASSERT_EQ(f.states.size(), 3U) << f.ended;
    EXPECT_LT(f.states[0].loading.normal_force, 0.8 * f.states[1].loading.normal_force);
  }
  const auto results = results_at(all, 1);
  for (const RunResult& run : results) {
    const PhaseResult& phase = run.models.front().phases.front();
    ASSERT_TRUE(phase.solved);
    EXPECT_LT(phase.balance.force, 5e-3);
    EXPECT_TRUE(phase.values.contains("ddft_force"));
  }
  EXPECT_TRUE(results_at(all, 3).front().models.front().phases.empty());
}

}  // namespace
}  // namespace hoofload::scenarios
