#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "hailwright/logs/stretch_meter.hpp"
#include "logs/row_windows.hpp"
#include "logs/series_sums.hpp"

namespace hailwright::detail {

/// The ratio of two powers logged together, second over first, by windows of a minute counted from
/// the first row. A step in time belongs to the window in which it ends, so that slow logs have
/// windows too. A window counts when both powers are at least `load_on` in all its rows that have
/// both and in the one before, it has no gap, and it covers at least half a minute [ours]. Windows
/// weigh alike. When the second log's stamps are shifted by s, its energy in a window changes by -s
/// (P2(end) - P2(begin)), to first order: hence `RatioMean::slope_per_s`.
class RatioWindows {
public:
  RatioWindows(Power load_on, double longest_gap_s);

  void take(const std::vector<std::int64_t>& time_us, const std::vector<double>& first_w,
            const std::vector<double>& second_w, std::size_t begin, std::size_t end);
  /// Nothing when no window counts.
  std::optional<RatioMean> finish();

private:
  void fill_common(const std::vector<double>& first_w, const std::vector<double>& second_w,
                   std::size_t begin, std::size_t end);
  void grow(PowerIntegral& window, const std::vector<std::int64_t>& time_us,
            const std::vector<double>& power_w, std::size_t begin, std::size_t end);
  void close();
  [[nodiscard]] bool counts() const;

  double load_on_w_;
  double longest_gap_s_;
  RowWindows windows_;
  /// The powers of the rows that have both; NaN elsewhere.
  std::vector<double> common_first_w_, common_second_w_;
  /// Of the open window, with the last row before it; of all windows before it.
  PowerIntegral first_, second_, all_first_, all_second_;
  ColumnTotal powers_;  ///< of both in the open window
  SeriesSums ln_ratio_;
  double slope_sum_per_s_ = 0.0;
  std::int64_t last_counted_ = -2;  ///< index of the last window that counts
};

}  // namespace hailwright::detail
