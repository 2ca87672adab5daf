#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "report/chart_scale.hpp"

namespace hailwright {

/// A moment of a log as its zone's clocks show it.
struct LocalClock {
  std::string date;    ///< "2026-06-14"
  std::string clock;   ///< "10:02:03", with a fraction where there is one
  std::string offset;  ///< "+02:00", "Z"
  /// "10:02"
  [[nodiscard]] std::string minute() const { return clock.substr(0, 5); }
  /// "06-14"
  [[nodiscard]] std::string day() const { return date.size() == 10 ? date.substr(5) : date; }
};

LocalClock local_clock(std::int64_t utc_us, std::string_view zone);

/// Two moments: the date once where it is one day, "2026-06-14 10:02:00 to 16:00:00".
std::string span_text(std::int64_t from_us, std::int64_t to_us, std::string_view zone);

/// "UTC+02:00", "UTC"; where the clocks were changed in between "UTC+01:00 and UTC+02:00".
std::string zone_text(std::int64_t from_us, std::int64_t to_us, std::string_view zone);

/// Round local times for an axis of time, at most so many (2 or more): `value` in seconds from
/// `from_us`; midnights of a log over several days are labelled by their day. Contract: from < to.
std::vector<detail::Tick> time_ticks(std::int64_t from_us, std::int64_t to_us,
                                     std::string_view zone, int most);

/// "42 s", "3 min 12 s", "9 h 58 min", "2 d 3 h"; below a minute to two digits where that is less.
/// Contract: 0 or more.
std::string duration_text(double seconds);

}  // namespace hailwright
