// TOML 1.0 text to a tree in which every key and every value knows its line and column.
//
// The parser behind it stops at the first syntax error and its release 3.3 aborts on some bad input, so this file is the
// guard: the text is checked for UTF-8 and for over-long lines first, letters beyond ASCII are kept from the parser
// (shifted_text.hpp), its assertions throw instead of aborting, and after an error the offending line is blanked and the
// rest is parsed again, so that one pass finds them all.
#pragma once

#include "scenarios/case_errors.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace hoofload::scenarios {

struct Member;
struct Value;
using List = std::vector<Value>;
using Table = std::vector<Member>;  ///< in the order of the file

/// A kind of value that no key takes (a date, a time).
struct Unsupported {
  std::string kind;
};

struct Value {
  Location at;
  std::variant<std::string, std::int64_t, double, bool, Unsupported, List, Table> content;
};

struct Member {
  std::string key;
  Location at;
  Value value;
};

struct CaseText {
  Table root;
  CaseErrors errors;
  bool complete = true;  ///< false: a broken table header left the rest without a place; look at errors only
};

/// Never throws on any input. `file` is only quoted in the errors.
[[nodiscard]] CaseText parse_case_text(std::string_view text, const std::string& file);

/// "text", "whole number", "number", "true or false", "list", "table", ...
[[nodiscard]] std::string_view kind_of(const Value& value);

/// A scalar as it would be written, e.g. "\"3 mm\"" or 12; lists and tables by their kind.
[[nodiscard]] std::string written(const Value& value);

}  // namespace hoofload::scenarios
