#include "scenarios/shifted_text.hpp"

namespace hoofload::scenarios {
namespace {

constexpr char32_t kShift = 0x100000;

/// The character at `at` and its length; the text is known to be UTF-8 (RFC 3629).
struct Character {
  char32_t code;
  std::size_t length;
};

Character character(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t k) { return static_cast<char32_t>(static_cast<unsigned char>(text[at + k])); };
  const char32_t lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t length = lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
  if (at + length > text.size()) return {lead, 1};
  char32_t code = lead & (0xFFu >> (length + 1));
  for (std::size_t k = 1; k < length; ++k) code = code << 6 | (byte(k) & 0x3Fu);
  return {code, length};
}

void append(std::string& text, char32_t code) {
  const auto tail = [&](int shift) { text += static_cast<char>(0x80u | (code >> shift & 0x3Fu)); };
  if (code < 0x800) {
    text += static_cast<char>(0xC0u | code >> 6);
  } else if (code < 0x10000) {
    text += static_cast<char>(0xE0u | code >> 12);
    tail(6);
  } else {
    text += static_cast<char>(0xF0u | code >> 18);
    tail(12);
    tail(6);
  }
  tail(0);
}

bool shiftable(char32_t code) { return code >= 0x80 && code <= 0xFEFF && !(code >= 0xD800 && code <= 0xDFFF); }

template <class Change>
std::string changed(std::string_view text, const Change& change) {
  std::string result;
  result.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character(text, at);
    const char32_t code = change(c.code);
    if (code == c.code)
      result += text.substr(at, c.length);
    else
      append(result, code);
    at += c.length;
  }
  return result;
}

}  // namespace

std::string shifted_text(std::string_view text) {
  return changed(text, [](char32_t code) { return shiftable(code) ? code + kShift : code; });
}

std::string unshifted_text(std::string_view text) {
  return changed(text, [](char32_t code) { return code >= kShift && shiftable(code - kShift) ? code - kShift : code; });
}

std::size_t shifted_character(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character(text, at);
    if (c.code >= kShift) return at;
    at += c.length;
  }
  return std::string_view::npos;
}

}  // namespace hoofload::scenarios
