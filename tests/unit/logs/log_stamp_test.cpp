#include "logs/log_stamp.hpp"

#include <array>
#include <chrono>
#include <optional>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/logs/log_stream.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

using Kind = StampForm::Kind;

StampForm form(DateOrder dates, char mark, bool own_offset = false, bool twelve_hour = false) {
  StampForm made;
  made.dates = dates;
  made.date_mark = mark;
  made.own_offset = own_offset;
  made.twelve_hour = twelve_hour;
  return made;
}

StampForm unix_form(Kind kind) {
  StampForm made;
  made.kind = kind;
  return made;
}

const StampForm iso = form(DateOrder::year_first, '-');
const StampForm iso_offset = form(DateOrder::year_first, '-', true);
const StampForm german = form(DateOrder::day_first, '.');
const StampForm american = form(DateOrder::month_first, '/', false, true);

std::optional<std::int64_t> read_new(const StampForm& as, std::string_view cell) {
  std::int64_t us = 0;
  if (!StampReader(as).read(cell, us)) return std::nullopt;
  return us;
}

/// 2026-06-14T00:00:00 as Python's datetime counts it from 1970.
constexpr std::int64_t day = 1781395200;

constexpr std::int64_t at(int h, int m, int s, int us = 0) {
  return (day + h * 3600 + m * 60 + s) * 1'000'000 + us;
}

}  // namespace

TEST_CASE("stamps: days of the civil calendar are those of chrono from 1900 to 2100") {
  namespace ch = std::chrono;
  int seen = 0;
  const ch::sys_days last{ch::year{2100} / 12 / 31};
  for (ch::sys_days d{ch::year{1900} / 1 / 1}; d <= last; d += ch::days{1}) {
    const ch::year_month_day date{d};
    const std::int64_t ours =
        days_from_civil(static_cast<int>(date.year()), static_cast<int>(unsigned{date.month()}),
                        static_cast<int>(unsigned{date.day()}));
    if (ours != d.time_since_epoch().count()) {
      CAPTURE(static_cast<int>(date.year()), unsigned{date.month()}, unsigned{date.day()});
      CHECK(ours == d.time_since_epoch().count());
    }
    ++seen;
  }
  CHECK(seen == 73414);  // 201 years of 365 days and the 49 leap days from 1904 to 2096
}

TEST_CASE("stamps: every form that is read") {
  struct Case {
    StampForm as;
    std::string_view cell;
    std::int64_t us;
  };
  // Numbers by Python 3.11 datetime, but for the two hours of AM and PM: 12 AM is midnight, 12 PM
  // noon (common practice; NIST, times of day FAQ, from memory).
  const std::vector<Case> cases{
      {iso, "2026-06-14T10:02:03", at(10, 2, 3)},
      {iso, "2026-06-14 10:02:03", at(10, 2, 3)},
      {iso, "2026-06-14T10:02", at(10, 2, 0)},
      {iso, "2026-06-14T10:02:03.5", at(10, 2, 3, 500000)},
      {iso, "2026-06-14T10:02:03,123", at(10, 2, 3, 123000)},
      {iso, "2026-06-14T10:02:03.123456789", at(10, 2, 3, 123457)},
      {iso, "2026-06-14T10:02:03.9999996", at(10, 2, 4)},
      {iso, "2026-06-14T10:02:03.0000004", at(10, 2, 3)},
      {iso, "2000-02-29T12:00:00", 951825600000000},
      {iso, "1900-03-01T00:00:00", -2203891200000000},
      {iso_offset, "2026-06-14T10:02:03+02:00", at(8, 2, 3)},
      {iso_offset, "2026-06-14T10:02:03+0200", at(8, 2, 3)},
      {iso_offset, "2026-06-14T10:02:03+02", at(8, 2, 3)},
      {iso_offset, "2026-06-14 10:02:03 +02:00", at(8, 2, 3)},
      {iso_offset, "2026-06-14T10:02:03Z", at(10, 2, 3)},
      {iso_offset, "2026-06-14T10:02Z", at(10, 2, 0)},
      {iso_offset, "2026-06-14T10:02:03-03:30", at(13, 32, 3)},
      {iso_offset, "2026-06-14T10:02:03.25+14:00", at(-4, 2, 3, 250000)},
      {german, "14.06.2026 10:02:03", at(10, 2, 3)},
      {german, "14.06.2026 10:02", at(10, 2, 0)},
      {german, "14.6.2026 9:02", at(9, 2, 0)},
      {form(DateOrder::day_first, '/'), "14/06/2026 10:02:03", at(10, 2, 3)},
      {form(DateOrder::month_first, '/'), "06/14/2026 10:02:03", at(10, 2, 3)},
      {form(DateOrder::day_first, '-'), "14-06-2026 10:02:03", at(10, 2, 3)},
      {form(DateOrder::year_first, '/'), "2026/06/14 10:02:03", at(10, 2, 3)},
      {american, "06/14/2026 10:02:03 AM", at(10, 2, 3)},
      {american, "06/14/2026 10:02:03 PM", at(22, 2, 3)},
      {american, "06/14/2026 12:02:03 AM", at(0, 2, 3)},
      {american, "06/14/2026 12:02:03 PM", at(12, 2, 3)},
      {american, "6/14/2026 1:02 pm", at(13, 2, 0)},
      {american, "6/14/2026 1:02:03.5pm", at(13, 2, 3, 500000)},
      {form(DateOrder::month_first, '/', true, true), "06/14/2026 01:02:03 PM -05:00",
       at(18, 2, 3)},
      {unix_form(Kind::unix_seconds), "1781431323", at(10, 2, 3)},
      {unix_form(Kind::unix_seconds), "1781431323.25", at(10, 2, 3, 250000)},
      {unix_form(Kind::unix_milliseconds), "1781431323250", at(10, 2, 3, 250000)},
      {unix_form(Kind::unix_milliseconds), "1781431323250.5", at(10, 2, 3, 250500)},
  };
  for (const Case& c : cases) {
    CAPTURE(c.cell);
    CHECK(read_new(c.as, c.cell) == c.us);
  }
}

TEST_CASE("stamps: the examples of RFC 3339 section 5.8") {
  // Numbers by GNU date 9.1, `date -u -d TEXT +%s.%N`. The two with second 60 are refused.
  CHECK(read_new(iso_offset, "1985-04-12T23:20:50.52Z") == 482196050520000);
  CHECK(read_new(iso_offset, "1996-12-19T16:39:57-08:00") == 851042397000000);
  CHECK(read_new(iso_offset, "1937-01-01T12:00:27.87+00:20") == -1041337172130000);
  CHECK_FALSE(read_new(iso_offset, "1990-12-31T23:59:60Z"));
  CHECK_FALSE(read_new(iso_offset, "1990-12-31T15:59:60-08:00"));
}

TEST_CASE("stamps: what is not of the form is not read") {
  const std::vector<std::pair<StampForm, std::string_view>> wrong{
      {iso, ""},
      {iso, "2026-06-14"},
      {iso, "2026-06-14T"},
      {iso, "2026-06-14T10"},
      {iso, "2026-06-14T10:"},
      {iso, "2026-06-14T10:02:"},
      {iso, "2026-06-14T10:02:3"},
      {iso, "2026-06-14T10:02:03."},
      {iso, "2026-06-14T10:02:03.1234567890"},
      {iso, "2026-06-14T10:02:60"},
      {iso, "2026-06-14T10:60:03"},
      {iso, "2026-06-14T24:00:00"},
      {iso, "2026-13-14T10:02:03"},
      {iso, "2026-00-14T10:02:03"},
      {iso, "2026-06-31T10:02:03"},
      {iso, "2026-06-00T10:02:03"},
      {iso, "2026-02-29T10:02:03"},
      {iso, "1900-02-29T10:02:03"},
      {iso, "1899-12-31T10:02:03"},
      {iso, "2038-01-01T00:00:00"},
      {iso, "2026-6-14T10:02:03"},
      {iso, "2026-06-1T10:02:03"},
      {iso, "2026-06-14T9:02:03"},
      {iso, "26-06-14T10:02:03"},
      {iso, "2026/06/14T10:02:03"},
      {iso, "2026-06-14t10:02:03"},
      {iso, "2026-06-14  10:02:03"},
      {iso, "2026-06-14T10:02:03 "},
      {iso, " 2026-06-14T10:02:03"},
      {iso, "2026-06-14T10:02:03Z"},
      {iso, "2026-06-14T10:02:03+02:00"},
      {iso, "2026-06-14T10:02:03 AM"},
      {iso, "14.06.2026 10:02:03"},
      {iso, "1781431323"},
      {iso, "2026-06-14T10:02:-3"},
      {iso, "2026-06-14T+1:02:03"},
      {iso, "20260614T100203"},
      {iso_offset, "2026-06-14T10:02:03"},
      {iso_offset, "2026-06-14T10:02:03+14:01"},
      {iso_offset, "2026-06-14T10:02:03+2:00"},
      {iso_offset, "2026-06-14T10:02:03+02:60"},
      {iso_offset, "2026-06-14T10:02:03+02:0"},
      {iso_offset, "2026-06-14T10:02:03+"},
      {iso_offset, "2026-06-14T10:02:03z"},
      {german, "06/14/2026 10:02:03"},
      {german, "14.06.26 10:02:03"},
      {german, "14.13.2026 10:02:03"},
      {german, "14.06.20266 10:02:03"},
      {american, "06/14/2026 10:02:03"},
      {american, "06/14/2026 13:02:03 PM"},
      {american, "06/14/2026 00:02:03 AM"},
      {american, "14/06/2026 10:02:03 AM"},
      {american, "06/14/2026 10:02:03 XM"},
      {unix_form(Kind::unix_seconds), "178143132"},
      {unix_form(Kind::unix_seconds), "17814313230"},
      {unix_form(Kind::unix_seconds), "0781431323"},
      {unix_form(Kind::unix_seconds), "-781431323"},
      {unix_form(Kind::unix_seconds), "1781431323."},
      {unix_form(Kind::unix_milliseconds), "1781431323"},
  };
  for (const auto& [as, cell] : wrong) {
    CAPTURE(cell);
    std::int64_t us = 42;
    CHECK_FALSE(StampReader(as).read(cell, us));
    CHECK(us == 42);
  }
}

TEST_CASE("stamps: two columns") {
  StampReader reader(german);
  std::int64_t us = 0;
  CHECK(reader.read("14.06.2026", "10:02:03", us));
  CHECK(us == at(10, 2, 3));
  CHECK(reader.read("14.06.2026", "10:02:04.5", us));
  CHECK(us == at(10, 2, 4, 500000));
  CHECK(reader.read("15.06.2026", "10:02:04", us));
  CHECK(us == at(34, 2, 4));
  CHECK(reader.read("14.06.2026", "10:02", us));
  CHECK(us == at(10, 2, 0));
  CHECK_FALSE(reader.read("14.06.2026 10:02", "10:02:03", us));
  CHECK_FALSE(reader.read("", "10:02:03", us));
  CHECK_FALSE(reader.read("14.06.2026", "", us));
  CHECK_FALSE(reader.read("14.06.2026", "14.06.2026 10:02:03", us));
  CHECK_FALSE(reader.read("14.06.2026 10:02:03", us) == false);
}

TEST_CASE("stamps: a reader that remembers the minute reads as a new one does") {
  const std::array forms{iso, iso_offset, german, american};
  const std::array<std::string_view, 4> seeds{"2026-06-14T10:02:03", "2026-06-14T10:02:03.25+02:00",
                                              "14.06.2026 10:02:03", "06/14/2026 10:02:03 PM"};
  std::mt19937 random(6);  // NOLINT(cert-msc51-cpp): the same stamps in every run
  const std::string_view alphabet = "0123456789:-./ TZAPM+,";
  int accepted = 0;
  for (std::size_t f = 0; f < forms.size(); ++f) {
    StampReader reader(forms[f]);
    std::string cell(seeds[f]);
    for (int i = 0; i < 200000; ++i) {
      // Half of the time the seconds alone change, as in a log.
      if (i % 2 == 0) {
        cell[17] = static_cast<char>('0' + random() % 7);
        cell[18] = static_cast<char>('0' + random() % 10);
      } else {
        cell = seeds[f];
        cell[random() % cell.size()] = alphabet[random() % alphabet.size()];
        if (random() % 8 == 0) cell.resize(random() % cell.size());
        if (cell.size() < 19) cell.resize(19, '0');
      }
      std::int64_t us = 0;
      const bool read = reader.read(cell, us);
      const auto anew = read_new(forms[f], cell);
      if (read != anew.has_value() || (read && us != *anew)) {
        CAPTURE(cell, read);
        CHECK(read == anew.has_value());
        CHECK(us == anew.value_or(0));
      }
      accepted += read ? 1 : 0;
    }
  }
  CHECK(accepted > 100000);
}

TEST_CASE("stamps: what is read of random bytes is written back as it stood") {
  StampReader reader(iso);
  std::mt19937 random(7);  // NOLINT(cert-msc51-cpp): the same bytes in every run
  int accepted = 0;
  for (int i = 0; i < 400000; ++i) {
    std::string cell = "2026-06-14T10:02:03";
    const unsigned changes = random() % 4;
    for (unsigned k = 0; k < changes; ++k) {
      const bool digit = random() % 3 != 0;
      cell[random() % cell.size()] =
          digit ? static_cast<char>('0' + random() % 10) : static_cast<char>(random() % 256);
    }
    std::int64_t us = 0;
    if (!reader.read(cell, us)) continue;
    ++accepted;
    std::string back = iso_time(us, "Z");
    back.pop_back();
    if (cell[10] == ' ') back[10] = ' ';
    if (cell != back) {
      CAPTURE(cell);
      CHECK(cell == back);
    }
  }
  CHECK(accepted > 100000);
}

TEST_CASE("stamps: random bytes are no stamps") {
  std::mt19937 random(8);  // NOLINT(cert-msc51-cpp): the same bytes in every run
  const std::array forms{iso, iso_offset, german, american, unix_form(Kind::unix_seconds)};
  int accepted = 0;
  for (int i = 0; i < 200000; ++i) {
    std::string cell(random() % 30, '\0');
    for (char& c : cell)
      c = static_cast<char>(random() % 256);
    std::int64_t us = 0;
    for (const StampForm& each : forms)
      accepted += StampReader(each).read(cell, us) ? 1 : 0;
    accepted += glance_at_stamp(cell, std::nullopt) ? 1 : 0;
  }
  CHECK(accepted == 0);
}
