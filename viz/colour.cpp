#include "viz/colour.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace hoofload::viz {
namespace {

struct Lab {
  double L, a, b;
};

double encode(double c) { return c <= 0.0031308 ? 12.92 * c : 1.055 * std::pow(c, 1 / 2.4) - 0.055; }
double decode(double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); }
double cube(double v) { return v * v * v; }

Lab from_hue(double L, double chroma, double hue_degrees) {
  const double h = hue_degrees * std::numbers::pi / 180;
  return {L, chroma * std::cos(h), chroma * std::sin(h)};
}

/// Ottosson (2020), inverse of OKLab, to linear sRGB.
Rgb linear_rgb(Lab c) {
  const double l = cube(c.L + 0.3963377774 * c.a + 0.2158037573 * c.b);
  const double m = cube(c.L - 0.1055613458 * c.a - 0.0638541728 * c.b);
  const double s = cube(c.L - 0.0894841775 * c.a - 1.2914855480 * c.b);
  return {4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
          -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
          -0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s};
}

bool in_gamut(Rgb c) { return std::min({c.r, c.g, c.b}) >= 0 && std::max({c.r, c.g, c.b}) <= 1; }

/// Chroma is lowered until the colour exists in sRGB, so lightness and hue stay what they were.
Rgb to_rgb(Lab c) {
  Rgb lin = linear_rgb(c);
  for (int k = 0; k < 100 && !in_gamut(lin); ++k) {
    c.a *= 0.98;
    c.b *= 0.98;
    lin = linear_rgb(c);
  }
  const auto channel = [](double v) { return encode(std::clamp(v, 0.0, 1.0)); };
  return {channel(lin.r), channel(lin.g), channel(lin.b)};
}

/// The sequential map's path by its own parameter s in [0, 1]: lightness falls while the hue turns from yellow to
/// purple. The chroma keeps inside sRGB all along.
Lab path(double s) {
  const double chroma = 0.05 + 0.05 * s + 0.104 * std::sin(std::numbers::pi * s);
  return from_hue(0.965 - 0.665 * s, chroma, 98 - 158 * s);
}

double distance(Lab p, Lab q) { return std::hypot(p.L - q.L, p.a - q.a, p.b - q.b); }

constexpr int samples = 256;

/// Arc length along the path at s = k / samples, scaled to end at 1.
std::array<double, samples + 1> arc_lengths() {
  std::array<double, samples + 1> length{};
  for (std::size_t k = 1; k <= samples; ++k)
    length[k] = length[k - 1] + distance(path((k - 1.0) / samples), path(static_cast<double>(k) / samples));
  const double whole = length[samples];
  for (double& l : length) l /= whole;
  return length;
}

double parameter_at(double t) {
  static const auto length = arc_lengths();
  const auto above = std::lower_bound(length.begin() + 1, length.end() - 1, t);
  const auto k = static_cast<double>(above - length.begin());
  const double from = *(above - 1), to = *above;
  return (k - 1 + (t - from) / (to - from)) / samples;
}

}  // namespace

Rgb sequential(double t) { return to_rgb(path(parameter_at(std::clamp(t, 0.0, 1.0)))); }

Rgb diverging(double t) {
  t = std::clamp(t, -1.0, 1.0);
  const double size = std::abs(t);
  return to_rgb(from_hue(0.97 - 0.55 * size, 0.10 * size, t < 0 ? 255 : 52));
}

Rgb curve_colour(std::size_t k) {
  struct Hue {
    double L, chroma, degrees;
  };
  constexpr std::array<Hue, 8> hues{{{.50, .16, 255},
                                     {.62, .15, 50},
                                     {.52, .13, 150},
                                     {.50, .20, 345},
                                     {.62, .10, 210},
                                     {.44, .15, 25},
                                     {.45, .18, 295},
                                     {.56, .12, 105}}};
  if (k == 0) return {0.08, 0.08, 0.08};
  const Hue& h = hues[(k - 1) % hues.size()];
  return to_rgb(from_hue(h.L, h.chroma, h.degrees));
}

Rgb darker(Rgb c, double f) { return {c.r * f, c.g * f, c.b * f}; }

std::string hex(Rgb c) {
  const auto byte = [](double v) { return static_cast<unsigned>(std::lround(255 * std::clamp(v, 0.0, 1.0))); };
  std::array<char, 8> text{};
  std::snprintf(text.data(), text.size(), "#%02x%02x%02x", byte(c.r) & 255U, byte(c.g) & 255U, byte(c.b) & 255U);
  return text.data();
}

double lightness(Rgb c) {
  const double Y = 0.2126 * decode(c.r) + 0.7152 * decode(c.g) + 0.0722 * decode(c.b);
  return Y > 216.0 / 24389 ? 116 * std::cbrt(Y) - 16 : Y * 24389 / 27;
}

}  // namespace hoofload::viz
