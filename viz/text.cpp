#include "viz/text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <stdexcept>

namespace hoofload::viz {
namespace {

struct Character {
  char32_t code;      ///< U+FFFD where the bytes are no UTF-8
  std::size_t bytes;  ///< taken from the text
};

/// First character of a non-empty text, strict: overlong forms, surrogates and stray bytes count as one bad byte.
Character first_character(std::string_view s) {
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(s[k]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t n = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || s.size() < n) return {0xFFFD, 1};
  char32_t code = lead & (0x7FU >> n);
  for (std::size_t k = 1; k < n; ++k) {
    if ((byte(k) & 0xC0U) != 0x80) return {0xFFFD, 1};
    code = (code << 6) | (byte(k) & 0x3FU);
  }
  constexpr std::array<char32_t, 5> smallest{0, 0, 0x80, 0x800, 0x10000};
  if (code < smallest[n] || code > 0x10FFFF || (code >= 0xD800 && code < 0xE000)) return {0xFFFD, 1};
  return {code, n};
}

/// Blocks only, enough to align option names; the terminal has the last word.
int width_of(char32_t c) {
  if ((c >= 0x300 && c < 0x370) || (c >= 0x200B && c <= 0x200D) || (c >= 0xFE00 && c < 0xFE10)) return 0;
  const bool wide = (c >= 0x1100 && c < 0x1160) || (c >= 0x2E80 && c < 0xA4D0) || (c >= 0xAC00 && c < 0xD7A4) ||
                    (c >= 0xF900 && c < 0xFB00) || (c >= 0xFF00 && c < 0xFF61) || (c >= 0x1F300 && c < 0x1FAFF) ||
                    (c >= 0x20000 && c < 0x30000);
  return wide ? 2 : 1;
}

/// The longest beginning that fits in so many columns.
std::string_view beginning(std::string_view text, int width) {
  std::size_t at = 0;
  int used = 0;
  while (at < text.size()) {
    const Character c = first_character(text.substr(at));
    if (used + width_of(c.code) > width) break;
    used += width_of(c.code);
    at += c.bytes;
  }
  return text.substr(0, at);
}

std::string fitted(std::string_view text, int width) {
  if (columns(text) <= width || width < 1) return std::string(text);
  return std::string(beginning(text, width - 1)) + "…";
}

std::string spaces(int n) { return std::string(static_cast<std::size_t>(std::max(n, 0)), ' '); }

double step_for(double span, int wanted) {
  const double raw = span / std::max(wanted, 1);
  const double power = std::pow(10, std::floor(std::log10(raw)));
  for (const double m : {1.0, 2.0, 2.5, 5.0})
    if (raw <= m * power * 1.0000001) return m * power;
  return 10 * power;
}

}  // namespace

std::string number_text(double value, int significant) {
  if (!std::isfinite(value)) return "n/a";
  std::array<char, 64> text{};
  const double size = std::abs(value);
  if (size == 0) return "0";
  if (size < 1e-4 || size >= 1e7) {
    std::snprintf(text.data(), text.size(), "%.*e", std::max(significant - 1, 0), value);
    return text.data();
  }
  // Rounding first, so that 9.996 counts as two whole digits (10.0, not 10.00).
  std::snprintf(text.data(), text.size(), "%.*e", std::max(significant - 1, 0), size);
  const int power = std::atoi(std::string_view(text.data()).substr(std::string_view(text.data()).find('e') + 1).data());
  std::snprintf(text.data(), text.size(), "%.*f", std::max(significant - 1 - power, 0), value);
  return text.data();
}

std::string signed_text(double value, int significant) {
  return (value > 0 ? "+" : "") + number_text(value, significant);
}

std::string plain_text(double value) {
  if (!std::isfinite(value)) return "n/a";
  std::array<char, 64> text{};
  std::snprintf(text.data(), text.size(), "%.6g", value == 0 ? 0.0 : value);
  return text.data();
}

std::string clean_utf8(std::string_view text) {
  std::string clean;
  while (!text.empty()) {
    const Character c = first_character(text);
    const bool control = c.code < 0x20 || (c.code >= 0x7F && c.code < 0xA0) || c.code == 0xFFFE || c.code == 0xFFFF;
    if (control || c.code == 0xFFFD)
      clean += "\xEF\xBF\xBD";
    else
      clean += text.substr(0, c.bytes);
    text.remove_prefix(c.bytes);
  }
  return clean;
}

int columns(std::string_view text) {
  int n = 0;
  while (!text.empty()) {
    const Character c = first_character(text);
    n += width_of(c.code);
    text.remove_prefix(c.bytes);
  }
  return n;
}

std::string left_aligned(std::string_view text, int width) {
  const std::string fit = fitted(text, width);
  return fit + spaces(width - columns(fit));
}

std::string right_aligned(std::string_view text, int width) {
  const std::string fit = fitted(text, width);
  return spaces(width - columns(fit)) + fit;
}

std::vector<std::string> wrapped(std::string_view text, int width) {
  std::vector<std::string> lines;
  std::string line;
  while (!text.empty()) {
    const auto end = std::min(text.find(' '), text.size());
    const std::string word(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    if (!line.empty() && columns(line) + 1 + columns(word) > width) {
      lines.push_back(line);
      line.clear();
    }
    line += (line.empty() ? "" : " ") + word;
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

std::vector<double> ticks(double low, double high, int wanted) {
  if (!(low < high) || !std::isfinite(high - low))
    throw std::invalid_argument("an axis needs a finite range with low < high");
  const double step = step_for(high - low, wanted);
  std::vector<double> at;
  const double first = std::ceil(low / step - 1e-9), last = std::floor(high / step + 1e-9);
  for (double k = first; k <= last; ++k) at.push_back(k == 0 ? 0.0 : k * step);
  return at;
}

Range rounded_range(double low, double high, int wanted) {
  if (!std::isfinite(low) || !std::isfinite(high) || !(low < high)) {
    const double middle = std::isfinite(low) ? low : 0;
    low = middle - 0.5;
    high = middle + 0.5;
  }
  const double step = step_for(high - low, wanted);
  return {std::floor(low / step + 1e-9) * step, std::ceil(high / step - 1e-9) * step};
}

}  // namespace hoofload::viz
