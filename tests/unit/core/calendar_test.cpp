#include "hailwright/core/calendar.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("calendar: days are counted by the calendar") {
  // 1970-01-01 is day 0 of the count that POSIX defines; 2000-03-01 is day 11017 there
  // [from memory: 951868800 s / 86400].
  CHECK(day_number("1970-01-01") == 0);
  CHECK(day_number("1970-01-02") == 1);
  CHECK(day_number("1969-12-31") == -1);
  CHECK(day_number("2000-03-01") == 951868800L / 86400L);
  CHECK(*day_number("2000-03-01") - *day_number("2000-02-28") == 2);
  CHECK(*day_number("1900-03-01") - *day_number("1900-02-28") == 1);
  for (const char* none :
       {"", "2026-02-29", "2026-13-01", "2026-00-10", "2026-06-00", "2026-6-10", "2026/06/10",
        "2026-06-10 ", "-026-06-10", "20260610", "abcd-ef-gh", "2026-+6-10", "2026-06- 1"}) {
    CAPTURE(none);
    CHECK_FALSE(day_number(none));
  }
}
