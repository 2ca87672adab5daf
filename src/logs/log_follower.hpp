#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>

#include "hailwright/logs/log_pairing.hpp"

namespace hailwright::detail {

/// A log's values at times of another one that rise: on the straight line between the two rows
/// around, when these are no further apart than the longest gap. Holds one block.
class LogFollower {
public:
  struct Values {
    double power = std::numeric_limits<double>::quiet_NaN();        ///< [W]; NaN: not known
    double temperature = std::numeric_limits<double>::quiet_NaN();  ///< [K]; NaN: not known
  };

  /// @param offset_us  added to the log's stamps
  LogFollower(NextBlock next, std::int64_t offset_us, std::int64_t longest_gap_us);
  /// Contract of times: none before the last one asked for.
  Values at(std::int64_t time_us);
  /// Of the first row after the last time asked for, or of the log's first row; nothing at the end.
  std::optional<std::int64_t> next_us();
  /// Whether the log has a column of temperature, as far as it was read.
  [[nodiscard]] bool has_temperature() const { return has_temperature_; }

private:
  struct Row {
    std::int64_t time_us = 0;
    Values values;
  };
  /// Makes sure that the block has a row `at_`; false at the end.
  bool has_row();
  [[nodiscard]] std::int64_t row_us() const { return block_.time_us[at_] + offset_us_; }
  [[nodiscard]] Row row() const;

  NextBlock next_;
  std::int64_t offset_us_, longest_gap_us_;
  LogBlock block_;
  std::size_t at_ = 0;         ///< the first row after the time asked for last
  std::optional<Row> before_;  ///< the last row not after it
  bool ended_ = false;
  bool has_temperature_ = false;
};

}  // namespace hailwright::detail
