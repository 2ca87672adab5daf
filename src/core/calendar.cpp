#include "hailwright/core/calendar.hpp"

#include <charconv>
#include <chrono>

namespace hailwright {

namespace {

/// A number of digits only, as long as the text.
std::optional<unsigned> digits(std::string_view text) {
  unsigned value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

}  // namespace

std::optional<long> day_number(std::string_view iso_date) {
  if (iso_date.size() != 10 || iso_date[4] != '-' || iso_date[7] != '-') return std::nullopt;
  const auto year = digits(iso_date.substr(0, 4));
  const auto month = digits(iso_date.substr(5, 2));
  const auto day = digits(iso_date.substr(8, 2));
  if (!year || !month || !day) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(static_cast<int>(*year)),
                                         std::chrono::month(*month), std::chrono::day(*day)};
  if (!date.ok()) return std::nullopt;
  return static_cast<long>(std::chrono::sys_days(date).time_since_epoch().count());
}

}  // namespace hailwright
