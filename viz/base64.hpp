// Binary data as VTK's XML files hold it: blocks under zlib, header and blocks in base64 (RFC 4648).
#pragma once

#include <cstdint>
#include <span>
#include <string>

namespace hoofload::viz {

[[nodiscard]] std::string base64(std::span<const std::uint8_t> bytes);

/// Header (UInt64: number of blocks, block size, size of a last partial block or 0, each block's compressed size) and
/// compressed blocks, each in base64. Throws std::runtime_error if zlib fails.
[[nodiscard]] std::string compressed_base64(std::span<const std::uint8_t> bytes);

}  // namespace hoofload::viz
