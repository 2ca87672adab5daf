#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "hailwright/logs/log_format.hpp"

namespace hailwright::detail {

// A clock that was never set writes 1970 or 2000; a stamp before 1900 is no clock's at all [ours].
// The compiled time zone tables of Debian's tzdata end in 2037: clock changes after it are unknown.
inline constexpr int earliest_year = 1900;
inline constexpr int latest_year = 2037;

/// The first thing that is wrong with a stamp.
enum class StampFault {
  none,
  empty,
  not_a_date,  // from here on the date
  other_mark,
  two_digit_year,
  year,
  month,
  day,
  no_clock,  // from here on the time of day
  hour,
  no_minutes,
  minute,
  no_seconds,
  second,
  leap_second,
  fraction,
  half_day_hour,
  no_half_day,  // what follows the time of day
  stray_half_day,
  no_offset,
  offset,
  stray_offset,
  rest,
  not_unix
};

/// What a scan of one stamp found.
struct StampScan {
  StampFault fault = StampFault::empty;
  bool in_date = false;   ///< of two columns: the fault stands in that of the date
  std::size_t begin = 0;  ///< bytes of the cell that the fault is about
  std::size_t end = 0;
  std::int64_t us = 0;  ///< since 1970, as written or in UTC
  // So that a reader can remember the minute: the bytes before the seconds and after their
  // fraction. No seconds: 0.
  std::size_t seconds_begin = 0;
  std::size_t tail_begin = 0;
  std::int64_t minute_us = 0;

  [[nodiscard]] bool good() const { return fault == StampFault::none; }
};

/// Scans a stamp of one column.
StampScan scan_stamp(std::string_view cell, const StampForm& form);
/// Scans a date and a time of day of two columns.
StampScan scan_stamp(std::string_view date, std::string_view clock, const StampForm& form);

/// What is wrong with a cell that is a stamp in its form, and has a year or an offset from UTC that
/// is not read, with the range that is. Empty for any other cell.
std::string beyond_range(std::string_view cell);

}  // namespace hailwright::detail
