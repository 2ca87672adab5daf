#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "logs/four_lanes.hpp"

// Looks over rows of a log as arrays, so that sums take the quick way where nothing is odd.
namespace hailwright::detail {

/// Rows that are summed in one go, without a look at each.
inline constexpr std::size_t rows_of_a_piece = 256;

/// Whole microseconds, as stamps are counted, of a time of 0 or more; one without end becomes a
/// thousand centuries.
inline std::int64_t microseconds(double seconds) {
  constexpr double most = 3e12;
  return std::llrint(std::min(seconds, most) * 1e6);
}

/// Whether the step between any two neighbours is longer. Rows are in order of time.
inline bool any_longer_step(const std::int64_t* time_us, std::size_t rows,
                            std::int64_t longest_us) {
  // The sign of what is left shows it; one look at all signs instead of a branch a row.
  std::int64_t left = 0;
  for (std::size_t i = 1; i < rows; ++i)
    left |= longest_us - (time_us[i] - time_us[i - 1]);
  return left < 0;
}

/// Whether all steps between neighbours are as long as the first one.
inline bool even_steps(const std::int64_t* time_us, std::size_t rows) {
  std::int64_t off = 0;
  for (std::size_t i = 2; i < rows; ++i)
    off |= (time_us[i] - time_us[i - 1]) - (time_us[1] - time_us[0]);
  return off == 0;
}

/// Whether any cell is blank (NaN).
inline bool any_blank(const double* values, std::size_t rows) {
  // Nought times a number is nought.
  const FourLanes none{};
  FourLanes zero{};
  std::size_t i = 0;
  for (; i + lanes <= rows; i += lanes) {
    zero += none * FourLanes::load(values + i);
  }
  double rest = 0.0;
  for (; i < rows; ++i)
    rest += 0.0 * values[i];
  return std::isnan(total(zero) + rest);
}

}  // namespace hailwright::detail
