#pragma once

#include <cstddef>
#include <vector>

#include "hailwright/evaluate/line_up.hpp"

namespace hailwright::detail {

/// The part of a group that is shown: all of it, or its top and its bottom.
struct LineUpRows {
  std::vector<std::size_t> rows;  ///< indices into `LineUpGroup::ranks`, in order
  std::size_t left_out = 0;       ///< that stand between the top and the bottom
  std::size_t gap_before = 0;     ///< index into `rows` of the first row of the bottom
  [[nodiscard]] bool gap() const { return left_out > 0; }
};

LineUpRows rows_shown(const LineUpGroup& group);

}  // namespace hailwright::detail
