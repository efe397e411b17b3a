// The house rules hold, and each rule can fail. Source of the rules: DEVELOPERS.md.
#include <gtest/gtest.h>

#include "tests/style/rules.hpp"
#include "tests/style/say.hpp"
#include "tests/style/tree.hpp"

namespace hoofload::style {
namespace {

constexpr int hard_stop = 500;  // lines of one code file: one idea fits

TEST(House, no_code_file_is_longer_than_the_hard_stop) { EXPECT_EQ(said(long_files(repository(), hard_stop)), ""); }

TEST(House, a_file_one_line_too_long_is_caught) {
  const ScratchTree tree;
  std::string text;
  for (int i = 0; i < hard_stop; ++i) text += "\n";
  tree.write("mesh/fits.cpp", text);
  tree.write("tests/deep/er/long_test.cpp", text + "\n");
  EXPECT_EQ(said(long_files(tree.root(), hard_stop)), "tests/deep/er/long_test.cpp: 501 lines, allowed 500\n");
}

TEST(House, solver_and_laws_know_no_word_of_the_trade) { EXPECT_EQ(said(hoof_words(repository())), ""); }

TEST(House, a_word_of_the_trade_in_solver_is_caught) {
  const ScratchTree tree;
  tree.write("solver/a.hpp", "namespace hoofload::solver {}\n// solely, resolve\n// the Sole's rim\n");
  tree.write("materials/law.hpp", "// for a tendon\n");
  tree.write("materials/catalogue.hpp", "// hoof, sole, shoe\n");
  tree.write("mesh/foot.hpp", "// hoof, sole, shoe\n");
  const Violations found = hoof_words(tree.root());
  ASSERT_EQ(found.size(), 2U) << said(found);
  EXPECT_TRUE(found[0].starts_with("solver/a.hpp:3: \"Sole\"")) << found[0];
  EXPECT_TRUE(found[1].starts_with("materials/law.hpp:1: \"tendon\"")) << found[1];
}

TEST(House, every_cited_equation_is_in_the_theory) { EXPECT_EQ(said(wrong_equations(repository())), ""); }

TEST(House, a_cited_equation_that_is_missing_or_out_of_order_is_caught) {
  const ScratchTree tree;
  tree.write("docs/theory.md", "$$ a \\tag{1} $$\n$$ b \\tag{2} $$\n$$ c \\tag{4} $$\n");
  tree.write("solver/a.cpp", "// Eq. (2), Eqs. (1), (3) and (4)\n");
  tree.write("mesh/b.cpp", "// Johnson 1985, Eq. (4.43), is not ours\n");
  const Violations found = wrong_equations(tree.root());
  ASSERT_EQ(found.size(), 2U) << said(found);
  EXPECT_EQ(found[0], "docs/theory.md:3: equation 4 is out of order");
  EXPECT_EQ(found[1], "solver/a.cpp:1: Eq. (3) is not in docs/theory.md");
}

TEST(House, the_top_level_holds_only_what_was_agreed) { EXPECT_EQ(said(stray_top_level(repository())), ""); }

TEST(House, a_stray_file_at_the_top_level_is_caught) {
  const ScratchTree tree;
  tree.write("README.md", "");
  tree.write(".ci/run", "");
  tree.write("build-debug/x", "");
  tree.write("notes.txt", "");
  EXPECT_EQ(said(stray_top_level(tree.root())), "notes.txt\n");
}

TEST(House, no_text_of_the_program_judges_or_advises) { EXPECT_EQ(said(claims(repository())), ""); }

TEST(House, advice_in_a_report_text_is_caught) {
  const ScratchTree tree;
  tree.write("viz/report.cpp",
             "f(\"the Recommended shoe\");\n// a safe cast\ng(\"a \\\"quoted\\\" word\", \"is safe\");\n");
  tree.write("viz/cautions.hpp", "f(\"no diagnosis\");\n");
  tree.write("scenarios/cases/a.toml", "title = \"prognosis after shoeing\"\n");
  const Violations found = claims(tree.root());
  ASSERT_EQ(found.size(), 3U) << said(found);
  EXPECT_TRUE(found[0].starts_with("viz/report.cpp:1: ")) << found[0];
  EXPECT_TRUE(found[1].starts_with("viz/report.cpp:3: ")) << found[1];
  EXPECT_TRUE(found[2].starts_with("scenarios/cases/a.toml:1: ")) << found[2];
}

TEST(House, nothing_names_the_machine_it_was_written_on) { EXPECT_EQ(said(private_traces(repository())), ""); }

TEST(House, a_machine_path_is_caught) {
  const ScratchTree tree;
  tree.write("docs/a.md", "see /srv/somebody/foot and issue 12\nissues 3 of them, /usr/bin/env\n");
  EXPECT_EQ(said(private_traces(tree.root())), "docs/a.md:1:  /srv/somebody\ndocs/a.md:1: issue 12\n");
}

}  // namespace
}  // namespace hoofload::style
