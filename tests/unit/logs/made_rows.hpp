#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <initializer_list>
#include <limits>
#include <utility>

#include "hailwright/logs/log_block.hpp"

/// Rows of a log made by formulas.
namespace hailwright::made {

inline constexpr double blank = std::numeric_limits<double>::quiet_NaN();
inline constexpr std::int64_t second_us = 1'000'000;

/// A cell from the row's time in seconds since the first row.
using Cell = std::function<double(double time_s)>;

inline LogBlock rows(std::size_t count, double step_s,
                     std::initializer_list<std::pair<LogRole, Cell>> columns) {
  LogBlock block;
  for (std::size_t i = 0; i < count; ++i) {
    const double time_s = static_cast<double>(i) * step_s;
    block.time_us.push_back(static_cast<std::int64_t>(time_s * 1e6 + 0.5));
    block.line.push_back(static_cast<std::uint32_t>(i));
    for (const auto& [role, cell] : columns)
      block.values[index_of(role)].push_back(cell(time_s));
  }
  block.first_line = 2;
  return block;
}

inline Cell always(double value) {
  return [value](double) { return value; };
}

}  // namespace hailwright::made
