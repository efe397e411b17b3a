#include "tests/style/tree.hpp"

#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <sstream>

namespace hoofload::style {

namespace fs = std::filesystem;

const std::vector<std::string>& folders() {
  static const std::vector<std::string> names{"materials", "mesh", "solver", "viz", "scenarios", "tests"};
  return names;
}

std::vector<SourceFile> read_tree(const fs::path& root, const std::string& folder,
                                  const std::vector<std::string>& endings) {
  std::vector<SourceFile> files;
  if (!fs::is_directory(root / folder)) return files;
  for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
    const std::string name = entry.path().filename().string();
    const bool wanted = std::any_of(endings.begin(), endings.end(), [&](const auto& e) { return name.ends_with(e); });
    if (!entry.is_regular_file() || !wanted) continue;
    std::ostringstream text;
    text << std::ifstream(entry.path(), std::ios::binary).rdbuf();
    files.push_back({fs::relative(entry.path(), root).generic_string(), text.str()});
  }
  std::sort(files.begin(), files.end(), [](const auto& a, const auto& b) { return a.path < b.path; });
  return files;
}

std::string folder_of(const std::string& path) { return path.substr(0, path.find('/')); }

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

ScratchTree::ScratchTree() {
  std::string name = (fs::temp_directory_path() / "hoofload-style-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
  root_ = name;
}

ScratchTree::~ScratchTree() {
  std::error_code ignored;
  fs::remove_all(root_, ignored);
}

void ScratchTree::write(const std::string& path, const std::string& text) const {
  fs::create_directories((root_ / path).parent_path());
  std::ofstream(root_ / path, std::ios::binary) << text;
}

fs::path repository() { return HOOFLOAD_DATA_DIR; }

}  // namespace hoofload::style
