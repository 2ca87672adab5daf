#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace hailwright::detail {

/// Words of a user for a message: in quotes, cut to about 24 bytes at a character, no control
/// characters. An object, since of functions the compiler would prefer std::quoted for a string
/// wherever <iomanip> is seen.
struct Quoted {
  std::string operator()(std::string_view words) const {
    constexpr std::size_t longest = 24;
    std::string out;
    for (const char c : words) {
      const auto byte = static_cast<unsigned char>(c);
      if (out.size() >= longest && (byte & 0xC0U) != 0x80U) return '"' + out + "...\"";
      if (out.size() >= longest + 3) return '"' + out + "...\"";
      out += byte < 0x20U || byte == 0x7FU ? '?' : c;
    }
    return '"' + out + '"';
  }
};
inline constexpr Quoted quoted;

}  // namespace hailwright::detail
