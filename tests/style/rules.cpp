#include "tests/style/rules.hpp"

#include <algorithm>
#include <map>
#include <regex>
#include <set>

#include "tests/style/tree.hpp"

namespace hoofload::style {

namespace fs = std::filesystem;

namespace {

const std::vector<std::string> cpp{".hpp", ".cpp"};
const std::vector<std::string> code{".hpp", ".cpp", ".sh", ".py", ".js", ".css", ".html", "CMakeLists.txt"};

std::string at(const SourceFile& file, std::size_t line) { return file.path + ":" + std::to_string(line + 1) + ": "; }

/// Calls visit(line number, match) for every match of a pattern in a file, line by line.
template <class Visit>
void each_match(const SourceFile& file, const std::regex& pattern, Visit&& visit) {
  const std::vector<std::string> lines = lines_of(file.text);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    for (std::sregex_iterator m(lines[i].begin(), lines[i].end(), pattern), end; m != end; ++m) visit(i, *m);
  }
}

bool may_include(const std::string& from, const std::string& path) {
  static const std::map<std::string, std::set<std::string>> arrow{
      {"materials", {}},
      {"mesh", {}},
      {"solver", {"materials", "mesh"}},
      {"viz", {"mesh"}},
      {"scenarios", {"materials", "mesh", "solver", "viz"}},
      {"tests", {"materials", "mesh", "solver", "viz", "scenarios"}}};
  const std::string to = folder_of(path);
  if (from == to || arrow.at(from).contains(to)) return true;
  return from == "viz" && (path == "solver/solution.hpp" || path == "solver/fields.hpp");
}

/// The string literals of a line of C++, without escapes being undone. Good enough for one-line literals.
std::string literals_of(const std::string& line) {
  static const std::regex literal(R"re("((?:[^"\\]|\\.)*)")re");
  std::string all;
  for (std::sregex_iterator m(line.begin(), line.end(), literal), end; m != end; ++m) all += (*m)[1].str() + " ";
  return line.find("#include") == std::string::npos ? all : "";
}

}  // namespace

Violations wrong_includes(const fs::path& root) {
  static const std::regex include(R"re(^\s*#\s*include\s*"([^"]+)")re");
  Violations found;
  for (const std::string& folder : folders()) {
    for (const SourceFile& file : read_tree(root, folder, cpp)) {
      each_match(file, include, [&](std::size_t line, const std::smatch& m) {
        const std::string path = m[1];
        if (std::find(folders().begin(), folders().end(), folder_of(path)) == folders().end()) {
          found.push_back(at(file, line) + "\"" + path + "\" is not written from the root");
        } else if (!may_include(folder, path)) {
          found.push_back(at(file, line) + folder + " must not include " + path);
        }
      });
    }
  }
  return found;
}

Violations long_files(const fs::path& root, int limit) {
  Violations found;
  for (const std::string& folder : folders()) {
    for (const SourceFile& file : read_tree(root, folder, code)) {
      const auto n = static_cast<int>(lines_of(file.text).size());
      if (n > limit) found.push_back(file.path + ": " + std::to_string(n) + " lines, allowed " + std::to_string(limit));
    }
  }
  return found;
}

Violations hoof_words(const fs::path& root) {
  // "hoofload" is the namespace and passes, since the words are matched whole.
  static const std::regex words(
      R"(\b(hoofs?|hooves|soles?|shoes?|shoeing|bones?|tendons?|frogs?|nails?|lamell(a|ae|ar)|lamina[er]?|horse|horses)"
      R"(|phalan(x|ges|geal)|horn|packing|corium|navicular|pastern|coffin|farrier|heel|heels)\b)",
      std::regex::icase);
  static const std::set<std::string> catalogue{"materials/catalogue.hpp", "materials/hardness.hpp"};
  std::vector<SourceFile> files = read_tree(root, "solver", cpp);
  for (SourceFile& file : read_tree(root, "materials", {".hpp"})) {
    if (!catalogue.contains(file.path) && !file.path.starts_with("materials/catalogue"))
      files.push_back(std::move(file));
  }
  Violations found;
  for (const SourceFile& file : files) {
    each_match(file, words, [&](std::size_t line, const std::smatch& m) {
      found.push_back(at(file, line) + "\"" + m.str() + "\" is a word of the trade");
    });
  }
  return found;
}

Violations wrong_equations(const fs::path& root) {
  static const std::regex tag(R"(\\tag\{(\d+)\})");
  static const std::regex citation(R"(Eqs?\.\s*\((\d+)\)(?:\s*(?:,|and|to|-)\s*\((\d+)\))*)");
  static const std::regex number(R"(\((\d+)\))");
  Violations found;
  std::set<int> known;
  for (const SourceFile& file : read_tree(root, "docs", {"theory.md"})) {
    each_match(file, tag, [&](std::size_t line, const std::smatch& m) {
      const int n = std::stoi(m[1]);
      if (n != static_cast<int>(known.size()) + 1)
        found.push_back(at(file, line) + "equation " + m[1].str() + " is out of order");
      known.insert(n);
    });
  }
  if (known.empty()) found.push_back("docs/theory.md: no numbered equation");
  for (const std::string& folder : folders()) {
    for (const SourceFile& file : read_tree(root, folder, cpp)) {
      if (file.path.starts_with("tests/style/")) continue;
      each_match(file, citation, [&](std::size_t line, const std::smatch& m) {
        const std::string text = m.str();
        for (std::sregex_iterator n(text.begin(), text.end(), number), end; n != end; ++n) {
          if (!known.contains(std::stoi((*n)[1])))
            found.push_back(at(file, line) + "Eq. " + n->str() + " is not in docs/theory.md");
        }
      });
    }
  }
  return found;
}

Violations stray_top_level(const fs::path& root) {
  static const std::set<std::string> agreed{"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE", "solver", "mesh",
                                            "materials",      "scenarios", "tests",         "viz",     "docs"};
  Violations found;
  for (const auto& entry : fs::directory_iterator(root)) {
    const std::string name = entry.path().filename().string();
    if (!agreed.contains(name) && !name.starts_with(".") && name != "build" && !name.starts_with("build-"))
      found.push_back(name);
  }
  return found;
}

Violations claims(const fs::path& root) {
  static const std::regex words(
      R"(\b(diagnos\w*|prognos\w*|soundness|pain|painful|heal|heals|healing|perfusion|safe|safely|safer|safety|unsafe)"
      R"(|recommend\w*|therap\w*|cures?|treatments?|dose|doses|injur\w*|harmless|harmful|should wear|needs a shoe)\b)",
      std::regex::icase);
  Violations found;
  for (const std::string folder : {"viz", "scenarios"}) {
    for (const SourceFile& file : read_tree(root, folder, {".hpp", ".cpp", ".html", ".js", ".toml"})) {
      if (file.path == "viz/cautions.hpp") continue;
      const std::vector<std::string> lines = lines_of(file.text);
      for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string text = literals_of(lines[i]);
        std::smatch m;
        if (std::regex_search(text, m, words)) found.push_back(at(file, i) + "\"" + m.str() + "\" judges or advises");
      }
    }
  }
  return found;
}

Violations private_traces(const fs::path& root) {
  // An absolute path outside what every Debian has, or the number of a ticket.
  static const std::regex traces(
      R"re((^|[\s"'`(=])/(?!usr/|dev/|proc/|etc/|bin/)[a-z][\w.-]*/[\w.-]+|\bissue #?\d+\b)re", std::regex::icase);
  std::vector<std::string> places = folders();
  places.push_back("docs");
  Violations found;
  for (const std::string& folder : places) {
    for (const SourceFile& file :
         read_tree(root, folder, {".hpp", ".cpp", ".sh", ".py", ".md", ".toml", ".txt", ".json"})) {
      if (file.path.starts_with("tests/style/")) continue;
      each_match(file, traces,
                 [&](std::size_t line, const std::smatch& m) { found.push_back(at(file, line) + m.str()); });
    }
  }
  return found;
}

}  // namespace hoofload::style
