// The grammar of time stamps: ISO 8601-1:2019 calendar date and time of day in extended format
// (form from memory), and what loggers write instead of it.
#include "logs/log_stamp_scan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/quoted.hpp"
#include "logs/log_stamp.hpp"

namespace hailwright::detail {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_mark(char c) {
  return c == '-' || c == '/' || c == '.';
}

int days_in(int year, int month) {
  constexpr std::array days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
  return month == 2 && leap ? 29 : days[static_cast<std::size_t>(month - 1)];
}

/// Digits that stand together.
struct Digits {
  std::size_t begin = 0;
  std::size_t size = 0;
  int value = 0;  ///< of at most nine of them
};

/// Goes through one cell from left to right and stops at the first fault.
class Scanner {
public:
  Scanner(std::string_view text, const StampForm& form, StampScan& found)
      : text_(text), form_(form), found_(found) {}

  bool date();
  bool gap();
  bool clock();
  bool end() { return at_ == text_.size() || fail_rest(); }
  bool unix_time();

private:
  [[nodiscard]] char peek(std::size_t ahead = 0) const {
    return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
  }
  bool fail(StampFault fault, std::size_t begin, std::size_t end) {
    found_.fault = fault;
    found_.begin = begin;
    found_.end = end;
    return false;
  }
  bool fail(StampFault fault, const Digits& at) {
    return fail(fault, at.begin, at.begin + at.size);
  }
  bool fail_here(StampFault fault) { return fail(fault, at_, text_.size()); }
  bool fail_rest();

  Digits digits(std::size_t most);
  bool mark();
  bool check_date(const Digits& year, const Digits& month, const Digits& day);
  bool short_part(const Digits& part) const;
  bool hour_and_minute();
  bool seconds();
  bool fraction(std::int64_t unit_us);
  bool half_day();
  bool offset();
  bool offset_value(std::int64_t& us);

  std::string_view text_;
  const StampForm& form_;
  StampScan& found_;
  std::size_t at_ = 0;
  Digits hour_;
};

Digits Scanner::digits(std::size_t most) {
  Digits run{at_, 0, 0};
  while (run.size < most && is_digit(peek())) {
    run.value = run.value * 10 + (text_[at_] - '0');
    ++run.size;
    ++at_;
  }
  return run;
}

bool Scanner::mark() {
  if (peek() == form_.date_mark) {
    ++at_;
    return true;
  }
  if (is_mark(peek())) return fail(StampFault::other_mark, at_, at_ + 1);
  return fail(StampFault::not_a_date, 0, text_.size());
}

/// ISO 8601 pads with zeros; a part that has lost a digit is not read as another one.
bool Scanner::short_part(const Digits& part) const {
  const bool iso = form_.dates == DateOrder::year_first && form_.date_mark == '-';
  return part.size == 0 || (iso && part.size < 2);
}

bool Scanner::date() {
  const bool year_first = form_.dates == DateOrder::year_first;
  const Digits first = digits(year_first ? 4 : 2);
  if (first.size == 0 || (year_first && first.size != 4))
    return fail(StampFault::not_a_date, 0, text_.size());
  if (!mark()) return false;
  const Digits second = digits(2);
  if (second.size == 0) return fail(StampFault::not_a_date, 0, text_.size());
  if (!mark()) return false;
  const Digits third = digits(year_first ? 2 : 4);
  if (is_digit(peek()) || third.size == 0) return fail(StampFault::not_a_date, 0, text_.size());
  if (year_first) return check_date(first, second, third);
  if (third.size == 2) return fail(StampFault::two_digit_year, third);
  if (third.size != 4) return fail(StampFault::year, third);
  return form_.dates == DateOrder::day_first ? check_date(third, second, first)
                                             : check_date(third, first, second);
}

bool Scanner::check_date(const Digits& year, const Digits& month, const Digits& day) {
  if (year.value < earliest_year || year.value > latest_year) return fail(StampFault::year, year);
  if (short_part(month) || month.value < 1 || month.value > 12)
    return fail(StampFault::month, month);
  if (short_part(day) || day.value < 1 || day.value > days_in(year.value, month.value))
    return fail(StampFault::day, day);
  found_.minute_us = days_from_civil(year.value, month.value, day.value) * day_us;
  return true;
}

/// Between the date and the time of day.
bool Scanner::gap() {
  if (at_ == text_.size()) return fail_here(StampFault::no_clock);
  if (peek() != 'T' && peek() != ' ') return fail_rest();
  ++at_;
  if (at_ == text_.size()) return fail_here(StampFault::no_clock);
  return true;
}

bool Scanner::clock() {
  if (!hour_and_minute() || !seconds()) return false;
  found_.tail_begin = at_;
  return half_day() && offset();
}

bool Scanner::hour_and_minute() {
  hour_ = digits(2);
  if (hour_.size == 0) return fail_here(StampFault::no_clock);
  if (short_part(hour_) || hour_.value > 23) return fail(StampFault::hour, hour_);
  if (peek() != ':') return fail(StampFault::no_minutes, hour_.begin, at_);
  ++at_;
  const Digits minute = digits(2);
  if (minute.size == 0) return fail(StampFault::no_minutes, hour_.begin, at_);
  if (minute.size != 2 || minute.value > 59) return fail(StampFault::minute, minute);
  found_.minute_us += hour_.value * hour_us + minute.value * minute_us;
  found_.us = found_.minute_us;
  return true;
}

bool Scanner::seconds() {
  if (peek() != ':') return true;
  ++at_;
  const Digits second = digits(2);
  if (second.size == 0) return fail(StampFault::no_seconds, hour_.begin, at_);
  if (second.size == 2 && second.value == 60) return fail(StampFault::leap_second, second);
  if (second.size != 2 || second.value > 59) return fail(StampFault::second, second);
  found_.seconds_begin = second.begin;
  found_.us = found_.minute_us + second.value * second_us;
  return fraction(second_us);
}

/// Of a second or a millisecond, rounded to a microsecond.
bool Scanner::fraction(std::int64_t unit_us) {
  if (peek() != '.' && peek() != ',') return true;
  const std::size_t mark_at = at_++;
  const Digits part = digits(9);
  if (part.size == 0 || is_digit(peek())) {
    while (is_digit(peek()))
      ++at_;
    return fail(StampFault::fraction, mark_at, at_);
  }
  std::int64_t billionths = part.value;
  for (std::size_t i = part.size; i < 9; ++i)
    billionths *= 10;
  constexpr std::int64_t billion = 1'000'000'000;
  found_.us += (billionths * unit_us + billion / 2) / billion;
  return true;
}

bool Scanner::half_day() {
  const std::size_t begin = at_;
  const std::size_t word = begin + (peek() == ' ' ? 1 : 0);
  const char half = word < text_.size() ? static_cast<char>(text_[word] | 0x20) : '\0';
  const bool there = (half == 'a' || half == 'p') && word + 1 < text_.size() &&
                     static_cast<char>(text_[word + 1] | 0x20) == 'm';
  if (there != form_.twelve_hour) {
    return there ? fail(StampFault::stray_half_day, word, word + 2)
                 : fail_here(StampFault::no_half_day);
  }
  if (!there) return true;
  if (hour_.value < 1 || hour_.value > 12) return fail(StampFault::half_day_hour, hour_);
  at_ = word + 2;
  // 12 AM is midnight, 12 PM is noon.
  const std::int64_t shift = (half == 'p' ? 12 : 0) - (hour_.value == 12 ? 12 : 0);
  found_.minute_us += shift * hour_us;
  found_.us += shift * hour_us;
  return true;
}

bool Scanner::offset() {
  const std::size_t begin = at_;
  if (peek() == ' ') ++at_;
  const bool there = peek() == 'Z' || peek() == '+' || peek() == '-';
  if (!there) {
    at_ = begin;
    return !form_.own_offset ? true : fail_here(StampFault::no_offset);
  }
  std::int64_t us = 0;
  if (!offset_value(us)) return fail(StampFault::offset, begin, text_.size());
  if (!form_.own_offset) return fail(StampFault::stray_offset, begin, at_);
  found_.minute_us -= us;
  found_.us -= us;
  return true;
}

bool Scanner::offset_value(std::int64_t& us) {
  const char sign = peek();
  ++at_;
  if (sign == 'Z') return true;
  const Digits hours = digits(2);
  if (hours.size != 2) return false;
  Digits minutes;
  const bool colon = peek() == ':';
  if (colon) ++at_;
  if (colon || is_digit(peek())) {
    minutes = digits(2);
    if (minutes.size != 2 || minutes.value > 59) return false;
  }
  us = hours.value * hour_us + minutes.value * minute_us;
  if (us > largest_offset_us) return false;
  if (sign == '-') us = -us;
  return true;
}

bool Scanner::unix_time() {
  const bool milliseconds = form_.kind == StampForm::Kind::unix_milliseconds;
  const std::size_t size = milliseconds ? 13 : 10;
  std::int64_t value = 0;
  while (at_ < size && is_digit(peek()))
    value = value * 10 + (text_[at_++] - '0');
  if (at_ != size || text_[0] == '0' || is_digit(peek()))
    return fail(StampFault::not_unix, 0, text_.size());
  const std::int64_t unit_us = milliseconds ? second_us / 1000 : second_us;
  found_.us = value * unit_us;
  return fraction(unit_us);
}

bool Scanner::fail_rest() {
  return fail_here(StampFault::rest);
}

}  // namespace

// Counts years from March, so that a leap day is the last of its year: the months before it have
// lengths that (153 m + 2) / 5 adds up. The usual derivation from the Gregorian rule; held against
// <chrono> in the tests.
std::int64_t days_from_civil(int year, int month, int day) noexcept {
  const int shifted = month > 2 ? year : year - 1;
  const int century = shifted / 100;
  const int from_march = month > 2 ? month - 3 : month + 9;
  const int days =
      365 * shifted + shifted / 4 - century + century / 4 + (153 * from_march + 2) / 5 + day - 1;
  constexpr int days_before_1970 = 719468;  // from 0000-03-01
  return days - days_before_1970;
}

StampScan scan_stamp(std::string_view cell, const StampForm& form) {
  StampScan found;
  if (cell.empty()) return found;
  Scanner scanner(cell, form, found);
  const bool good = form.kind == StampForm::Kind::calendar
                        ? scanner.date() && scanner.gap() && scanner.clock()
                        : scanner.unix_time();
  if (good && scanner.end()) found.fault = StampFault::none;
  return found;
}

StampScan scan_stamp(std::string_view date, std::string_view clock, const StampForm& form) {
  StampScan found;
  found.in_date = true;
  if (date.empty()) return found;
  Scanner days(date, form, found);
  if (!days.date() || !days.end()) return found;
  found.in_date = false;
  if (clock.empty()) return found;
  Scanner times(clock, form, found);
  if (times.clock() && times.end()) found.fault = StampFault::none;
  return found;
}

std::string beyond_range(std::string_view cell) {
  StampForm form;
  form.own_offset = true;
  for (const char mark : {'-', '/', '.'}) {
    for (const DateOrder order :
         {DateOrder::year_first, DateOrder::day_first, DateOrder::month_first}) {
      form.date_mark = mark;
      form.dates = order;
      const StampScan scan = scan_stamp(cell, form);
      const std::string_view part = cell.substr(scan.begin, scan.end - scan.begin);
      if (scan.fault == StampFault::year && part.size() == 4)
        return fmt::format("year {} is not read: it is not between {} and {}. See whether the "
                           "logger's clock was set",
                           part, earliest_year, latest_year);
      if (scan.fault == StampFault::offset)
        return fmt::format("{} is no offset from UTC: they go up to 14 hours, as +02:00",
                           quoted(part));
    }
  }
  return {};
}

}  // namespace hailwright::detail
