#pragma once

#include <string>
#include <string_view>

namespace hailwright {

/// SHA-256 (FIPS 180-4) of some bytes, as 64 lower-case hexadecimal digits: what `sha256sum`
/// prints.
std::string sha256_hex(std::string_view bytes);

/// Some bytes in base64 (RFC 4648, section 4: padded, no line breaks).
/// Contract: fewer than 2^30 bytes.
std::string base64(std::string_view bytes);

}  // namespace hailwright
