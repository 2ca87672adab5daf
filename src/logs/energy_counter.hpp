#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "hailwright/logs/log_stretch.hpp"

namespace hailwright::detail {

/// What a counter of energy did from one reading to the next.
enum class CounterStep {
  rise,   ///< or stayed
  wrap,   ///< it is said to wrap around, and the step over its end is at most half its range [ours]
  reset,  ///< it fell to less than half of what it showed [ours]: it counts from 0
  back    ///< a smaller fall: a value restored from memory, or a balance that takes energy off
};
CounterStep counter_step(double from_j, double to_j, std::optional<double> wraps_at_j);

/// Adds up a counter of energy: its rises, what lies in a wrap-around, what it shows after a reset;
/// nothing for a step back. What it counts between two rows of power that are further apart than
/// the longest gap, or before the first and after the last of them, is told apart, since the
/// integral of power does not have it.
class EnergyCounter {
public:
  EnergyCounter(std::optional<Energy> wraps_at, std::int64_t longest_gap_us);

  /// @param power_w  nothing when the log has no power: then all rows bridge
  void take(const std::vector<std::int64_t>& time_us, const std::vector<double>& counter_j,
            const std::vector<double>& power_w, std::size_t begin, std::size_t end);
  /// Nothing when no cell of the counter was there.
  std::optional<CounterReading> finish();

private:
  /// All cells there, no gap and no fall; gives false and does nothing otherwise.
  bool take_smooth(const std::int64_t* time_us, const double* counter_j, const double* power_w,
                   std::size_t rows);
  void take_row(std::int64_t time_us, double counter_j, bool bridges);
  double increase_to(double counter_j);
  void settle();

  std::optional<double> wraps_at_j_;
  std::int64_t longest_gap_us_;
  CounterReading reading_;
  double counted_j_ = 0.0, counted_rest_j_ = 0.0;
  double in_gaps_j_ = 0.0;
  double stepped_back_j_ = 0.0;
  double last_j_ = 0.0;          ///< of the last cell that was there
  std::int64_t bridged_us_ = 0;  ///< of the last row that bridges
  bool any_bridge_ = false;
  double pending_j_ = 0.0;   ///< counted since the last row with both power and counter
  bool pending_gap_ = true;  ///< with a gap in it; before the first such row, too
};

}  // namespace hailwright::detail
