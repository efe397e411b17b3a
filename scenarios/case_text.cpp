// The only file of this folder that includes the TOML parser.
#include "scenarios/case_text.hpp"

#include "scenarios/shifted_text.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <set>
#include <stdexcept>

namespace {
struct BrokenParser : std::runtime_error {
  using std::runtime_error::runtime_error;
};
void parser_assertion_failed() { throw BrokenParser("unreadable TOML"); }
}  // namespace

// The library's own switches. Its assertions must throw: with the default they abort on input such as "[&", and with
// NDEBUG the same input is undefined behaviour. The renamed namespace keeps this build of the header-only parser apart
// from any other file's, which may be configured otherwise.
#undef NDEBUG
#define TOML_ASSERT(expr) (static_cast<bool>(expr) ? void() : parser_assertion_failed())
#define TOML_EXCEPTIONS 1
#define TOML_HEADER_ONLY 1
#define TOML_ENABLE_FORMATTERS 0
#define TOML_MAX_NESTED_VALUES 32
#define toml hoofload_case_toml
#include <toml++/toml.h>
#undef toml

namespace hoofload::scenarios {
namespace {

namespace parser = ::hoofload_case_toml;

// A case is a page of text. The limits keep recursion and time bounded for any input.
constexpr std::size_t kLargestFile = 1 << 20;
constexpr std::size_t kLongestLine = 1000;
constexpr int kDeepest = 8;
constexpr int kMostSyntaxErrors = 20;

Location location(const parser::source_region& region) {
  return {std::max(1, static_cast<int>(region.begin.line)), std::max(1, static_cast<int>(region.begin.column))};
}

Value converted(const parser::node& node, int depth);

Table converted_table(const parser::table& table, int depth) {
  Table members;
  for (auto&& [key, node] : table)
    members.push_back({unshifted_text(key.str()), location(key.source()), converted(node, depth + 1)});
  std::stable_sort(members.begin(), members.end(), [](const Member& a, const Member& b) { return a.at < b.at; });
  return members;
}

List converted_list(const parser::array& array, int depth) {
  List values;
  for (const parser::node& node : array) values.push_back(converted(node, depth + 1));
  return values;
}

Value converted(const parser::node& node, int depth) {
  const Location at = location(node.source());
  if (depth > kDeepest) return {at, Unsupported{"too deeply nested table"}};
  if (const auto* t = node.as_table()) return {at, converted_table(*t, depth)};
  if (const auto* a = node.as_array()) return {at, converted_list(*a, depth)};
  if (const auto* s = node.as_string()) return {at, unshifted_text(s->get())};
  if (const auto* i = node.as_integer()) return {at, static_cast<std::int64_t>(i->get())};
  if (const auto* f = node.as_floating_point()) return {at, f->get()};
  if (const auto* b = node.as_boolean()) return {at, b->get()};
  return {at, Unsupported{"date or time"}};
}

struct Attempt {
  Table root;
  bool good = false;
  Location at;
  std::string problem;
};

Attempt attempt(std::string_view text) {
  Attempt result;
  try {
    result.root = converted_table(parser::parse(text), 0);
    result.good = true;
  } catch (const parser::parse_error& error) {
    result.at = location(error.source());
    result.problem = unshifted_text(error.description());
  } catch (const std::exception& error) {
    result.problem = error.what();
    result.at.line = 0;  // the parser's own assertion: it does not say where
  }
  return result;
}

/// Start and end of line `line` (from 1) in the text.
std::pair<std::size_t, std::size_t> line_range(std::string_view text, int line) {
  std::size_t start = 0;
  for (int k = 1; k < line && start < text.size(); ++k) {
    const std::size_t end = text.find('\n', start);
    if (end == std::string_view::npos) return {text.size(), text.size()};
    start = end + 1;
  }
  return {start, std::min(text.find('\n', start), text.size())};
}

std::string_view without_spaces(std::string_view s) {
  const auto first = s.find_first_not_of(" \t\r");
  return first == std::string_view::npos ? std::string_view{}
                                         : s.substr(first, s.find_last_not_of(" \t\r") - first + 1);
}

/// The key of a line such as "mass =" or "mass = # later", which has no value; empty otherwise.
std::string key_without_value(std::string_view line) {
  const std::size_t equals = line.find('=');
  if (equals == std::string_view::npos) return {};
  const std::string_view rest = without_spaces(line.substr(equals + 1));
  if (!rest.empty() && rest[0] != '#') return {};
  return unshifted_text(without_spaces(line.substr(0, equals)));
}

/// Nearest line above (and including) `line` that holds anything; errors at the end of a file point past it.
int last_written_line(std::string_view text, int line) {
  for (; line > 1; --line) {
    const auto [start, end] = line_range(text, line);
    if (!without_spaces(text.substr(start, end - start)).empty()) break;
  }
  return line;
}

/// First line on which the parser's assertion fails: parsing is sequential, so a prefix fails if and only if it holds
/// that line.
int asserting_line(std::string_view text) {
  int low = 0;
  int high = 1 + static_cast<int>(std::count(text.begin(), text.end(), '\n'));
  while (high - low > 1) {
    const int middle = (low + high) / 2;
    const Attempt tried = attempt(text.substr(0, line_range(text, middle).second));
    (!tried.good && tried.at.line == 0 ? high : low) = middle;
  }
  return high;
}

/// The parser's sentence without its preamble and with "twice" where it says "redefine".
CaseError syntax_error(const Attempt& failed, std::string_view line, const std::string& file) {
  CaseError error{file, failed.at, key_without_value(line), "", "", "", ""};
  if (!error.key.empty()) {
    error.problem = "missing value";
    error.allowed = "a value after '='";
    error.at.column = 1 + static_cast<int>(line.find_first_not_of(" \t"));
    return error;
  }
  const std::string& said = failed.problem;
  if (const auto quote = said.find("cannot redefine existing"); quote != std::string::npos) {
    const auto a = said.find('\'', quote);
    const auto b = said.find('\'', a + 1);
    if (b != std::string::npos) error.key = said.substr(a + 1, b - a - 1);
    error.problem = "duplicate: already set above";
    error.at.column = 1 + static_cast<int>(line.find_first_not_of(" \t"));
    error.value = shown_text(unshifted_text(without_spaces(line)));
    return error;
  }
  error.problem = "not TOML: " + shown_text(said.rfind("Error while ", 0) == 0 ? said.substr(12) : said);
  error.value = shown_text(unshifted_text(without_spaces(line)));
  return error;
}

/// What must hold before the parser may see the text.
CaseErrors unreadable(std::string_view text, const std::string& file) {
  CaseErrors errors;
  if (text.size() > kLargestFile) {
    errors.push_back({file, {}, "", "case file too large", std::to_string(text.size()) + " bytes", "at most 1 MB", ""});
    return errors;
  }
  const std::size_t broken = broken_utf8(text);
  const std::size_t bad = std::min({broken, text.find('\0'), shifted_character(text.substr(0, broken))});
  Location at;
  std::size_t start = 0;
  while (start <= text.size()) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    if (bad >= start && bad < end) {
      for (std::size_t k = start; k < bad; ++k) at.column += (static_cast<unsigned char>(text[k]) & 0xC0u) != 0x80u;
      errors.push_back(
          {file, at, "", "not UTF-8 text, or a character that no text uses", shown_text(text.substr(bad, 1)), "", ""});
    }
    at.column = 1;
    if (end - start > kLongestLine) {
      errors.push_back({file, at, "", "line too long", std::to_string(end - start) + " bytes",
                        "at most " + std::to_string(kLongestLine), ""});
    }
    ++at.line;
    start = end + 1;
  }
  return errors;
}

}  // namespace

CaseText parse_case_text(std::string_view text, const std::string& file) {
  CaseText result;
  result.errors = unreadable(text, file);
  if (!result.errors.empty()) {
    result.complete = false;
    return result;
  }
  constexpr std::string_view kMark = "\xEF\xBB\xBF";  // some editors put it before the text
  std::string left = shifted_text(text.substr(0, 3) == kMark ? text.substr(3) : text);
  for (int k = 0; k < kMostSyntaxErrors; ++k) {
    Attempt tried = attempt(left);
    if (tried.good) {
      result.root = std::move(tried.root);
      return result;
    }
    if (tried.at.line == 0) tried.at = {asserting_line(left), 1};
    const int line = last_written_line(left, tried.at.line);
    const auto [start, end] = line_range(left, line);
    const std::string_view said = std::string_view(left).substr(start, end - start);
    if (without_spaces(said).empty()) break;
    if (line != tried.at.line) tried.at = {line, 1};
    result.errors.push_back(syntax_error(tried, said, file));
    // Keys below a broken header would land in the wrong table and be blamed for it.
    if (without_spaces(said).front() == '[') break;
    std::fill(left.begin() + static_cast<std::ptrdiff_t>(start), left.begin() + static_cast<std::ptrdiff_t>(end), ' ');
  }
  result.complete = false;
  if (result.errors.empty()) result.errors.push_back({file, {}, "", "not TOML", "", "", ""});
  return result;
}

std::string_view kind_of(const Value& value) {
  static constexpr std::string_view kKinds[] = {"text", "whole number", "number", "true or false", "", "list", "table"};
  if (const auto* other = std::get_if<Unsupported>(&value.content)) return other->kind;
  return kKinds[value.content.index()];
}

std::string written(const Value& value) {
  if (const auto* s = std::get_if<std::string>(&value.content)) return '"' + shown_text(*s) + '"';
  if (const auto* i = std::get_if<std::int64_t>(&value.content)) return std::to_string(*i);
  if (const auto* f = std::get_if<double>(&value.content)) return number_text(*f);
  if (const auto* b = std::get_if<bool>(&value.content)) return *b ? "true" : "false";
  return "a " + std::string(kind_of(value));
}

}  // namespace hoofload::scenarios
