#pragma once

#include <string_view>
#include <utility>
#include <vector>

#include "hailwright/core/quantity_text.hpp"

namespace hailwright::input {

/// Lengths with one unit at the end: "1020 x 510 x 35 mm" (× is taken for x). From `least` to
/// `most` of them, none negative. U20: another number of sides.
TextResult<std::vector<Length>> read_sides(std::string_view text, std::size_t least,
                                           std::size_t most);

/// Two counts: "9 x 4". U20: another number of counts.
TextResult<std::pair<int, int>> read_grid(std::string_view text);

}  // namespace hailwright::input
