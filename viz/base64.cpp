#include "viz/base64.hpp"

#include <zlib.h>

#include <algorithm>
#include <stdexcept>
#include <vector>

namespace hoofload::viz {
namespace {

constexpr std::size_t block_size = 1U << 20U;

std::vector<std::uint8_t> bytes_of(const std::vector<std::uint64_t>& words) {
  std::vector<std::uint8_t> bytes;
  for (const std::uint64_t word : words)  // little endian, as the file's head declares
    for (unsigned k = 0; k < 8; ++k) bytes.push_back(static_cast<std::uint8_t>(word >> (8 * k)));
  return bytes;
}

}  // namespace

std::string base64(std::span<const std::uint8_t> bytes) {
  constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t k = 0; k < bytes.size(); k += 3) {
    const std::size_t n = std::min<std::size_t>(3, bytes.size() - k);
    std::uint32_t word = 0;
    for (std::size_t i = 0; i < 3; ++i) word = (word << 8U) | (i < n ? bytes[k + i] : 0U);
    for (std::size_t i = 0; i < 4; ++i) out += i <= n ? digits[(word >> (18 - 6 * i)) & 63U] : '=';
  }
  return out;
}

std::string compressed_base64(std::span<const std::uint8_t> bytes) {
  const std::size_t blocks = (bytes.size() + block_size - 1) / block_size;
  std::vector<std::uint64_t> header{blocks, block_size, bytes.size() % block_size};
  std::vector<std::uint8_t> packed;
  for (std::size_t b = 0; b < blocks; ++b) {
    const auto block = bytes.subspan(b * block_size, std::min(block_size, bytes.size() - b * block_size));
    uLongf size = compressBound(static_cast<uLong>(block.size()));
    std::vector<std::uint8_t> part(size);
    if (compress2(part.data(), &size, block.data(), static_cast<uLong>(block.size()), 1) != Z_OK)
      throw std::runtime_error("zlib could not compress a data array");
    header.push_back(size);
    packed.insert(packed.end(), part.begin(), part.begin() + static_cast<std::ptrdiff_t>(size));
  }
  return base64(bytes_of(header)) + base64(packed);
}

}  // namespace hoofload::viz
