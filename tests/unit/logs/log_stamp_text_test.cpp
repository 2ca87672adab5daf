#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "logs/log_stamp.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

struct Wrong {
  std::string_view cell;
  std::string_view message;
  std::string_view marked;
};

void check_all(const StampForm& form, const std::vector<Wrong>& cases) {
  const StampReader reader(form);
  for (const Wrong& c : cases) {
    CAPTURE(c.cell);
    const StampTrouble trouble = reader.trouble(c.cell);
    CHECK(trouble.message == c.message);
    CHECK(c.cell.substr(trouble.offset, trouble.length) == c.marked);
    CHECK_FALSE(trouble.hint.empty());
  }
}

}  // namespace

TEST_CASE("stated time: ISO 8601 with or without an offset and nothing else") {
  const auto local = detail::read_stated_time("2026-06-14T10:02:00");
  REQUIRE(local);
  CHECK_FALSE(local->utc);
  const auto utc = detail::read_stated_time("2026-06-14 12:02:00+02:00");
  REQUIRE(utc);
  CHECK(utc->utc);
  CHECK(utc->us == local->us);
  for (const char* other : {"14.06.2026 10:02:00", "1781431320", "2026-06-14", "10:02", "", "x"}) {
    CAPTURE(other);
    CHECK_FALSE(detail::read_stated_time(other));
  }
}

TEST_CASE("stamp texts: why a stamp is not read") {
  check_all(StampForm{},
            {{"", "no time", ""},
             {"ERR", "\"ERR\" is no date and time", "ERR"},
             {"2026-13-14T10:02:03", "month 13 (the order is year, month, day)", "13"},
             {"2026-06-31T10:02:03", "\"2026-06-31\" is no day of the calendar", "31"},
             {"2099-06-30T10:02:03", "year 2099 is not between 1900 and 2037", "2099"},
             {"2026/06/30 10:02:03", "\"/\" in the date, the other stamps have \"-\"", "/"},
             {"2026-06-14", "no time of day in \"2026-06-14\"", ""},
             {"2026-06-14T24:00:00", "hour 24", "24"},
             {"2026-06-14T10", "no minutes after 10", "10"},
             {"2026-06-14T10:61", "minute 61", "61"},
             {"2026-06-14T10:02:", "no seconds after 10:02:", "10:02:"},
             {"2026-06-14T10:02:61", "second 61", "61"},
             {"2026-06-14T10:02:60", "second 60: leap seconds are not read", "60"},
             {"2026-06-14T10:02:03.", "\".\" is no fraction of one to nine digits", "."},
             {"2026-06-14T10:02:03Z",
              "an offset from UTC, \"Z\", which the other stamps do not have", "Z"},
             {"2026-06-14T10:02:03 PM", "\"PM\", which the other stamps do not have", "PM"},
             {"2026-06-14T10:02:03x", "\"x\" after the time", "x"}});
  StampForm american;
  american.dates = DateOrder::month_first;
  american.date_mark = '/';
  american.twelve_hour = true;
  check_all(american, {{"06/14/2026 10:02:03", "no AM or PM in \"06/14/2026 10:02:03\"", ""},
                       {"06/14/2026 13:02:03 PM", "hour 13 with AM or PM", "13"},
                       {"06/14/26 10:02:03 AM", "a year of two digits, \"26\"", "26"}});
  StampForm with_offset;
  with_offset.own_offset = true;
  check_all(with_offset, {{"2026-06-14T10:02", "no offset from UTC in \"2026-06-14T10:02\"", ""},
                          {"2026-06-14T10:02+19:00",
                           "\"+19:00\" is no offset from UTC up to 14 hours", "+19:00"}});
  StampForm unix_time;
  unix_time.kind = StampForm::Kind::unix_seconds;
  check_all(unix_time, {{"17814", "\"17814\" is no Unix time", "17814"}});
}

TEST_CASE("stamp texts: two columns, and a stamp that is good") {
  const StampReader reader{StampForm{}};
  bool in_date = false;
  CHECK(reader.trouble("2026-06-31", "10:02", in_date).message ==
        "\"2026-06-31\" is no day of the calendar");
  CHECK(in_date);
  CHECK(reader.trouble("2026-06-30", "25:02", in_date).message == "hour 25");
  CHECK_FALSE(in_date);
  CHECK(reader.trouble("2026-06-30", "", in_date).message == "no time");
  CHECK(reader.trouble("", "10:02", in_date).message == "no date");
  CHECK_THROWS_AS(reader.trouble("2026-06-14T10:02:03"), BugError);
}

TEST_CASE("stamp texts: what a stamp tells about the form of all") {
  const auto glance = glance_at_stamp("06/07/2026 10:02:03 PM", std::nullopt);
  REQUIRE(glance);
  CHECK_FALSE(glance->order_told);
  CHECK(glance->form.twelve_hour);
  CHECK(glance->form.date_mark == '/');
  const auto american = glance_at_stamp("06/14/2026 10:02:03", std::nullopt);
  REQUIRE(american);
  CHECK(american->order_told);
  CHECK(american->form.dates == DateOrder::month_first);
  const auto stated = glance_at_stamp("06/07/2026 10:02:03", DateOrder::month_first);
  REQUIRE(stated);
  CHECK(stated->order_told);
  CHECK(stated->form.dates == DateOrder::month_first);
  const auto points = glance_at_stamp("06.07.2026 10:02:03", std::nullopt);
  REQUIRE(points);
  CHECK(points->order_told);
  CHECK(points->form.dates == DateOrder::day_first);
  const auto offset = glance_at_stamp("2026-06-14T10:02:03+02:00", std::nullopt);
  REQUIRE(offset);
  CHECK(offset->form.own_offset);
  CHECK(tells_utc(offset->form));
  const auto milliseconds = glance_at_stamp("1781431323000", std::nullopt);
  REQUIRE(milliseconds);
  CHECK(milliseconds->form.kind == StampForm::Kind::unix_milliseconds);
  CHECK(tells_utc(milliseconds->form));
  const auto parts = glance_at_stamp("14.06.2026", "10:02", std::nullopt);
  REQUIRE(parts);
  CHECK(parts->form.dates == DateOrder::day_first);
  CHECK_FALSE(glance_at_stamp("14.06.26 10:02", std::nullopt));
  CHECK_FALSE(glance_at_stamp("12.5", std::nullopt));
}

// Found by review: the example was a whole stamp for a cell that holds a part, and had a blank
// where the file has a T.
TEST_CASE("stamp texts: the example is one of the cell") {
  const StampReader whole{StampForm{}};
  CHECK(whole.trouble("ERR").hint == "write it in the form of the other rows, as in 2026-06-14 "
                                     "10:02:03, the blank or a T between them");
  bool in_date = false;
  CHECK(whole.trouble("ERR", "10:00", in_date).hint ==
        "write it in the form of the other rows, as in 2026-06-14");
  CHECK(whole.trouble("2026-06-14", "ERR", in_date).hint ==
        "write it in the form of the other rows, as in 10:02:03");
}
