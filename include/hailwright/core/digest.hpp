#pragma once

#include <string>
#include <string_view>

namespace hailwright {

/// SHA-256 (FIPS 180-4) of some bytes, as 64 lower-case hexadecimal digits: what `sha256sum`
/// prints.
std::string sha256_hex(std::string_view bytes);

}  // namespace hailwright
