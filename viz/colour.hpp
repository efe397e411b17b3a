// Colours that carry numbers. Both maps are our own paths through OKLab (Ottosson 2020), a space in which equal
// distances look about equally different; every map is monotone in lightness, so it survives a black-and-white printer.
#pragma once

#include <cstddef>
#include <string>

namespace hoofload::viz {

/// sRGB, each channel in [0, 1].
struct Rgb {
  double r, g, b;
};

/// Light cream (t = 0) over orange and magenta to dark purple (t = 1): more is darker, since the page is white.
/// Equal steps in t are equal OKLab distances. t outside [0, 1] takes the end colour.
[[nodiscard]] Rgb sequential(double t);

/// Blue (t = -1) over near-white (0) to brown (+1); both halves fall alike in lightness. t is clamped to [-1, 1].
[[nodiscard]] Rgb diverging(double t);

/// Colour of the k-th curve of a plot: black first (the baseline), then hues that repeat after eight; all are dark
/// enough for thin lines on white (CIE L* <= 62). Curves differ by dash as well: colour is never the only sign.
[[nodiscard]] Rgb curve_colour(std::size_t k);

/// The same hue, darker: f = 0 gives black, 1 the colour itself.
[[nodiscard]] Rgb darker(Rgb colour, double f);

/// "#rrggbb"
[[nodiscard]] std::string hex(Rgb colour);

/// CIE 1976 lightness L* in [0, 100] under D65 (IEC 61966-2-1 for the sRGB curve).
[[nodiscard]] double lightness(Rgb colour);

}  // namespace hoofload::viz
