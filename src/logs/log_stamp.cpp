#include "logs/log_stamp.hpp"

#include <algorithm>

#include "logs/log_stamp_scan.hpp"

namespace hailwright::detail {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// ".123" as nanoseconds; `size` is how many bytes it has. Nothing of more than nine digits.
bool read_fraction(std::string_view text, std::int64_t& nanoseconds, std::size_t& size) {
  size = 0;
  nanoseconds = 0;
  if (text.empty() || (text[0] != '.' && text[0] != ',')) return true;
  std::int64_t weight = second_us * 1000;
  for (size = 1; size < text.size() && is_digit(text[size]); ++size) {
    weight /= 10;
    if (weight == 0) return false;
    nanoseconds += (text[size] - '0') * weight;
  }
  return size > 1;
}

}  // namespace

bool StampReader::Part::keep(std::string_view other) {
  if (other.size() > longest_part) return false;
  std::copy(other.begin(), other.end(), text.begin());
  size = other.size();
  return true;
}

/// The slower way, still by the minute: stamps with a fraction, an offset, a column of dates.
bool StampReader::read_by_minute(std::string_view clock, std::int64_t& us) const {
  const std::string_view known = known_.view();
  if (known.empty() || clock.size() < known.size() + 2 || !clock.starts_with(known)) return false;
  const unsigned tens = digit(clock[known.size()]);
  const unsigned ones = digit(clock[known.size() + 1]);
  if (tens > 5 || ones > 9) return false;
  const std::string_view rest = clock.substr(known.size() + 2);
  std::int64_t nanoseconds = 0;
  std::size_t size = 0;
  if (!read_fraction(rest, nanoseconds, size) || rest.substr(size) != known_tail_.view())
    return false;
  us = known_us_ + static_cast<std::int64_t>(tens * 10 + ones) * second_us +
       (nanoseconds + 500) / 1000;
  return true;
}

bool StampReader::read_other(std::string_view date, std::string_view clock, std::int64_t& us) {
  if (date == date_.view() && read_by_minute(clock, us)) return true;
  const StampScan scan = date.empty() ? scan_stamp(clock, form_) : scan_stamp(date, clock, form_);
  if (!scan.good()) return false;
  us = scan.us;
  remember(date, clock, scan);
  return true;
}

void StampReader::remember(std::string_view date, std::string_view clock, const StampScan& scan) {
  known_.size = 0;
  usual_ = false;
  if (scan.seconds_begin == 0) return;
  if (!date_.keep(date) || !known_tail_.keep(clock.substr(scan.tail_begin))) return;
  if (!known_.keep(clock.substr(0, scan.seconds_begin))) return;
  known_us_ = scan.minute_us;
  usual_ = date.empty() && known_.size == usual_prefix && known_tail_.size == 0;
}

}  // namespace hailwright::detail
