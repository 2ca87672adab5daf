#include "logs/time_zone.hpp"

#include <date/tz.h>
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <chrono>
#include <exception>
#include <new>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "logs/log_stamp.hpp"

namespace hailwright::detail {

namespace {

using std::chrono::seconds;

// 1900 to 2200, beyond every stamp that is read. The database's own ends of time lie 32 767 years
// away, where sums of two of them would not fit.
const std::int64_t first_us = days_from_civil(1899, 1, 1) * day_us;
const std::int64_t last_us = days_from_civil(2201, 1, 1) * day_us;

/// The library tells files and folders that it got no memory to read as such that are not there.
/// Throws std::bad_alloc where there is less left than it takes.
void expect_memory() {
  constexpr std::size_t as_much_as_it_takes = std::size_t{1} << 18U;
  ::operator delete(::operator new(as_much_as_it_takes));
}

void expect_memory_behind(const std::exception& reason) {
  if (dynamic_cast<const std::bad_alloc*>(&reason) != nullptr) throw std::bad_alloc();
  expect_memory();
}

/// The database; nullptr when the machine has none. Reading it throws then, and would again.
const date::tzdb* database() {
  static const date::tzdb* const found = []() -> const date::tzdb* {
    try {
      const date::tzdb& all = date::get_tzdb();
      if (all.zones.empty()) expect_memory();
      return &all;
    } catch (const std::exception& reason) {
      expect_memory_behind(reason);
      return nullptr;
    }
  }();
  return found;
}

/// Nullptr for a name that the database has not, or whose file cannot be read.
const date::time_zone* zone_named(std::string_view name) {
  if (database() == nullptr) return nullptr;
  try {
    const date::time_zone* zone = date::locate_zone(name);
    (void)zone->get_info(date::sys_seconds{});  // reads the file of the zone
    return zone;
  } catch (const std::exception& reason) {
    expect_memory_behind(reason);
    return nullptr;
  }
}

const date::time_zone& zone_of(const void* zone) {
  return *static_cast<const date::time_zone*>(zone);
}

std::int64_t us_of(seconds s) {
  return s.count() * second_us;
}

std::int64_t us_of(date::sys_seconds moment) {
  constexpr std::int64_t far_s = 1'000'000'000'000;  // its microseconds still fit
  const std::int64_t s = moment.time_since_epoch().count();
  return std::clamp(std::clamp(s, -far_s, far_s) * second_us, first_us, last_us);
}

std::int64_t floor_seconds(std::int64_t us) {
  const std::int64_t s = us / second_us;
  return us % second_us < 0 ? s - 1 : s;
}

date::sys_info info_at(const date::time_zone& zone, std::int64_t utc_us) {
  return zone.get_info(date::sys_seconds{seconds{floor_seconds(utc_us)}});
}

/// Local times with one meaning lie between the shadows of the two nearest changes: a change at
/// UTC moment t from offset a to offset b touches local times from t + min(a, b) to t + max(a, b).
LocalTime unique_time(const date::time_zone& zone, const date::sys_info& info) {
  LocalTime local;
  local.offset_us = local.second_offset_us = us_of(info.offset);
  local.begin_us = first_us;
  local.end_us = last_us;
  const std::int64_t begin_us = us_of(info.begin);
  const std::int64_t end_us = us_of(info.end);
  if (begin_us > first_us) {
    const std::int64_t before_us = us_of(info_at(zone, begin_us - second_us).offset);
    local.begin_us = begin_us + std::max(local.offset_us, before_us);
  }
  if (end_us < last_us) {
    const std::int64_t after_us = us_of(info_at(zone, end_us).offset);
    local.end_us = end_us + std::min(local.offset_us, after_us);
  }
  return local;
}

LocalTime changing_time(const date::local_info& info) {
  const bool repeated = info.result == date::local_info::ambiguous;
  const std::int64_t change_us = us_of(info.first.end);
  LocalTime local;
  local.kind = repeated ? LocalTime::Kind::repeated : LocalTime::Kind::skipped;
  local.offset_us = us_of(info.first.offset);
  local.second_offset_us = repeated ? us_of(info.second.offset) : local.offset_us;
  local.begin_us = change_us + us_of(std::min(info.first.offset, info.second.offset));
  local.end_us = change_us + us_of(std::max(info.first.offset, info.second.offset));
  return local;
}

std::string in_lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower)
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return lower;
}

/// "UTC+2" and "GMT-03:30" as an offset.
std::optional<std::string> offset_after_utc(std::string_view name) {
  const std::string lower = in_lower_case(name);
  if (!lower.starts_with("utc") && !lower.starts_with("gmt")) return std::nullopt;
  std::string rest = lower.substr(3);
  if (rest.size() == 2) rest.insert(1, "0");
  const std::optional<std::int64_t> offset_us = written_offset_us(rest);
  if (!offset_us) return std::nullopt;
  const std::int64_t minutes = std::abs(*offset_us) / minute_us;
  return fmt::format("{}{:02}:{:02}", *offset_us < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

}  // namespace

std::optional<std::int64_t> written_offset_us(std::string_view text) {
  if (text == "Z") return 0;
  const bool colon = text.size() == 6 && text[3] == ':';
  if (!colon && text.size() != 5 && text.size() != 3) return std::nullopt;
  if (text[0] != '+' && text[0] != '-') return std::nullopt;
  std::int64_t number = 0;
  for (std::size_t i = 1; i < text.size(); ++i) {
    if (colon && i == 3) continue;
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    number = number * 10 + (text[i] - '0');
  }
  const std::int64_t hours = text.size() == 3 ? number : number / 100;
  const std::int64_t minutes = text.size() == 3 ? 0 : number % 100;
  const std::int64_t offset_us = hours * hour_us + minutes * minute_us;
  if (minutes > 59 || offset_us > largest_offset_us) return std::nullopt;
  return text[0] == '-' ? -offset_us : offset_us;
}

std::optional<TimeZone> TimeZone::find(std::string_view name) {
  if (name == "UTC") return TimeZone(std::int64_t{0});
  if (const std::optional<std::int64_t> offset_us = written_offset_us(name))
    return TimeZone(*offset_us);
  const date::time_zone* zone = zone_named(name);
  if (zone == nullptr) return std::nullopt;
  return TimeZone(static_cast<const void*>(zone));
}

bool TimeZone::database_missing() {
  return database() == nullptr;
}

std::optional<std::string> TimeZone::nearest(std::string_view name) {
  if (std::optional<std::string> offset = offset_after_utc(name)) return offset;
  if (database() == nullptr) return std::nullopt;
  const std::string lower = in_lower_case(name);
  std::vector<std::string> known;
  std::vector<std::string> spelt;
  for (const date::time_zone& zone : database()->zones) {
    known.push_back(in_lower_case(zone.name()));
    spelt.push_back(zone.name());
    if (known.back() == lower || known.back().ends_with("/" + lower)) return zone.name();
  }
  const std::optional<std::string> near = nearest_word(lower, known);
  if (!near) return std::nullopt;
  const auto at = std::find(known.begin(), known.end(), *near);
  return spelt[static_cast<std::size_t>(at - known.begin())];
}

LocalTime TimeZone::at_local(std::int64_t local_us) const {
  if (fixed()) return {LocalTime::Kind::unique, offset_us_, offset_us_, first_us, last_us};
  const date::time_zone& zone = zone_of(zone_);
  const date::local_info info =
      zone.get_info(date::local_seconds{seconds{floor_seconds(local_us)}});
  return info.result == date::local_info::unique ? unique_time(zone, info.first)
                                                 : changing_time(info);
}

UtcOffset TimeZone::at_utc(std::int64_t utc_us) const {
  if (fixed()) return {offset_us_, first_us, last_us};
  const date::sys_info info = info_at(zone_of(zone_), utc_us);
  return {us_of(info.offset), us_of(info.begin), us_of(info.end)};
}

}  // namespace hailwright::detail

namespace hailwright {

namespace {

std::string offset_text(std::int64_t offset_us) {
  const std::int64_t s = std::abs(offset_us) / detail::second_us;
  std::string text = fmt::format("{}{:02}:{:02}", offset_us < 0 ? '-' : '+', s / 3600, s / 60 % 60);
  // Local mean times of long ago have seconds.
  if (s % 60 != 0) text += fmt::format(":{:02}", s % 60);
  return text;
}

std::string clock_text(std::int64_t day_time_us) {
  const std::int64_t s = day_time_us / detail::second_us;
  std::string text = fmt::format("{:02}:{:02}:{:02}", s / 3600, s / 60 % 60, s % 60);
  if (const std::int64_t us = day_time_us % detail::second_us; us != 0) {
    text += fmt::format(".{:06}", us);
    text.erase(text.find_last_not_of('0') + 1);
  }
  return text;
}

}  // namespace

std::string iso_time(std::int64_t utc_us, std::string_view zone) {
  const std::optional<detail::TimeZone> rule = detail::TimeZone::find(zone);
  const std::int64_t offset_us = rule ? rule->at_utc(utc_us).offset_us : 0;
  const std::int64_t local_us = utc_us + offset_us;
  const auto day = std::chrono::floor<std::chrono::days>(std::chrono::microseconds{local_us});
  const std::chrono::year_month_day date{std::chrono::sys_days{day}};
  const bool in_utc = !rule || (rule->fixed() && offset_us == 0);
  return fmt::format("{:04}-{:02}-{:02}T{}{}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     clock_text(local_us - day.count() * detail::day_us),
                     in_utc ? "Z" : offset_text(offset_us));
}

}  // namespace hailwright
