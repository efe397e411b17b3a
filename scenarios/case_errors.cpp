#include "scenarios/case_errors.hpp"

#include <array>
#include <cstdio>

namespace hoofload::scenarios {
namespace {

/// Length of the well-formed UTF-8 sequence at `at`; 0 if it is broken (RFC 3629, section 4).
std::size_t utf8_length(std::string_view s, std::size_t at) {
  const auto byte = [&](std::size_t k) { return at + k < s.size() ? static_cast<unsigned char>(s[at + k]) : 0u; };
  const unsigned lead = byte(0);
  if (lead < 0x80) return 1;
  const std::size_t n = lead >= 0xC2 && lead <= 0xDF   ? 2
                        : (lead >> 4) == 0xE           ? 3
                        : lead >= 0xF0 && lead <= 0xF4 ? 4
                                                       : 0;
  for (std::size_t k = 1; k < n; ++k)
    if ((byte(k) & 0xC0u) != 0x80u) return 0;
  const bool overlong = (lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xF0 && byte(1) < 0x90);
  const bool surrogate = lead == 0xED && byte(1) > 0x9F;
  const bool beyond = lead == 0xF4 && byte(1) > 0x8F;
  return overlong || surrogate || beyond ? 0 : n;
}

// A problem may quote a piece of the file, which must not break the line.
constexpr int kLongestProblem = 300;

std::string escaped(unsigned char c) {
  std::array<char, 8> text{};
  std::snprintf(text.data(), text.size(), "\\x%02X", c);
  return text.data();
}

}  // namespace

std::size_t broken_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t n = utf8_length(text, at);
    if (n == 0) return at;
    at += n;
  }
  return std::string_view::npos;
}

std::string shown_text(std::string_view text, int longest) {
  std::string shown;
  int count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) {
    if (count == longest) return shown + "...";
    const auto c = static_cast<unsigned char>(text[at]);
    const std::size_t n = utf8_length(text, at);
    const bool plain =
        n > 0 && c >= 0x20 && c != 0x7F && !(n == 2 && c == 0xC2 && static_cast<unsigned char>(text[at + 1]) < 0xA0);
    shown += plain ? std::string(text.substr(at, n)) : escaped(c);
    at += plain ? n : 1;
  }
  return shown;
}

std::string error_text(const CaseError& e) {
  std::string text = e.file + ":" + std::to_string(e.at.line) + ":" + std::to_string(e.at.column) + ": ";
  if (!e.key.empty()) text += shown_text(e.key) + ": ";
  text += shown_text(e.problem, kLongestProblem);
  if (!e.value.empty()) text += "; given: " + e.value;
  if (!e.allowed.empty()) text += "; allowed: " + e.allowed;
  if (!e.nearest.empty()) text += "; nearest: " + e.nearest;
  return text;
}

}  // namespace hoofload::scenarios
