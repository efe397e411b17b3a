// Whether a text is UTF-8 (RFC 3629): no overlong form, no surrogate, nothing above U+10FFFF.
#pragma once

#include <string_view>

namespace hoofload::materials {

[[nodiscard]] inline bool is_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const auto byte = [&](std::size_t k) { return k < text.size() ? static_cast<unsigned char>(text[k]) : 0u; };
    const unsigned lead = byte(i);
    const std::size_t more = lead < 0x80   ? 0
                             : lead < 0xC2 ? 9
                             : lead < 0xE0 ? 1
                             : lead < 0xF0 ? 2
                             : lead < 0xF5 ? 3
                                           : 9;
    if (more == 9) return false;
    unsigned code = more == 0 ? lead : lead & (0x3Fu >> more);
    for (std::size_t k = 1; k <= more; ++k) {
      if ((byte(i + k) & 0xC0) != 0x80) return false;
      code = code << 6 | (byte(i + k) & 0x3F);
    }
    if ((more == 2 && (code < 0x800 || (code >= 0xD800 && code < 0xE000))) ||
        (more == 3 && (code < 0x10000 || code > 0x10FFFF))) {
      return false;
    }
    i += more + 1;
  }
  return true;
}

}  // namespace hoofload::materials
