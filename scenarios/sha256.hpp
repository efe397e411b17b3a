// SHA-256 (FIPS 180-4), for the fingerprint of a case.
#pragma once

#include <string>
#include <string_view>

namespace hoofload::scenarios {

/// 64 lower-case hexadecimal digits.
[[nodiscard]] std::string sha256(std::string_view text);

}  // namespace hoofload::scenarios
