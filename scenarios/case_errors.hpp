// One problem of a case file, told as file:line:column: key: problem; value given; what is allowed; nearest key.
#pragma once

#include <compare>
#include <string>
#include <string_view>
#include <vector>

namespace hoofload::scenarios {

/// Line and column, both from 1; columns count characters (code points).
struct Location {
  int line = 1;
  int column = 1;
  auto operator<=>(const Location&) const = default;
};

struct CaseError {
  std::string file;
  Location at;
  std::string key;      ///< as written, e.g. "shoe.setbak"; empty for the file as a whole
  std::string problem;  ///< one clause
  std::string value;    ///< as given; empty if there is none
  std::string allowed;  ///< what may stand there; empty if it goes without saying
  std::string nearest;  ///< nearest known name; empty if none is near
  auto operator<=>(const CaseError&) const = default;
};

using CaseErrors = std::vector<CaseError>;

/// "demo.toml:12:3: shoe.setbak: unknown key; nearest: shoe.setback".
[[nodiscard]] std::string error_text(const CaseError& error);

/// Text made fit for one line of a terminal: control characters and broken UTF-8 escaped, cut after `longest` characters.
[[nodiscard]] std::string shown_text(std::string_view text, int longest = 60);

/// Offset of the first byte that is not well-formed UTF-8; npos if all is well.
[[nodiscard]] std::size_t broken_utf8(std::string_view text);

}  // namespace hoofload::scenarios
