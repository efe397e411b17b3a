// A sweep loses nothing: killed, split, on any number of threads, its table stays the same to the last byte.
#include "scenarios/case_resolved.hpp"
#include "tests/scenarios/case_fixture.hpp"
#include "tests/scenarios/sweep_fixture.hpp"

#include <sys/wait.h>
#include <unistd.h>
#include <csignal>

namespace hoofload::scenarios {
namespace {

/// The table of a sweep that nothing disturbed, and where it lies.
const std::string& undisturbed() {
  static const std::string csv = [] {
    const auto folder = sweep_folder("undisturbed");
    const auto sweep = good_sweep(folder);
    SweepFile file(folder / "r.sqlite", identity_of(*sweep));
    solve_all(*sweep, file);
    return csv_of(file);
  }();
  return csv;
}

/// Solves in a process of its own and kills it, with the signal that cannot be caught, once it has kept `runs` more.
bool killed_after(const std::filesystem::path& folder, int runs) {
  int ends[2];
  if (pipe(ends) != 0) return false;
  const pid_t child = fork();
  if (child == 0) {
    const auto sweep = good_sweep(folder);
    SweepFile file(folder / "r.sqlite", identity_of(*sweep));
    solve_all(*sweep, file, {}, 2, [&] { (void)!write(ends[1], "x", 1); });
    _exit(0);
  }
  close(ends[1]);
  char byte = 0;
  for (int k = 0; k < runs && ::read(ends[0], &byte, 1) == 1; ++k) {
  }
  kill(child, SIGKILL);
  int status = 0;
  waitpid(child, &status, 0);
  close(ends[0]);
  return WIFSIGNALED(status);
}

TEST(Sweep, killed_three_times_it_ends_with_the_table_of_an_undisturbed_one) {
  const auto folder = sweep_folder("killed");
  std::size_t least = 0;
  for (const int runs : {1, 5, 11}) {
    ASSERT_TRUE(killed_after(folder, runs)) << "it ended before it could be killed";
    least += static_cast<std::size_t>(runs);
    EXPECT_GE(SweepFile(folder / "r.sqlite").finished().size(), least);  // what was kept is there
  }
  const auto sweep = good_sweep(folder);
  SweepFile file(folder / "r.sqlite", identity_of(*sweep));
  EXPECT_LT(file.finished().size(), 40U);
  solve_all(*sweep, file);
  EXPECT_EQ(csv_of(file), undisturbed());
}

TEST(Sweep, the_table_is_the_same_for_any_shards_and_threads) {
  for (const std::size_t shards : {2U, 10U}) {
    const auto folder = sweep_folder("shards");
    const auto sweep = good_sweep(folder);
    std::vector<std::filesystem::path> parts;
    for (std::size_t part = shards; part >= 1; --part) {
      parts.push_back(folder / ("part-" + std::to_string(part) + ".sqlite"));
      SweepFile file(parts.back(), identity_of(*sweep));
      solve_all(*sweep, file, {part, shards}, 1 + part % 3);
    }
    merge_sweeps(parts, folder / "whole.sqlite");
    EXPECT_EQ(csv_of(SweepFile(folder / "whole.sqlite")), undisturbed()) << shards;
    merge_sweeps(parts, folder / "whole.sqlite");  // again: nothing changes
    EXPECT_EQ(csv_of(SweepFile(folder / "whole.sqlite")), undisturbed()) << shards;
  }
}

TEST(Sweep, a_run_has_the_values_of_the_same_case_solved_alone) {
  const auto folder = sweep_folder("alone");
  const auto sweep = good_sweep(folder);
  ReferenceSlack reference;
  const SweepRun run = solve_sweep_run(*sweep, 5, reference);
  std::string text = kSmallBase;
  text += "[foot]\nsole_depth_tip = \"" + run.settings[1].value + " mm\"\n";
  text.replace(text.find("order = \"after nailing\""), 23,
               "order = \"" + run.settings[2].value + "\"\nhardness = \"" + run.settings[0].value + " ShoreA\"");
  const auto results = solve_runs({good_case(text)}, materials::load_catalogue());
  ASSERT_FALSE(run.rows.empty());
  for (const SweepRow& row : run.rows)
    EXPECT_EQ(row.value, results[0].models[0].phases[0].values.at(row.quantity).value) << row.quantity;
}

TEST(Sweep, a_run_that_cannot_be_is_a_row_with_its_reason) {
  const auto folder = sweep_folder("refused",
                                   "base = \"base.toml\"\nmethod = \"grid\"\n[vary]\n"
                                   "foot.sole_depth_tip = [\"15 mm\", \"60 mm\"]\n");
  const auto sweep = good_sweep(folder);
  SweepFile file(folder / "r.sqlite", identity_of(*sweep));
  solve_all(*sweep, file);
  EXPECT_EQ(file.read(0).outcome, "solved");
  const SweepRun refused = file.read(1);
  EXPECT_EQ(refused.outcome, "refused");
  ASSERT_EQ(refused.rows.size(), 1U);
  EXPECT_NE(refused.rows[0].reason.find("impossible geometry"), std::string::npos) << refused.rows[0].reason;
  EXPECT_NE(csv_of(file).find("refused"), std::string::npos);
}

TEST(Sweep, a_file_of_another_plan_is_refused) {
  const auto folder = sweep_folder("other");
  { const SweepFile made(folder / "r.sqlite", identity_of(*good_sweep(folder))); }
  std::string plan = kSmallPlan;
  plan.replace(plan.find("seed = 7"), 8, "seed = 8");
  std::ofstream(folder / "plan.toml") << plan;
  const auto sweep = good_sweep(folder);
  EXPECT_THROW(SweepFile(folder / "r.sqlite", identity_of(*sweep)), SweepFileError);
  { const SweepFile made(folder / "s.sqlite", identity_of(*sweep)); }
  EXPECT_THROW(merge_sweeps({folder / "r.sqlite", folder / "s.sqlite"}, folder / "t.sqlite"), SweepFileError);
  std::ofstream(folder / "n.sqlite") << "this is a text, and a rather long one, so that it could be a header of a file";
  EXPECT_THROW(SweepFile(folder / "n.sqlite"), SweepFileError);
  EXPECT_THROW(SweepFile(folder / "none.sqlite"), SweepFileError);
}

TEST(Sweep, two_programs_cannot_write_one_file) {
  const auto folder = sweep_folder("locked");
  const auto identity = identity_of(*good_sweep(folder));
  const SweepFile first(folder / "r.sqlite", identity);
  EXPECT_THROW(SweepFile(folder / "r.sqlite", identity), SweepFileError);
}

TEST(Sweep, an_error_in_keeping_ends_it_and_is_thrown_on) {
  const auto sweep = good_sweep(sweep_folder("trouble"));
  ReferenceSlack reference;
  std::atomic<bool> stop{false};
  EXPECT_THROW(solve_on_threads(
                   {0, 1, 2, 3}, 2, [&](std::size_t run) { return solve_sweep_run(*sweep, run, reference); },
                   [](const SweepRun&) { throw SweepFileError("disk full"); }, stop),
               SweepFileError);
}

// The tendon is set on the foot with the base case's shoeing: a setback then moves the centre of pressure at standing a
// little, and does not by decree leave it where it was (docs/theory.md).
TEST(Sweep, shoeing_does_not_reset_the_tendon) {
  const std::string base =
      "schema = 1\ntitle = \"Elevation\"\n[load]\nphases = [\"standing\"]\n[study]\nmodels = [\"sagittal\"]\ndensity = "
      "0.25\nbars = false\n";
  const auto sweep = good_sweep(sweep_folder("tendon",
                                             "base = \"base.toml\"\nmethod = \"grid\"\n[vary]\n"
                                             "shoe.elevation = [\"0 deg\", \"4 deg\"]\n",
                                             base));
  ReferenceSlack reference;
  const auto cop = [&](std::size_t run) {
    for (const SweepRow& row : solve_sweep_run(*sweep, run, reference).rows)
      if (row.quantity == "cop") return row.value.value();
    return 0.0;
  };
  const auto compared = solve_runs(read(base + "[[option]]\nname = \"wedge\"\nshoe.elevation = \"4 deg\"\n").runs,
                                   materials::load_catalogue());
  EXPECT_NEAR(cop(0), 15, 1e-5);  // load.standing_cop
  EXPECT_LT(cop(1), 10);
  EXPECT_EQ(cop(1), compared[1].models[0].phases[0].values.at("cop").value);
}

}  // namespace
}  // namespace hoofload::scenarios
