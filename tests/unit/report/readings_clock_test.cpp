#include "report/readings_clock.hpp"

#include "support/catch.hpp"
#include "support/log_answers.hpp"

using namespace hailwright;
using hailwright::testing::morning_us;

namespace {

std::string labels(std::int64_t from_us, double seconds, std::string_view zone, int most) {
  std::string all;
  for (const detail::Tick& t :
       time_ticks(from_us, from_us + static_cast<std::int64_t>(seconds * 1e6), zone, most))
    all += t.label + ' ';
  return all;
}

}  // namespace

TEST_CASE("readings_clock: a moment by the clocks of its zone") {
  const LocalClock c = local_clock(morning_us, "+02:00");
  CHECK(c.date == "2026-06-14");
  CHECK(c.clock == "06:00:00");
  CHECK(c.offset == "+02:00");
  CHECK(c.minute() == "06:00");
  CHECK(c.day() == "06-14");
  CHECK(local_clock(morning_us, "UTC").clock == "04:00:00");
  CHECK(local_clock(morning_us, "UTC").offset == "Z");
}

TEST_CASE("readings_clock: the date once on one day and twice over midnight") {
  CHECK(span_text(morning_us, morning_us + 90'000'000, "+02:00") ==
        "2026-06-14 06:00:00 to 06:01:30");
  CHECK(span_text(morning_us, morning_us + 86'400'000'000, "+02:00") ==
        "2026-06-14 06:00:00 to 2026-06-15 06:00:00");
  CHECK(zone_text(morning_us, morning_us + 1, "+02:00") == "UTC+02:00");
  CHECK(zone_text(morning_us, morning_us + 1, "") == "UTC");
}

TEST_CASE("readings_clock: ticks are round on local clocks") {
  CHECK(labels(morning_us, 36000, "+02:00", 9) == "06:00 08:00 10:00 12:00 14:00 16:00 ");
  CHECK(labels(morning_us + 600'000'000, 3600, "+02:00", 9) ==
        "06:10 06:20 06:30 06:40 06:50 07:00 07:10 ");
  CHECK(labels(morning_us, 20, "+02:00", 6) == "06:00:00 06:00:05 06:00:10 06:00:15 06:00:20 ");
  // Half an hour off: still round where the panel stood.
  CHECK(labels(morning_us, 7200, "+05:30", 6) == "09:30 10:00 10:30 11:00 11:30 ");
}

TEST_CASE("readings_clock: over days midnights are named by their day") {
  CHECK(labels(morning_us, 2.0 * 86400, "+02:00", 6) == "12:00 06-15 12:00 06-16 ");
  CHECK(labels(morning_us, 10.0 * 86400, "+02:00", 7) == "06-16 06-18 06-20 06-22 06-24 ");
}

TEST_CASE("readings_clock: never more ticks than asked for and all inside") {
  for (const double seconds : {0.5, 1.0, 7.0, 59.0, 3601.0, 40000.0, 9e5, 4e7, 9e8}) {
    for (const int most : {2, 5, 9}) {
      CAPTURE(seconds, most);
      const auto us = static_cast<std::int64_t>(seconds * 1e6);
      const auto ticks = time_ticks(morning_us + 123'456, morning_us + 123'456 + us, "UTC", most);
      CHECK(static_cast<int>(ticks.size()) <= most);
      for (const detail::Tick& t : ticks) {
        CHECK(t.value >= 0.0);
        CHECK(t.value <= seconds);
      }
    }
  }
}

TEST_CASE("readings_clock: durations in two units at most and without a sixtieth minute") {
  CHECK(duration_text(0.0) == "0 s");
  CHECK(duration_text(0.25) == "0.25 s");
  CHECK(duration_text(42.4) == "42 s");
  CHECK(duration_text(59.7) == "1 min");
  CHECK(duration_text(192.0) == "3 min 12 s");
  CHECK(duration_text(3599.6) == "1 h");
  CHECK(duration_text(35880.0) == "9 h 58 min");
  CHECK(duration_text(86399.0) == "1 d");
  CHECK(duration_text(183600.0) == "2 d 3 h");
}
