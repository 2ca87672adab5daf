#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_stretch.hpp"

namespace hailwright::detail {

/// Keeps rows for a record, so many and no more.
class RowKeeper {
public:
  /// @param most  0: none are asked for, and none is missed
  explicit RowKeeper(std::size_t most) : most_(most) {}

  void add(const LogBlock& block, std::size_t begin, std::size_t end);
  /// All rows since the last call were removed for this reason; empty: they were not.
  void close_window(std::string_view removed);
  [[nodiscard]] bool complete() const { return complete_; }
  std::vector<LogRow> take() { return std::move(rows_); }

private:
  std::size_t most_;
  std::size_t open_from_ = 0;
  bool complete_ = true;
  std::vector<LogRow> rows_;
};

}  // namespace hailwright::detail
