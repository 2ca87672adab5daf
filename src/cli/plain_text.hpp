#pragma once

#include <string>
#include <string_view>

namespace hailwright::cli {

/// A UTF-8 text in ASCII, for terminals that do not show UTF-8: the bytes of other characters would
/// come out there as wrong ones, or steer it (C1 controls are single bytes in 8-bit sets). Letters
/// lose their marks, signs become what units and people write for them ("degC", "+-"), and of
/// anything else there is a '?' for each column that it takes. Control characters of ASCII stay.
std::string in_ascii(std::string_view utf8);

}  // namespace hailwright::cli
