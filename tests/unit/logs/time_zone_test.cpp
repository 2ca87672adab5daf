#include "logs/time_zone.hpp"

#include <string_view>
#include <vector>

#include "hailwright/logs/log_stream.hpp"
#include "logs/log_stamp.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

using Kind = LocalTime::Kind;

std::int64_t local(int year, int month, int day, int hour, int minute) {
  return days_from_civil(year, month, day) * day_us + hour * hour_us + minute * minute_us;
}

struct Case {
  int month, day, hour, minute;
  Kind kind;
  std::int64_t offset_s, second_s;
};

void check_zone(std::string_view name, const std::vector<Case>& cases) {
  const auto zone = TimeZone::find(name);
  REQUIRE(zone);
  CHECK_FALSE(zone->fixed());
  for (const Case& c : cases) {
    CAPTURE(name, c.month, c.day, c.hour, c.minute);
    const std::int64_t us = local(2026, c.month, c.day, c.hour, c.minute);
    const LocalTime time = zone->at_local(us);
    CHECK(time.kind == c.kind);
    CHECK(time.offset_us == c.offset_s * second_us);
    if (c.kind == Kind::repeated) CHECK(time.second_offset_us == c.second_s * second_us);
    CHECK(time.holds_for(us));
    if (c.kind == Kind::skipped) continue;
    CHECK(zone->at_utc(us - time.offset_us).offset_us == time.offset_us);
    CHECK(zone->at_utc(us - time.second_offset_us).offset_us == time.second_offset_us);
  }
}

}  // namespace

TEST_CASE("time zones: days of clock changes in three zones") {
  // All by Python 3.11 zoneinfo: utcoffset with fold 0 and 1; a time is skipped where it does not
  // come back from UTC as it was. The last zone changes by half an hour, the second is not at a
  // whole hour.
  check_zone("Europe/Berlin", {{3, 29, 1, 45, Kind::unique, 3600, 3600},
                               {3, 29, 2, 15, Kind::skipped, 3600, 0},
                               {3, 29, 3, 30, Kind::unique, 7200, 7200},
                               {10, 25, 1, 45, Kind::unique, 7200, 7200},
                               {10, 25, 2, 0, Kind::repeated, 7200, 3600},
                               {10, 25, 2, 30, Kind::repeated, 7200, 3600},
                               {10, 25, 3, 0, Kind::unique, 3600, 3600}});
  check_zone("America/St_Johns", {{3, 8, 1, 45, Kind::unique, -12600, -12600},
                                  {3, 8, 2, 30, Kind::skipped, -12600, 0},
                                  {3, 8, 3, 30, Kind::unique, -9000, -9000},
                                  {11, 1, 0, 30, Kind::unique, -9000, -9000},
                                  {11, 1, 1, 30, Kind::repeated, -9000, -12600},
                                  {11, 1, 2, 15, Kind::unique, -12600, -12600}});
  check_zone("Australia/Lord_Howe", {{4, 5, 0, 30, Kind::unique, 39600, 39600},
                                     {4, 5, 1, 45, Kind::repeated, 39600, 37800},
                                     {4, 5, 2, 15, Kind::unique, 37800, 37800},
                                     {10, 4, 2, 15, Kind::skipped, 37800, 0},
                                     {10, 4, 2, 30, Kind::unique, 39600, 39600}});
}

TEST_CASE("time zones: the interval of an answer is as long as the answer holds") {
  const auto zone = TimeZone::find("Europe/Berlin");
  REQUIRE(zone);
  std::int64_t us = local(2026, 1, 1, 0, 0);
  std::vector<LocalTime> met;
  while (us < local(2027, 1, 1, 0, 0)) {
    const LocalTime time = zone->at_local(us);
    REQUIRE(time.holds_for(us));
    const LocalTime last = zone->at_local(time.end_us - 1);
    CHECK(last.kind == time.kind);
    CHECK(last.offset_us == time.offset_us);
    CHECK(last.end_us == time.end_us);
    const LocalTime next = zone->at_local(time.end_us);
    CHECK((next.kind != time.kind || next.offset_us != time.offset_us));
    CHECK(next.begin_us == time.end_us);
    met.push_back(time);
    us = time.end_us;
  }
  REQUIRE(met.size() == 5);
  CHECK(met[1].begin_us == local(2026, 3, 29, 2, 0));
  CHECK(met[1].end_us == local(2026, 3, 29, 3, 0));
  CHECK(met[3].begin_us == local(2026, 10, 25, 2, 0));
  CHECK(met[3].end_us == local(2026, 10, 25, 3, 0));
}

TEST_CASE("time zones: fixed offsets need no database") {
  struct Written {
    std::string_view text;
    std::int64_t minutes;
  };
  for (const Written& w :
       {Written{"UTC", 0}, Written{"Z", 0}, Written{"+02:00", 120}, Written{"-0330", -210},
        Written{"+02", 120}, Written{"+14:00", 840}, Written{"-14:00", -840}}) {
    CAPTURE(w.text);
    const auto zone = TimeZone::find(w.text);
    REQUIRE(zone);
    CHECK(zone->fixed());
    const LocalTime time = zone->at_local(local(2026, 3, 29, 2, 30));
    CHECK(time.kind == Kind::unique);
    CHECK(time.offset_us == w.minutes * minute_us);
    CHECK(time.holds_for(local(1900, 1, 1, 0, 0)));
    CHECK(time.holds_for(local(2199, 1, 1, 0, 0)));
    CHECK(zone->at_utc(0).offset_us == w.minutes * minute_us);
  }
}

TEST_CASE("time zones: names that are none and what was likely meant") {
  for (const std::string_view text :
       {"", "+2", "+2:00", "+02:60", "+14:01", "02:00", "+02:00 ", "+02-00", "++200", "+0a:00",
        "UTC+2", "europe/berlin", "Europe/Nowhere", "../../../etc/hostname", "CEST", "utc"}) {
    CAPTURE(text);
    CHECK_FALSE(TimeZone::find(text));
  }
  CHECK_FALSE(TimeZone::database_missing());
  CHECK(TimeZone::nearest("europe/berlin") == "Europe/Berlin");
  CHECK(TimeZone::nearest("Berlin") == "Europe/Berlin");
  CHECK(TimeZone::nearest("Europe/Berln") == "Europe/Berlin");
  CHECK(TimeZone::nearest("UTC+2") == "+02:00");
  CHECK(TimeZone::nearest("GMT-03:30") == "-03:30");
  CHECK_FALSE(TimeZone::nearest(""));
  CHECK_FALSE(TimeZone::nearest("Somewhere/Else entirely"));
}

TEST_CASE("time zones: times are written with their offset") {
  // 1781424123 is 2026-06-14T10:02:03+02:00 by GNU date 9.1.
  constexpr std::int64_t moment = 1781424123 * second_us;
  CHECK(iso_time(moment, "Europe/Berlin") == "2026-06-14T10:02:03+02:00");
  CHECK(iso_time(moment, "UTC") == "2026-06-14T08:02:03Z");
  CHECK(iso_time(moment, "") == "2026-06-14T08:02:03Z");
  CHECK(iso_time(moment, "no zone") == "2026-06-14T08:02:03Z");
  CHECK(iso_time(moment, "-0330") == "2026-06-14T04:32:03-03:30");
  CHECK(iso_time(moment + 250'000, "+02:00") == "2026-06-14T10:02:03.25+02:00");
  CHECK(iso_time(moment + 1, "Z") == "2026-06-14T08:02:03.000001Z");
  CHECK(iso_time(-1, "Z") == "1969-12-31T23:59:59.999999Z");
  CHECK(iso_time(local(2026, 1, 1, 12, 0), "Europe/London") == "2026-01-01T12:00:00+00:00");
  // The second pass of the repeated hour follows the first.
  CHECK(iso_time(local(2026, 10, 25, 0, 30), "Europe/Berlin") == "2026-10-25T02:30:00+02:00");
  CHECK(iso_time(local(2026, 10, 25, 1, 30), "Europe/Berlin") == "2026-10-25T02:30:00+01:00");
}
