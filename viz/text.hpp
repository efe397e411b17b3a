// Numbers and words as they are shown: significant digits, widths of UTF-8 text, wrapping, ticks of an axis.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace hoofload::viz {

/// A number with so many significant digits, never in exponent form between 1e-4 and 1e7; whole digits are never
/// rounded away: 1372.8 with 3 gives "1373". Not finite: "n/a".
[[nodiscard]] std::string number_text(double value, int significant = 3);

/// As number_text, with a leading "+" on positive numbers.
[[nodiscard]] std::string signed_text(double value, int significant = 3);

/// A round number as it is written by hand: no trailing zeros, at most six digits ("20", "0.5", "-2.5").
[[nodiscard]] std::string plain_text(double value);

/// The text with bytes that are not UTF-8, and control characters, replaced by U+FFFD.
[[nodiscard]] std::string clean_utf8(std::string_view text);

/// Terminal columns that a UTF-8 text takes: combining marks 0, East Asian wide and emoji 2, everything else 1.
[[nodiscard]] int columns(std::string_view text);

/// Padded with spaces to so many columns; a longer text is cut at a character with "…" in its last column.
[[nodiscard]] std::string left_aligned(std::string_view text, int width);
[[nodiscard]] std::string right_aligned(std::string_view text, int width);

/// Lines of at most so many columns, broken at spaces; a longer word stands alone on its line.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, int width);

/// Rounded tick values (1, 2, 2.5 or 5 times a power of ten) inside [low, high], about `wanted` of them.
/// Throws std::invalid_argument unless low < high, both finite.
[[nodiscard]] std::vector<double> ticks(double low, double high, int wanted);

/// The smallest [low, high] of whole tick steps that holds the data; a flat or empty range is opened to width 1.
struct Range {
  double low, high;
};
[[nodiscard]] Range rounded_range(double low, double high, int wanted);

}  // namespace hoofload::viz
