// A strict little check that a text is well-formed XML as far as our writers use it: one root, tags that nest, quoted
// attributes that do not repeat, known entities only.
#pragma once

#include <cctype>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace hoofload::tests {

struct XmlReader {
  std::string_view rest;
  std::vector<std::string> open;
  int roots = 0;
};

inline bool is_name_character(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == ':' || c == '-' || c == '.';
}

inline std::string take_name(XmlReader& r) {
  std::size_t n = 0;
  while (n < r.rest.size() && is_name_character(r.rest[n])) ++n;
  std::string name(r.rest.substr(0, n));
  r.rest.remove_prefix(n);
  return name;
}

/// "" or what is wrong with character data or an attribute's value.
inline std::string content_problem(std::string_view text) {
  for (std::size_t k = 0; k < text.size(); ++k) {
    if (static_cast<unsigned char>(text[k]) < 0x20 && text[k] != '\n' && text[k] != '\t') return "control character";
    if (text[k] == '<') return "raw <";
    if (text[k] != '&') continue;
    bool known = false;
    for (const std::string_view entity : {"&amp;", "&lt;", "&gt;", "&quot;", "&apos;"})
      known = known || text.substr(k, entity.size()) == entity;
    if (!known) return "unknown entity";
  }
  return "";
}

inline std::string take_attributes(XmlReader& r, std::string_view end_marks) {
  std::set<std::string> seen;
  while (true) {
    std::size_t n = 0;
    while (n < r.rest.size() && std::isspace(static_cast<unsigned char>(r.rest[n])) != 0) ++n;
    r.rest.remove_prefix(n);
    if (r.rest.empty()) return "unfinished tag";
    if (end_marks.find(r.rest.front()) != std::string_view::npos) return "";
    if (n == 0) return "no space before an attribute";
    const std::string name = take_name(r);
    if (name.empty() || !seen.insert(name).second) return "bad or repeated attribute " + name;
    if (!r.rest.starts_with("=\"")) return "attribute " + name + " without a quoted value";
    r.rest.remove_prefix(2);
    const auto end = r.rest.find('"');
    if (end == std::string_view::npos) return "unfinished attribute " + name;
    if (const auto problem = content_problem(r.rest.substr(0, end)); !problem.empty()) return problem;
    r.rest.remove_prefix(end + 1);
  }
}

inline std::string take_tag(XmlReader& r) {
  r.rest.remove_prefix(1);
  if (r.rest.starts_with("?")) {
    const auto end = r.rest.find("?>");
    if (end == std::string_view::npos) return "unfinished declaration";
    r.rest.remove_prefix(end + 2);
    return "";
  }
  if (r.rest.starts_with("/")) {
    r.rest.remove_prefix(1);
    const std::string name = take_name(r);
    if (r.open.empty() || r.open.back() != name) return "closing " + name + " does not match";
    r.open.pop_back();
    if (!r.rest.starts_with(">")) return "bad closing tag " + name;
    r.rest.remove_prefix(1);
    return "";
  }
  const std::string name = take_name(r);
  if (name.empty()) return "tag without a name";
  if (r.open.empty() && ++r.roots > 1) return "second root " + name;
  if (const auto problem = take_attributes(r, "/>"); !problem.empty()) return name + ": " + problem;
  if (r.rest.starts_with("/>")) {
    r.rest.remove_prefix(2);
  } else {
    if (!r.rest.starts_with(">")) return "bad end of tag " + name;
    r.rest.remove_prefix(1);
    r.open.push_back(name);
  }
  return "";
}

/// "" for a well-formed document, else what is wrong first.
inline std::string xml_problem(std::string_view text) {
  XmlReader r{text, {}, 0};
  while (!r.rest.empty()) {
    if (r.rest.front() == '<') {
      if (auto problem = take_tag(r); !problem.empty()) return problem;
      continue;
    }
    const auto end = std::min(r.rest.find('<'), r.rest.size());
    if (auto problem = content_problem(r.rest.substr(0, end)); !problem.empty()) return problem;
    if (r.open.empty() && r.rest.substr(0, end).find_first_not_of(" \n") != std::string_view::npos)
      return "text outside the root";
    r.rest.remove_prefix(end);
  }
  if (!r.open.empty()) return "unclosed " + r.open.back();
  return r.roots == 1 ? "" : "no root";
}

}  // namespace hoofload::tests
