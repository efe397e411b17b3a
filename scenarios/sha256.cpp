#include "scenarios/sha256.hpp"

#include <array>
#include <bit>
#include <cmath>
#include <cstdint>

namespace hoofload::scenarios {
namespace {

using Word = std::uint32_t;
using State = std::array<Word, 8>;

struct Constants {
  State start;
  std::array<Word, 64> k;
};

/// First 32 bits of the fractional part (FIPS 180-4, sections 4.2.2 and 5.3.3 define all constants so). Long double
/// carries enough of x: the largest is below 32, which leaves 59 bits after the point.
Word fraction_bits(long double x) { return static_cast<Word>((x - std::floor(x)) * 4294967296.0L); }

Constants make_constants() {
  Constants c{};
  int found = 0;
  for (int n = 2; found < 64; ++n) {
    bool prime = true;
    for (int d = 2; d * d <= n; ++d) prime = prime && n % d != 0;
    if (!prime) continue;
    const auto at = static_cast<std::size_t>(found);
    c.k[at] = fraction_bits(std::cbrt(static_cast<long double>(n)));
    if (found < 8) c.start[at] = fraction_bits(std::sqrt(static_cast<long double>(n)));
    ++found;
  }
  return c;
}

/// FIPS 180-4, section 6.2.2.
void compress(State& h, const unsigned char* block, const std::array<Word, 64>& k) {
  std::array<Word, 64> w;
  for (std::size_t t = 0; t < 16; ++t) {
    w[t] = static_cast<Word>(block[4 * t]) << 24 | static_cast<Word>(block[4 * t + 1]) << 16 |
           static_cast<Word>(block[4 * t + 2]) << 8 | static_cast<Word>(block[4 * t + 3]);
  }
  for (std::size_t t = 16; t < 64; ++t) {
    const Word s0 = std::rotr(w[t - 15], 7) ^ std::rotr(w[t - 15], 18) ^ (w[t - 15] >> 3);
    const Word s1 = std::rotr(w[t - 2], 17) ^ std::rotr(w[t - 2], 19) ^ (w[t - 2] >> 10);
    w[t] = s1 + w[t - 7] + s0 + w[t - 16];
  }
  State v = h;
  for (std::size_t t = 0; t < 64; ++t) {
    const Word s1 = std::rotr(v[4], 6) ^ std::rotr(v[4], 11) ^ std::rotr(v[4], 25);
    const Word t1 = v[7] + s1 + ((v[4] & v[5]) ^ (~v[4] & v[6])) + k[t] + w[t];
    const Word s0 = std::rotr(v[0], 2) ^ std::rotr(v[0], 13) ^ std::rotr(v[0], 22);
    const Word t2 = s0 + ((v[0] & v[1]) ^ (v[0] & v[2]) ^ (v[1] & v[2]));
    v = {t1 + t2, v[0], v[1], v[2], v[3] + t1, v[4], v[5], v[6]};
  }
  for (std::size_t i = 0; i < 8; ++i) h[i] += v[i];
}

}  // namespace

std::string sha256(std::string_view text) {
  const Constants constants = make_constants();
  State h = constants.start;
  std::string padded(text);
  padded += '\x80';
  while (padded.size() % 64 != 56) padded += '\0';
  const std::uint64_t bits = static_cast<std::uint64_t>(text.size()) * 8;
  for (int shift = 56; shift >= 0; shift -= 8) padded += static_cast<char>(bits >> shift & 0xFFu);
  for (std::size_t at = 0; at < padded.size(); at += 64)
    compress(h, reinterpret_cast<const unsigned char*>(padded.data() + at), constants.k);
  std::string hex;
  for (const Word word : h)
    for (int shift = 28; shift >= 0; shift -= 4) hex += "0123456789abcdef"[word >> shift & 0xFu];
  return hex;
}

}  // namespace hoofload::scenarios
