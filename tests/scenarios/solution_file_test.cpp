// A solution that went through a file is the solution: own format, no outside source.
#include "scenarios/solution_file.hpp"

#include <gtest/gtest.h>

#include <cstring>
#include <fstream>

#include "scenarios/build_model.hpp"
#include "scenarios/quantities.hpp"

namespace hoofload::scenarios {
namespace {

namespace fs = std::filesystem;

struct Solved {
  std::shared_ptr<BuiltModel> built;
  StoredSolution stored;
};

Case two_phases() {
  Case run;
  run.load.phases = {Phase::standing, Phase::breakover};
  return run;
}

const Solved& solved() {
  static const Solved once = [] {
    const Case run = two_phases();
    const auto built = std::make_shared<BuiltModel>(build_sagittal(run, materials::load_catalogue(), 0.3));
    TendonSlack slack;
    Solved s{built, {"a key", solve_phases(built, run, slack, true), slack.length}};
    return s;
  }();
  return once;
}

bool same_bits(const Eigen::VectorXd& a, const Eigen::VectorXd& b) {
  return a.size() == b.size() &&
         std::memcmp(a.data(), b.data(), static_cast<std::size_t>(a.size()) * sizeof(double)) == 0;
}

fs::path empty_folder(const std::string& name) {
  const fs::path folder = fs::path(::testing::TempDir()) / name;
  fs::remove_all(folder);
  return folder;
}

TEST(SolutionFile, what_is_read_back_has_the_bits_and_the_readings_of_the_solve) {
  const Solved& s = solved();
  ASSERT_TRUE(s.stored.phases.at(0).solved && s.stored.phases.at(1).solved);
  const auto back = from_bytes(to_bytes(s.stored, "this"), "this");
  ASSERT_TRUE(back);
  EXPECT_EQ(back->key, "a key");
  EXPECT_EQ(back->slack, s.stored.slack);
  EXPECT_TRUE(fits(*back, *s.built));
  for (std::size_t k = 0; k < 2; ++k) {
    EXPECT_TRUE(same_bits(back->phases[k].state.q, s.stored.phases[k].state.q));
    EXPECT_TRUE(same_bits(back->phases[k].reactions, s.stored.phases[k].reactions));
    const Quantities read = measure(*s.built, two_phases(), back->phases[k]);
    EXPECT_EQ(read, measure(*s.built, two_phases(), s.stored.phases[k]));
    EXPECT_FALSE(read.empty());
  }
}

TEST(SolutionFile, of_another_program_cut_off_or_changed_is_as_none) {
  const std::string bytes = to_bytes(solved().stored, "this");
  EXPECT_FALSE(from_bytes(bytes, "another"));
  EXPECT_FALSE(from_bytes("", "this"));
  for (std::size_t length = 1; length < bytes.size(); length += bytes.size() / 23)
    EXPECT_FALSE(from_bytes(std::string_view(bytes).substr(0, length), "this")) << length;
  // Whatever byte is changed, reading ends; what still reads as a solution must have the model's sizes to be used.
  for (std::size_t at = 0; at < bytes.size(); at += bytes.size() / 211) {
    std::string changed = bytes;
    changed[at] = static_cast<char>(changed[at] ^ 0x55);
    const auto back = from_bytes(changed, "this");
    if (back) (void)fits(*back, *solved().built);
  }
  const auto other = build_sagittal(two_phases(), materials::load_catalogue(), 0.35);
  EXPECT_FALSE(fits(solved().stored, other));
}

TEST(SolutionFile, a_folder_gives_back_by_key_and_makes_room) {
  const SolutionStore store{empty_folder("solutions"), "this", 3};
  EXPECT_FALSE(fetch(store, "a key"));
  StoredSolution s = solved().stored;
  for (const char* key : {"one", "two", "three", "four", "five"}) {
    s.key = key;
    put(store, s);
  }
  std::size_t files = 0;
  for ([[maybe_unused]] const auto& entry : fs::directory_iterator(store.folder)) ++files;
  EXPECT_EQ(files, 3u);
  ASSERT_TRUE(fetch(store, "five"));
  EXPECT_EQ(fetch(store, "five")->key, "five");
  EXPECT_FALSE(fetch({store.folder, "another", 3}, "five"));
}

TEST(SolutionFile, a_folder_that_cannot_be_written_keeps_nothing_and_says_nothing) {
  const fs::path in_the_way = empty_folder("in-the-way");
  std::ofstream(in_the_way) << "a file";
  const SolutionStore store{in_the_way / "below", "this"};
  put(store, solved().stored);
  EXPECT_FALSE(fetch(store, "a key"));
}

TEST(SolutionFile, an_unsolved_phase_is_not_kept) {
  const SolutionStore store{empty_folder("unsolved"), "this"};
  StoredSolution s = solved().stored;
  s.phases[1].solved = false;
  put(store, s);
  EXPECT_FALSE(fetch(store, "a key"));
}

}  // namespace
}  // namespace hoofload::scenarios
