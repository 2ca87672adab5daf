#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_stretch.hpp"

namespace hailwright::detail {

/// Finds the steps in time that are not bridged: from one row with a power to the next, as the
/// integral goes; from row to row where a log has no power.
class RowGaps {
public:
  explicit RowGaps(std::int64_t longest_gap_us) : longest_gap_us_(longest_gap_us) {}

  void take(const LogBlock& block, std::size_t begin, std::size_t end);
  /// Number and time of all gaps, and the longest of them.
  void write_to(LogStretch& stretch) const;

private:
  void look(const LogBlock& block, std::size_t row);
  void keep(const LogGap& gap);

  std::int64_t longest_gap_us_;
  bool any_row_ = false;
  std::int64_t last_us_ = 0;
  std::int64_t gaps_ = 0;
  std::int64_t in_gaps_us_ = 0;
  std::vector<LogGap> longest_;  ///< longest first, the earlier one of two alike first
};

}  // namespace hailwright::detail
