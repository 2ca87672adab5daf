#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_stretch.hpp"

namespace hailwright {

/// Energy of a power over time by the trapezoid rule, with what stands at both ends, so that
/// partial results of neighbouring rows can be merged. Merging is associative up to the rounding of
/// a sum of doubles-with-remainder: any split of the rows gives the same within 1e-15 or so.
struct PowerIntegral {
  std::int64_t rows = 0;  ///< with a power
  std::int64_t first_us = 0, last_us = 0;
  double first_w = 0.0, last_w = 0.0;
  double sum_ws = 0.0, sum_rest = 0.0;  ///< compensated sum
  std::int64_t bridged_us = 0;          ///< whole microseconds add up exactly
  std::int64_t gaps = 0;
  std::int64_t in_gaps_us = 0;

  [[nodiscard]] double energy_j() const { return sum_ws + sum_rest; }
  [[nodiscard]] double bridged_s() const { return static_cast<double>(bridged_us) / 1e6; }
  [[nodiscard]] double in_gaps_s() const { return static_cast<double>(in_gaps_us) / 1e6; }

  /// Rows `begin` to `end` of a block, in order of time; blank powers break nothing and bridge
  /// nothing: the next power is a step from the last one.
  static PowerIntegral of(const std::vector<std::int64_t>& time_us,
                          const std::vector<double>& power, std::size_t begin, std::size_t end,
                          double longest_gap_s);
  /// This one followed by `next`, which begins where this ends.
  void append(const PowerIntegral& next, double longest_gap_s);
};

/// Measures one stretch; rows are given in order of time. Memory does not grow with their number
/// unless rows are to be kept.
class StretchMeter {
public:
  /// @param most_kept  rows to keep at most, 0: none are asked for
  StretchMeter(const StretchRules& rules, std::size_t most_kept);
  StretchMeter(StretchMeter&& other) noexcept;
  StretchMeter& operator=(StretchMeter&& other) noexcept;
  StretchMeter(const StretchMeter&) = delete;
  StretchMeter& operator=(const StretchMeter&) = delete;
  ~StretchMeter();

  /// Rows `begin` to `end` of a block as `LogStream` gave it.
  void take(const LogBlock& block, std::size_t begin, std::size_t end);
  /// Closes the stretch. False in `complete` when rows had to be left out of `kept`.
  LogStretch finish(bool& complete);

private:
  class Work;
  std::unique_ptr<Work> work_;
};

}  // namespace hailwright
