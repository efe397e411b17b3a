// docs/tutorial-sweep.md is run as it stands: its files written, its commands given, what it prints compared.
#include "scenarios/cli.hpp"
#include "scenarios/quantity_text.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>

namespace hoofload::scenarios {
namespace {

namespace fs = std::filesystem;

/// A fenced block: what stands behind the three marks, and its lines.
struct Block {
  std::string kind, file;
  std::vector<std::string> lines;
};

std::vector<Block> blocks_of(const fs::path& page) {
  std::ifstream stream(page);
  std::vector<Block> blocks;
  bool is_inside = false;
  for (std::string line; std::getline(stream, line);) {
    if (line.rfind("```", 0) == 0) {
      is_inside = !is_inside;
      if (!is_inside) continue;
      std::istringstream words(line.substr(3));
      Block block;
      words >> block.kind >> block.file;
      blocks.push_back(block);
    } else if (is_inside) {
      blocks.back().lines.push_back(line);
    }
  }
  return blocks;
}

/// Words of a command as a shell takes them; double quotes only.
std::vector<std::string> words_of(const std::string& command) {
  std::vector<std::string> words(1);
  bool is_quoted = false;
  for (const char c : command) {
    if (c == '"')
      is_quoted = !is_quoted;
    else if (c == ' ' && !is_quoted)
      words.emplace_back();
    else
      words.back() += c;
  }
  return words;
}

/// Gives the command to the real program; what it writes to stdout is added.
int given(const std::string& command, std::string& out) {
  Surroundings around{std::cout, std::cerr};
  around.load_known = [] { return Explainable{material_words(materials::load_catalogue()), quantity_topics()}; };
  around.sweep = sweep_command;
  around.export_table = export_command;
  around.indices = indices_command;
  around.plot = plot_command;
  std::vector<std::string> words = words_of(command);
  EXPECT_EQ(words.front(), "hoofload");
  words.erase(words.begin());
  std::ostringstream caught;
  std::streambuf* before = std::cout.rdbuf(caught.rdbuf());
  const int code = run_cli(words, around);
  std::cout.rdbuf(before);
  out += caught.str();
  return code;
}

/// The printed lines stand in the page in this order; a line may end in "..." for what a build changes.
void expect_said(const std::vector<std::string>& lines, const std::string& out) {
  std::size_t from = 0;
  for (std::string line : lines) {
    if (line.ends_with("...")) line.resize(line.size() - 3);
    const std::size_t at = out.find(line, from);
    ASSERT_NE(at, std::string::npos) << "not printed: " << line << "\nin:\n" << out;
    from = at + line.size();
  }
}

TEST(TutorialOfSweeps, prints_and_draws_what_it_says) {
  const fs::path home = fs::current_path(), folder = fs::path(testing::TempDir()) / "tutorial-sweep";
  const auto blocks = blocks_of(home / "docs/tutorial-sweep.md");
  ASSERT_GT(blocks.size(), 10U);
  fs::remove_all(folder);
  fs::create_directories(folder);
  fs::current_path(folder);
  std::string out;
  for (const Block& block : blocks) {
    if (block.kind == "toml") {
      std::ofstream file(block.file);
      for (const std::string& line : block.lines) file << line << '\n';
    } else if (block.kind == "sh") {
      out.clear();
      for (const std::string& command : block.lines) EXPECT_EQ(given(command, out), 0) << command;
    } else {
      expect_said(block.lines, out);
    }
  }
  for (const char* name : {"depth", "setback", "map", "differences", "scatter", "tornado"})
    for (const char* ending : {".svg", ".csv"})
      EXPECT_TRUE(fs::exists(folder / (std::string(name) + ending))) << name << ending;
  fs::current_path(home);
}

}  // namespace
}  // namespace hoofload::scenarios
