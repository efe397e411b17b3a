// Who includes whom. Source of the rule: the layout in DEVELOPERS.md.
#include <gtest/gtest.h>

#include "tests/style/rules.hpp"
#include "tests/style/say.hpp"
#include "tests/style/tree.hpp"

namespace hoofload::style {
namespace {

TEST(IncludeEdges, run_only_along_the_arrow) { EXPECT_EQ(said(wrong_includes(repository())), ""); }

TEST(IncludeEdges, every_forbidden_edge_is_caught) {
  const std::vector<std::pair<std::string, std::string>> forbidden{{"materials/a.hpp", "mesh/foot.hpp"},
                                                                   {"materials/a.hpp", "solver/solid.hpp"},
                                                                   {"materials/a.hpp", "scenarios/run.hpp"},
                                                                   {"mesh/a.cpp", "materials/material.hpp"},
                                                                   {"mesh/a.cpp", "solver/solid.hpp"},
                                                                   {"mesh/a.cpp", "viz/svg.hpp"},
                                                                   {"solver/a.cpp", "viz/svg.hpp"},
                                                                   {"solver/interactions/a.hpp", "scenarios/run.hpp"},
                                                                   {"viz/a.cpp", "materials/material.hpp"},
                                                                   {"viz/a.cpp", "solver/newton.hpp"},
                                                                   {"viz/a.cpp", "scenarios/run.hpp"},
                                                                   {"scenarios/a.cpp", "tests/style/tree.hpp"},
                                                                   {"solver/a.cpp", "newton.hpp"}};
  for (const auto& [file, included] : forbidden) {
    const ScratchTree tree;
    tree.write(file, "#pragma once\n#  include \"" + included + "\"\n");
    const Violations found = wrong_includes(tree.root());
    ASSERT_EQ(found.size(), 1U) << file << " -> " << included;
    EXPECT_TRUE(found.front().starts_with(file + ":2: ")) << found.front();
  }
}

TEST(IncludeEdges, allowed_edges_pass) {
  const ScratchTree tree;
  tree.write("solver/a.cpp",
             "#include \"materials/x.hpp\"\n#include \"mesh/x.hpp\"\n#include \"solver/x.hpp\"\n#include <map>\n");
  tree.write("viz/a.cpp",
             "#include \"mesh/x.hpp\"\n#include \"solver/solution.hpp\"\n#include \"solver/fields.hpp\"\n");
  tree.write("scenarios/a.cpp", "#include \"viz/x.hpp\"\n#include \"solver/x.hpp\"\n");
  tree.write("tests/mesh/a_test.cpp", "#include \"scenarios/x.hpp\"\n#include \"tests/mesh/x.hpp\"\n");
  EXPECT_EQ(said(wrong_includes(tree.root())), "");
}

}  // namespace
}  // namespace hoofload::style
