// The column of keys at the right of a figure: colour bar, signs and their meaning, facts. Each piece says where it ends.
#pragma once

#include <string>
#include <vector>

#include "viz/frame.hpp"
#include "viz/scale.hpp"
#include "viz/section.hpp"

namespace hoofload::viz {

/// A drawing and the page height [px] at which the next one may start.
struct Piece {
  std::string drawing;
  double bottom;
};

enum class Sign { area, dashed, arrow, ribbon, joint };

/// One line of the key: a sign in a colour and its meaning.
struct KeyLine {
  Sign sign;
  std::string colour, meaning;
};

/// Upright bar with the bands' colours, label and unit above it, ticks beside it, and the smallest and largest value
/// of this picture below it, so that a scale shared with other pictures does not hide this one's range.
[[nodiscard]] Piece colour_bar(const ColourScale& scale, const FieldRange& here, double top);

[[nodiscard]] Piece key(const std::vector<KeyLine>& lines, double top);

/// The regions drawn in tones, one line a name.
[[nodiscard]] std::vector<KeyLine> region_lines(const Section& section);

/// "quantity value" lines; the last words are kept at the right edge if the line has a double space.
[[nodiscard]] Piece facts(const std::vector<std::string>& lines, double top);

}  // namespace hoofload::viz
