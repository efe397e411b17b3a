// The repository as text: the files that the style rules read.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace hoofload::style {

struct SourceFile {
  std::string path;  ///< relative to the root, with '/'
  std::string text;
};

/// The folders of the top level, in the order of the include arrow.
[[nodiscard]] const std::vector<std::string>& folders();

/// All files under `root`/folder whose names end in one of `endings`; sorted by path. A missing folder gives none.
[[nodiscard]] std::vector<SourceFile> read_tree(const std::filesystem::path& root, const std::string& folder,
                                                const std::vector<std::string>& endings);

/// First component of a path: "mesh/foot.hpp" -> "mesh".
[[nodiscard]] std::string folder_of(const std::string& path);

[[nodiscard]] std::vector<std::string> lines_of(const std::string& text);

/// A small tree in a temporary folder, removed at the end: what the rules' own tests break on purpose.
class ScratchTree {
 public:
  ScratchTree();
  ~ScratchTree();
  ScratchTree(const ScratchTree&) = delete;
  ScratchTree& operator=(const ScratchTree&) = delete;
  void write(const std::string& path, const std::string& text) const;
  [[nodiscard]] const std::filesystem::path& root() const { return root_; }

 private:
  std::filesystem::path root_;
};

/// The checked-out repository.
[[nodiscard]] std::filesystem::path repository();

}  // namespace hoofload::style
