#include "report/readings_clock.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

constexpr std::int64_t us_per_s = 1'000'000;

/// "+02:00" in microseconds; 0 for "Z".
std::int64_t offset_us(const LocalClock& at) {
  if (at.offset.size() < 6) return 0;
  const auto two_digits = [&](std::size_t i) {
    return 10 * (at.offset[i] - '0') + (at.offset[i + 1] - '0');
  };
  const std::int64_t minutes = two_digits(1) * 60 + two_digits(4);
  return (at.offset.front() == '-' ? -60 : 60) * minutes * us_per_s;
}

std::string name_of(const LocalClock& at) {
  return at.offset == "Z" ? "UTC" : "UTC" + at.offset;
}

/// Steps of clocks and calendars [s].
constexpr std::array<std::int64_t, 22> steps{
    1,    2,    5,    10,    15,    30,    60,    120,    300,    600,     900,
    1800, 3600, 7200, 10800, 21600, 43200, 86400, 172800, 604800, 1209600, 2592000};

std::int64_t step_for(double seconds, int most) {
  for (const std::int64_t step : steps) {
    if (seconds / static_cast<double>(step) <= most - 1) return step;
  }
  std::int64_t step = steps.back();
  while (seconds / static_cast<double>(step) > most - 1)
    step *= 2;
  return step;
}

std::string tick_label(const LocalClock& at, std::int64_t step, bool several_days) {
  if (step >= 86400 || (several_days && at.clock == "00:00:00")) return at.day();
  return step < 60 ? at.clock.substr(0, 8) : at.minute();
}

}  // namespace

LocalClock local_clock(std::int64_t utc_us, std::string_view zone) {
  const std::string iso = iso_time(utc_us, zone);
  const std::size_t t = iso.find('T');
  expects(t != std::string::npos, "an ISO time has a T");
  const std::size_t end = iso.find_first_of("Z+-", t);
  const std::size_t length = end == std::string::npos ? iso.size() : end;
  return {iso.substr(0, t), iso.substr(t + 1, length - t - 1), iso.substr(length)};
}

std::string span_text(std::int64_t from_us, std::int64_t to_us, std::string_view zone) {
  const LocalClock from = local_clock(from_us, zone);
  const LocalClock to = local_clock(to_us, zone);
  const std::string end = from.date == to.date ? to.clock : to.date + ' ' + to.clock;
  return fmt::format("{} {} to {}", from.date, from.clock, end);
}

std::string zone_text(std::int64_t from_us, std::int64_t to_us, std::string_view zone) {
  const std::string from = name_of(local_clock(from_us, zone));
  const std::string to = name_of(local_clock(to_us, zone));
  return from == to ? from : from + " and " + to;
}

std::vector<detail::Tick> time_ticks(std::int64_t from_us, std::int64_t to_us,
                                     std::string_view zone, int most) {
  expects(from_us < to_us && most >= 2, "time_ticks: a stretch of time and two labels");
  const double seconds = static_cast<double>(to_us - from_us) / 1e6;
  const std::int64_t step = step_for(seconds, most);
  const LocalClock from = local_clock(from_us, zone);
  const bool several_days = from.date != local_clock(to_us, zone).date;
  const std::int64_t shift = offset_us(from);
  const std::int64_t step_us = step * us_per_s;
  // The first multiple of the step at or after the beginning, counted on local clocks.
  const std::int64_t local = from_us + shift;
  std::int64_t at = local / step_us * step_us;
  if (at < local) at += step_us;
  std::vector<detail::Tick> ticks;
  for (; at - shift <= to_us; at += step_us) {
    ticks.push_back({static_cast<double>(at - local) / 1e6,
                     tick_label(local_clock(at - shift, zone), step, several_days)});
  }
  return ticks;
}

std::string duration_text(double seconds) {
  expects(seconds >= 0.0, "a duration of 0 or more");
  const auto two = [](std::int64_t large, const char* of, std::int64_t small, const char* unit) {
    return small == 0 ? fmt::format("{} {}", large, of)
                      : fmt::format("{} {} {} {}", large, of, small, unit);
  };
  if (seconds < 9.95) return plain_number(seconds, 2) + " s";
  const std::int64_t s = std::llround(seconds);
  if (s < 60) return fmt::format("{} s", s);
  if (s < 3600) return two(s / 60, "min", s % 60, "s");
  const std::int64_t min = (s + 30) / 60;
  if (min < 1440) return two(min / 60, "h", min % 60, "min");
  const std::int64_t h = (min + 30) / 60;
  return two(h / 24, "d", h % 24, "h");
}

}  // namespace hailwright
