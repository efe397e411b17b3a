// Plans: what is wrong is told with its place, and the drawn runs are what the method promises.
#include "tests/scenarios/case_fixture.hpp"
#include "tests/scenarios/sweep_fixture.hpp"

#include <set>

namespace hoofload::scenarios {
namespace {

PlanReading plan_of(const std::string& text) { return read_sweep_plan(text, "plan.toml", catalogue_words()); }

std::string errors_of(const std::string& text) { return all_errors(plan_of(text).errors); }

TEST(SweepPlan, a_grid_has_every_combination_with_the_last_key_fastest) {
  const PlanReading r = plan_of(
      "base = \"b.toml\"\nmethod = \"grid\"\n[vary]\n\"shoe.setback\" = [\"0 mm\", \"1/8 in\"]\n"
      "shoe.type = [\"open\", \"egg-bar\"]\n\"materials.sole.E\" = { low = \"100 MPa\", high = \"300 MPa\", points = 3 "
      "}\n");
  ASSERT_EQ(all_errors(r.errors), "");
  ASSERT_EQ(run_count(r.plan), 12U);
  std::set<std::string> seen;
  for (std::size_t run = 0; run < 12; ++run) {
    std::string text;
    for (const InputValue& s : settings_of(r.plan, run)) text += s.value + ";";
    seen.insert(text);
  }
  EXPECT_EQ(seen.size(), 12U);
  const auto second = settings_of(r.plan, 1);
  EXPECT_EQ(second[0].value, "0");
  EXPECT_EQ(second[1].value, "open");
  EXPECT_EQ(second[2].value, "200");
  EXPECT_EQ(second[2].input.name, "materials.sole horn.E");
  EXPECT_EQ(settings_of(r.plan, 11)[0].value, "3.175");
  EXPECT_EQ(settings_of(r.plan, 11)[1].value, "egg bar");
}

TEST(SweepPlan, a_list_pairs_the_values) {
  const PlanReading r = plan_of(
      "base = \"b.toml\"\nmethod = \"list\"\n[vary]\nshoe.setback = [\"0 mm\", \"3 mm\", \"3 mm\"]\n"
      "nails.count = [4, 6, 8]\n");
  ASSERT_EQ(all_errors(r.errors), "");
  ASSERT_EQ(run_count(r.plan), 3U);
  EXPECT_EQ(settings_of(r.plan, 1)[0].value, "3");
  EXPECT_EQ(settings_of(r.plan, 1)[1].value, "6");
}

TEST(SweepPlan, drawn_values_stay_in_their_ranges_and_choices_come_evenly) {
  for (const char* method : {"sobol", "latin hypercube"}) {
    const PlanReading r = plan_of(std::string("base = \"b.toml\"\nmethod = \"") + method +
                                  "\"\nsamples = 64\n[vary]\nshoe.setback = [\"2 mm\", \"9 mm\"]\n"
                                  "shoe.type = [\"open\", \"egg bar\"]\nnails.count = [4, 7]\n");
    ASSERT_EQ(all_errors(r.errors), "");
    int open = 0, four = 0;
    for (std::size_t run = 0; run < 64; ++run) {
      const auto s = settings_of(r.plan, run);
      EXPECT_GE(std::stod(s[0].value), 2);
      EXPECT_LE(std::stod(s[0].value), 9);
      open += s[1].value == "open";
      four += s[2].value == "4";
    }
    EXPECT_EQ(open, 32) << method;  // one of two halves, one of four quarters: both methods stratify
    EXPECT_EQ(four, 16) << method;
  }
}

TEST(SweepPlan, every_problem_is_told_with_line_key_value_and_what_is_allowed) {
  EXPECT_EQ(errors_of("base = \"b.toml\"\nmethod = \"sobel\"\n"),
            "plan.toml:2:10: method: unknown word; given: \"sobel\"; allowed: grid, latin hypercube, sobol, list, "
            "sobol indices, one at a time; nearest: sobol\n");
  EXPECT_EQ(errors_of("base = \"b.toml\"\nmethod = \"sobol\"\nsamples = 8\nsede = 1\n[vary]\nshoe.setbak = [1, 2]\n"),
            "plan.toml:4:1: sede: unknown key; allowed: base, title, method, samples, seed, vary; nearest: seed\n"
            "plan.toml:6:6: shoe.setbak: unknown key; allowed: a number, a choice or a material of the case (hoofload "
            "explain), or materials.NAME.PARAMETER; nearest: shoe.setback\n");
  EXPECT_EQ(errors_of("base = \"b.toml\"\nmethod = \"grid\"\n[vary]\nshoe.setback = [\"0 mm\", \"90 mm\"]\n"),
            "plan.toml:4:25: shoe.setback: out of range; given: \"90 mm\"; allowed: 0 mm to 60 mm\n");
}

TEST(SweepPlan, what_makes_no_runs_is_refused) {
  const std::string head = "base = \"b.toml\"\nmethod = \"";
  EXPECT_NE(errors_of(head + "grid\"\nsamples = 3\n[vary]\nshoe.setback = [\"1 mm\"]\n").find("no effect"),
            std::string::npos);
  EXPECT_NE(errors_of(head + "sobol\"\n[vary]\nshoe.setback = [\"1 mm\", \"2 mm\"]\n").find("samples"),
            std::string::npos);
  EXPECT_NE(errors_of(head + "sobol\"\nsamples = 4\n[vary]\nshoe.setback = [\"1 mm\", \"2 mm\", \"3 mm\"]\n")
                .find("two ends"),
            std::string::npos);
  EXPECT_NE(
      errors_of(head + "list\"\n[vary]\nshoe.setback = [\"1 mm\"]\nnails.count = [4, 6]\n").find("as many values"),
      std::string::npos);
  EXPECT_NE(errors_of(head + "grid\"\n[vary]\nshoe.setback = [\"1 mm\", \"1 mm\"]\n").find("twice"), std::string::npos);
  EXPECT_NE(errors_of(head + "grid\"\n[vary]\nstudy.seed = [1, 2]\n").find("whole sweep"), std::string::npos);
  EXPECT_NE(errors_of(head + "grid\"\n[vary]\nload.phases = [1, 2]\n").find("cannot vary"), std::string::npos);
  EXPECT_NE(errors_of(head + "grid\"\n[vary]\n").find("nothing varies"), std::string::npos);
  EXPECT_NE(errors_of(head + "grid\"\n").find("[vary]"), std::string::npos);
  EXPECT_NE(
      errors_of(head + "sobol\"\nsamples = 4\n[vary]\nshoe.setback = { distribution = \"normal\", mean = \"3 mm\" }\n")
          .find("missing value: sd"),
      std::string::npos);
}

TEST(SweepPlan, the_fingerprint_follows_whatever_changes_the_runs_and_nothing_else) {
  const auto print = [](const std::string& name, const std::string& plan, const std::string& base) {
    return sweep_fingerprint(*good_sweep(sweep_folder(name, plan, base)));
  };
  const std::string plan = kSmallPlan, base = kSmallBase;
  const std::string first = print("print", plan, base);
  EXPECT_EQ(print("print-elsewhere", "# a note\n" + plan, "# a note\n" + base), first);
  const auto changed = [](std::string text, const std::string& from, const std::string& to) {
    return text.replace(text.find(from), from.size(), to);
  };
  EXPECT_NE(print("print-b", changed(plan, "seed = 7", "seed = 8"), base), first);
  EXPECT_NE(print("print-c", changed(plan, "18 mm", "17 mm"), base), first);
  EXPECT_NE(print("print-d", plan, changed(base, "6 mm", "7 mm")), first);
}

}  // namespace
}  // namespace hoofload::scenarios
