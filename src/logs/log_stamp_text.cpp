// What is said about stamps that cannot be read, and what one stamp tells about the form of all.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

#include "core/quoted.hpp"
#include "hailwright/core/calendar.hpp"
#include "hailwright/core/contract.hpp"
#include "logs/log_stamp.hpp"
#include "logs/log_stamp_scan.hpp"

namespace hailwright::detail {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::string_view order_words(DateOrder order) {
  switch (order) {
  case DateOrder::year_first:
    return "year, month, day";
  case DateOrder::day_first:
    return "day, month, year";
  case DateOrder::month_first:
    return "month, day, year";
  }
  fail_contract("unknown order of a date");
}

/// What a cell of a stamp holds.
enum class StampPart { whole, date, clock };

/// A cell that is read where stamps have this form.
std::string example(const StampForm& form, StampPart part) {
  if (form.kind == StampForm::Kind::unix_seconds) return "1781424123";
  if (form.kind == StampForm::Kind::unix_milliseconds) return "1781424123000";
  const char m = form.date_mark;
  std::string date = form.dates == DateOrder::year_first  ? fmt::format("2026{}06{}14", m, m)
                     : form.dates == DateOrder::day_first ? fmt::format("14{}06{}2026", m, m)
                                                          : fmt::format("06{}14{}2026", m, m);
  if (part == StampPart::date) return date;
  std::string clock = "10:02:03";
  if (form.twelve_hour) clock += " AM";
  if (form.own_offset) clock += "+02:00";
  return part == StampPart::clock ? clock : date + " " + clock;
}

/// Between date and time of day a T and a blank are read alike: which one the file has is not in
/// its form.
std::string like_the_others(const StampForm& form, StampPart part) {
  const bool either = part == StampPart::whole && form.kind == StampForm::Kind::calendar &&
                      form.dates == DateOrder::year_first;
  return fmt::format("write it in the form of the other rows, as in {}{}", example(form, part),
                     either ? ", the blank or a T between them" : "");
}

std::string date_message(const StampScan& scan, std::string_view cell, std::string_view part,
                         const StampForm& form) {
  switch (scan.fault) {
  case StampFault::other_mark:
    return fmt::format("{} in the date, the other stamps have {}", quoted(part),
                       quoted(std::string(1, form.date_mark)));
  case StampFault::two_digit_year:
    return fmt::format("a year of two digits, {}", quoted(part));
  case StampFault::year:
    return fmt::format("year {} is not between {} and {}", part, earliest_year, latest_year);
  case StampFault::month:
    return fmt::format("month {} (the order is {})", part, order_words(form.dates));
  case StampFault::day:
    return fmt::format("{} is no day of the calendar",
                       quoted(cell.substr(0, cell.find_first_of(" T"))));
  default:
    return fmt::format("{} is no date and time", quoted(cell));
  }
}

std::string clock_message(const StampScan& scan, std::string_view cell, std::string_view part) {
  switch (scan.fault) {
  case StampFault::no_clock:
    return fmt::format("no time of day in {}", quoted(cell));
  case StampFault::hour:
    return fmt::format("hour {}", part);
  case StampFault::no_minutes:
    return fmt::format("no minutes after {}", part);
  case StampFault::minute:
    return fmt::format("minute {}", part);
  case StampFault::no_seconds:
    return fmt::format("no seconds after {}", part);
  case StampFault::second:
    return fmt::format("second {}", part);
  case StampFault::leap_second:
    return "second 60: leap seconds are not read";
  case StampFault::fraction:
    return fmt::format("{} is no fraction of one to nine digits", quoted(part));
  case StampFault::half_day_hour:
    return fmt::format("hour {} with AM or PM", part);
  default:
    return fmt::format("{} is no time of day", quoted(cell));
  }
}

std::string end_message(const StampScan& scan, std::string_view cell, std::string_view part) {
  switch (scan.fault) {
  case StampFault::no_half_day:
    return fmt::format("no AM or PM in {}", quoted(cell));
  case StampFault::stray_half_day:
    return fmt::format("{}, which the other stamps do not have", quoted(part));
  case StampFault::no_offset:
    return fmt::format("no offset from UTC in {}", quoted(cell));
  case StampFault::offset:
    return fmt::format("{} is no offset from UTC up to 14 hours", quoted(part));
  case StampFault::stray_offset:
    return fmt::format("an offset from UTC, {}, which the other stamps do not have", quoted(part));
  case StampFault::rest:
    return fmt::format("{} after the time", quoted(part));
  default:
    return fmt::format("{} is no Unix time", quoted(cell));
  }
}

std::string message_of(const StampScan& scan, std::string_view cell, const StampForm& form) {
  const std::string_view part = cell.substr(scan.begin, scan.end - scan.begin);
  if (scan.fault == StampFault::empty) return scan.in_date ? "no date" : "no time";
  if (scan.fault < StampFault::no_clock) return date_message(scan, cell, part, form);
  if (scan.fault <= StampFault::half_day_hour) return clock_message(scan, cell, part);
  return end_message(scan, cell, part);
}

std::string hint_of(const StampScan& scan, const StampForm& form, StampPart part) {
  if (scan.fault == StampFault::two_digit_year)
    return "set the logger to write the year with four digits, or export it so";
  if (scan.fault == StampFault::day)
    return "see whether the logger's clock was set right: the rows around it could be wrong, too";
  if (scan.fault == StampFault::leap_second) return "write second 59, or delete the row";
  return like_the_others(form, part);
}

StampTrouble trouble_of(const StampScan& scan, std::string_view cell, const StampForm& form,
                        StampPart part) {
  expects(!scan.good(), "a stamp in trouble");
  return {scan.begin, scan.end - scan.begin, message_of(scan, cell, form),
          hint_of(scan, form, part)};
}

/// The date's mark and whether its first part is a year, by the first characters of a cell.
std::optional<StampForm> date_shape(std::string_view cell) {
  const auto mark = std::find_if_not(cell.begin(), cell.end(), is_digit);
  if (mark == cell.end() || (*mark != '-' && *mark != '/' && *mark != '.')) return std::nullopt;
  StampForm form;
  form.date_mark = *mark;
  form.dates = mark - cell.begin() == 4 ? DateOrder::year_first : DateOrder::day_first;
  return form;
}

/// The form with those endings that the stamp has.
template <class Scan>
std::optional<StampForm> with_endings(StampForm form, const Scan& scan) {
  for (const bool twelve_hour : {false, true}) {
    for (const bool own_offset : {false, true}) {
      form.twelve_hour = twelve_hour;
      form.own_offset = own_offset;
      if (scan(form).good()) return form;
    }
  }
  return std::nullopt;
}

template <class Scan>
std::optional<StampGlance> glance_by(std::string_view date, std::optional<DateOrder> dates,
                                     const Scan& scan) {
  std::optional<StampForm> form = date_shape(date);
  if (!form) return std::nullopt;
  std::vector<DateOrder> orders{form->dates};
  if (form->dates != DateOrder::year_first) {
    if (dates && *dates != DateOrder::year_first) {
      orders = {*dates};
    } else if (form->date_mark != '.') {
      orders = {DateOrder::day_first, DateOrder::month_first};
    }
  }
  std::vector<StampForm> read;
  for (const DateOrder order : orders) {
    form->dates = order;
    if (const auto whole = with_endings(*form, scan)) read.push_back(*whole);
  }
  if (read.empty()) return std::nullopt;
  return StampGlance{read.front(), read.size() == 1};
}

std::optional<StampGlance> unix_glance(std::string_view cell) {
  for (const auto kind : {StampForm::Kind::unix_seconds, StampForm::Kind::unix_milliseconds}) {
    StampForm form;
    form.kind = kind;
    if (scan_stamp(cell, form).good()) return StampGlance{form, true};
  }
  return std::nullopt;
}

}  // namespace

StampTrouble StampReader::trouble(std::string_view cell) const {
  return trouble_of(scan_stamp(cell, form_), cell, form_, StampPart::whole);
}

StampTrouble StampReader::trouble(std::string_view date, std::string_view clock,
                                  bool& in_date) const {
  const StampScan scan = scan_stamp(date, clock, form_);
  in_date = scan.in_date;
  return scan.in_date ? trouble_of(scan, date, form_, StampPart::date)
                      : trouble_of(scan, clock, form_, StampPart::clock);
}

std::optional<StampGlance> glance_at_stamp(std::string_view cell, std::optional<DateOrder> dates) {
  if (const auto glance = unix_glance(cell)) return glance;
  return glance_by(cell, dates, [&](const StampForm& form) { return scan_stamp(cell, form); });
}

std::optional<StampGlance> glance_at_stamp(std::string_view date, std::string_view clock,
                                           std::optional<DateOrder> dates) {
  return glance_by(date, dates,
                   [&](const StampForm& form) { return scan_stamp(date, clock, form); });
}

std::optional<StatedTime> read_stated_time(std::string_view text) {
  constexpr std::size_t iso_date = 10;
  const auto glance = glance_at_stamp(text, DateOrder::year_first);
  StatedTime time;
  if (!glance || glance->form.kind != StampForm::Kind::calendar || text.size() <= iso_date ||
      !day_number(text.substr(0, iso_date)) || !StampReader(glance->form).read(text, time.us))
    return std::nullopt;
  time.utc = glance->form.own_offset;
  return time;
}

}  // namespace hailwright::detail
