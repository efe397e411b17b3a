// Keeps non-ASCII characters out of the TOML parser's sight: its release 3.3 runs into undefined behaviour when it asks
// whether one of U+00A1 to U+FEFF is white space. They are moved to the private plane 16, above all its tables, before
// parsing and moved back afterwards; lines and columns, counted in characters, stay the same.
#pragma once

#include <string>
#include <string_view>

namespace hoofload::scenarios {

/// U+0080 to U+FEFF moved up by 0x100000. The text must be UTF-8 (broken_utf8).
[[nodiscard]] std::string shifted_text(std::string_view text);

/// The way back; moves only what shifted_text can have moved.
[[nodiscard]] std::string unshifted_text(std::string_view text);

/// Offset of the first character of plane 16, which a case must not use itself; npos if there is none.
[[nodiscard]] std::size_t shifted_character(std::string_view text);

}  // namespace hoofload::scenarios
