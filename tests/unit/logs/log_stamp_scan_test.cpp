#include "logs/log_stamp_scan.hpp"

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

TEST_CASE("stamp scan: where the seconds are and what follows them") {
  StampForm form;
  form.own_offset = true;
  const StampScan scan = scan_stamp("2026-06-14T10:02:03.25+02:00", form);
  REQUIRE(scan.good());
  CHECK(scan.seconds_begin == 17);
  CHECK(scan.tail_begin == 22);
  CHECK(scan.minute_us + 3'250'000 == scan.us);
  const StampScan short_one = scan_stamp("2026-06-14T10:02Z", form);
  REQUIRE(short_one.good());
  CHECK(short_one.seconds_begin == 0);
}

TEST_CASE("stamp scan: the fault and its bytes") {
  const StampForm form;
  const StampScan month = scan_stamp("2026-13-14T10:02:03", form);
  CHECK(month.fault == StampFault::month);
  CHECK(month.begin == 5);
  CHECK(month.end == 7);
  CHECK(scan_stamp("2026-06-14T10:02:60", form).fault == StampFault::leap_second);
  CHECK(scan_stamp("", form).fault == StampFault::empty);
  const StampScan rest = scan_stamp("2026-06-14T10:02:03 or so", form);
  CHECK(rest.fault == StampFault::rest);
  CHECK(rest.begin == 19);
  const StampScan date = scan_stamp("2026-06-31", "10:02", form);
  CHECK(date.in_date);
  CHECK(date.fault == StampFault::day);
  const StampScan clock = scan_stamp("2026-06-30", "10:61", form);
  CHECK_FALSE(clock.in_date);
  CHECK(clock.fault == StampFault::minute);
}

// Found by review: a log of 2038 was said to lack what its cells have, "2026-06-14 10:02:03".
TEST_CASE("stamp scan: a year or an offset that is not read is told with the range that is") {
  for (const char* cell : {"1899-06-14 10:02:03", "14.06.1899 10:02", "06/14/1899 10:02:03 AM",
                           "1899-06-14", "1899-06-14T10:02:03Z"}) {
    CAPTURE(cell);
    CHECK_THAT(beyond_range(cell), Contains("year 1899") && Contains("between 1900 and 2037"));
  }
  CHECK_THAT(beyond_range("2038-01-01 00:00:00"), Contains("year 2038"));
  for (const char* cell : {"2026-06-14 10:02:03+18:01", "14.06.2026 10:02+18:01"}) {
    CAPTURE(cell);
    CHECK_THAT(beyond_range(cell), Contains("\"+18:01\"") && Contains("14 hours"));
  }
  for (const char* cell : {"2026-06-14 10:02:03", "2026-06-14", "2026-13-14", "10:02", "10.0.0.1",
                           "12.5", "ERR", "2026-06-14 10:02:03+14:00"}) {
    CAPTURE(cell);
    CHECK(beyond_range(cell).empty());
  }
}
