#pragma once

#include <cstddef>
#include <limits>

#include "hailwright/logs/log_block.hpp"

namespace hailwright::detail {

/// What a row has in a column; not a number where the log has none.
inline double cell(const LogBlock& block, LogRole role, std::size_t row) {
  const std::vector<double>& column = block.column(role);
  return column.empty() ? std::numeric_limits<double>::quiet_NaN() : column[row];
}

}  // namespace hailwright::detail
