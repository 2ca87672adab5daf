#include "input/log_setups.hpp"

#include <limits>

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;

namespace {

constexpr double blank = std::numeric_limits<double>::quiet_NaN();
constexpr std::int64_t second_us = 1'000'000;
// 2026-06-14T08:00:00Z: 20618 days from 1970-01-01, by `date -d 2026-06-14T08:00:00Z +%s`.
constexpr std::int64_t morning_us = 1'781'424'000 * second_us;

const SetupId before_1{{StageKind::before, 0}, 1};

LogRow row(int second, double power = 78.0, double irradiance = 900.0, double temperature = 323.0) {
  LogRow made;
  made.time_us = morning_us + second * second_us;
  made.line = 2 + second;
  made.power = power;
  made.irradiance = irradiance;
  made.temperature = temperature;
  made.power_beside = 80.0;
  made.temperature_beside = 322.0;
  return made;
}

LogUse use_of(std::vector<LogRow> rows, const std::string& zone = "+02:00") {
  LogUse use;
  use.stated.zone = zone;
  use.question.first_file = 7;
  LogSpan span;
  span.name = "before 1";
  span.origin = {1, 12, 5, 8};
  use.question.cut.spans.push_back(span);
  LogStretch& stretch = use.findings.stretches.emplace_back();
  stretch.name = "before 1";
  stretch.rows = static_cast<std::int64_t>(rows.size());
  stretch.kept = std::move(rows);
  return use;
}

struct Added {
  Record record;
  std::vector<SetupRows> rows;
  ListedDates dates;
  Diagnostics notes;

  void add(LogUse& use, bool with_control = false) {
    rows.resize(record.setups.size());
    add_log_setups(use, {before_1}, {record, rows, dates, with_control}, notes);
  }
};

}  // namespace

TEST_CASE("log_setups: each row is a reading at its local time") {
  Added all;
  LogUse use = use_of({row(0), row(59), row(60)});
  all.add(use);
  CHECK(seen(all.notes).empty());
  CHECK(use.setups == std::vector<std::size_t>{0});
  REQUIRE(all.record.setups.size() == 1);
  const Setup& setup = all.record.setups[0];
  CHECK(setup.name == "before 1");
  CHECK(setup.stage == StageId{StageKind::before, 0});
  CHECK(setup.number == 1);
  CHECK(setup.date == "2026-06-14");
  CHECK(setup.origin.line == 12);
  REQUIRE(all.record.readings.size() == 3);
  const Reading& last = all.record.readings[2];
  CHECK(last.setup == 0);
  CHECK(last.role == Role::struck);
  CHECK(last.minute == 10 * 60 + 1);
  CHECK_FALSE(last.round);
  CHECK(last.measured);
  CHECK(last.skip.empty());
  CHECK(last.power == Power::from_si(78.0));
  CHECK(last.irradiance == Irradiance::from_si(900.0));
  CHECK(last.temperature == TemperaturePoint::from_kelvin(323.0));
  CHECK(last.origin.file == 7);
  CHECK(last.origin.line == 62);
  CHECK(all.record.readings[1].minute == 10 * 60);
  REQUIRE(all.rows[0].first_row);
  CHECK(all.rows[0].from_log);
  CHECK(all.rows[0].begin->minute == 600);
  CHECK(all.rows[0].end->minute == 601);
  CHECK(all.rows[0].end->origin.line == 62);
}

TEST_CASE("log_setups: the control is read in the same rounds") {
  Added all;
  LogUse use = use_of({row(0), row(1)});
  all.add(use, true);
  CHECK(all.rows[0].seen[static_cast<std::size_t>(Role::control)]);
  REQUIRE(all.record.readings.size() == 4);
  for (std::size_t i = 0; i < 4; ++i) {
    const Reading& r = all.record.readings[i];
    CAPTURE(i);
    CHECK(r.role == (i % 2 == 0 ? Role::struck : Role::control));
    CHECK(r.round == static_cast<int>(i / 2) + 1);
    CHECK(r.power == Power::from_si(i % 2 == 0 ? 78.0 : 80.0));
    CHECK(r.temperature == TemperaturePoint::from_kelvin(i % 2 == 0 ? 323.0 : 322.0));
    CHECK(r.irradiance == Irradiance::from_si(900.0));
  }
}

TEST_CASE("log_setups: a row that does not count stays with its reason") {
  Added all;
  LogRow removed = row(0);
  removed.removed = "irradiance changed";
  LogRow removed_and_blank = row(1, blank);
  removed_and_blank.removed = "irradiance changed";
  LogUse use = use_of({removed, removed_and_blank, row(2, 78.0, blank), row(3, 78.0, 900.0, blank),
                       row(4, 0.0), row(5, -0.2), row(6, 78.0, -1.0)});
  all.add(use);
  REQUIRE(all.record.readings.size() == 7);
  const auto said = [&](std::size_t i) { return all.record.readings[i].skip; };
  CHECK(said(0) == "irradiance changed");
  CHECK(all.record.readings[0].measured);
  CHECK(said(1) == "no power in the log");
  CHECK(said(2) == "no irradiance in the log");
  CHECK(said(3) == "no temperature in the log");
  CHECK(said(4) == "power not above 0 W");
  CHECK(said(5) == "power not above 0 W");
  CHECK(said(6) == "irradiance not above 0 W/m2");
  for (std::size_t i = 1; i < 7; ++i)
    CHECK_FALSE(all.record.readings[i].measured);
}

TEST_CASE("log_setups: only the panel whose cell is blank has no reading") {
  Added all;
  LogRow one = row(0);
  one.temperature_beside = blank;
  LogUse use = use_of({one});
  all.add(use, true);
  CHECK(all.record.readings[0].measured);
  CHECK_FALSE(all.record.readings[1].measured);
  CHECK(all.record.readings[1].skip == "no temperature in the log");
}

// Found by review: readings without a partner had neither weight nor remark, and were counted.
TEST_CASE("log_setups: a reading without its partner says so") {
  Added all;
  LogRow removed = row(1, 0.0);
  removed.removed = "irradiance changed";
  LogUse use = use_of({row(0, 0.0), removed, row(2)});
  all.add(use, true);
  const auto& readings = all.record.readings;
  CHECK(readings[0].skip == "power not above 0 W");
  CHECK(readings[1].measured);
  CHECK(readings[1].skip == "no reading of the other panel in its row");
  CHECK(readings[3].skip == "irradiance changed");
  CHECK(readings[4].skip.empty());
  CHECK(readings[5].skip.empty());
}

TEST_CASE("log_setups: days and times of day follow the zone, through a change of clocks too") {
  Added all;
  LogUse use = use_of({row(0)}, "Pacific/Auckland");  // UTC+12 in June: 20:00
  all.add(use);
  CHECK(all.record.readings[0].minute == 20 * 60);
  CHECK(all.record.setups[0].date == "2026-06-14");
  Added early;
  LogUse west = use_of({row(0)}, "-09:00");
  early.add(west);
  CHECK(early.record.readings[0].minute == 23 * 60);
  CHECK(early.record.setups[0].date == "2026-06-13");
}

TEST_CASE("log_setups: a set-up past midnight") {
  Added all;
  LogUse use = use_of({row(0), row(3600)}, "-09:00");
  all.add(use);
  const Diagnostic note = only(all.notes);
  CHECK(note.code == "C42");
  CHECK(note.where.file == 7);
  CHECK(note.where.line == 3602);
  CHECK(note.related.size() == 1);
}

TEST_CASE("log_setups: a set-up that the record lists keeps what is said there") {
  Added all;
  Setup listed;
  listed.name = "before 1";
  listed.stage = before_1.first;
  listed.number = 1;
  listed.date = "2026-06-20";
  listed.battery = Ratio::from_si(0.5);
  all.record.setups.push_back(listed);
  all.dates.push_back(std::nullopt);
  LogUse use = use_of({row(0)});
  all.add(use);
  CHECK(seen(all.notes).empty());
  REQUIRE(all.record.setups.size() == 1);
  CHECK(all.record.setups[0].date == "2026-06-14");
  CHECK(all.record.setups[0].battery == Ratio::from_si(0.5));
}

TEST_CASE("log_setups: a stated date of another day") {
  Added all;
  Setup listed;
  listed.name = "before 1";
  listed.stage = before_1.first;
  listed.number = 1;
  listed.date = "2026-06-12";
  all.record.setups.push_back(listed);
  all.dates.push_back(SourceSpan{1, 9, 30, 4});
  LogUse use = use_of({row(0)});
  all.add(use);
  CHECK(only(all.notes).code == "C44");
  CHECK(only(all.notes).where.line == 9);
  CHECK_THAT(only(all.notes).message, Contains("2026-06-12") && Contains("2026-06-14"));
}

TEST_CASE("log_setups: a set-up that was read elsewhere") {
  Added all;
  LogUse use = use_of({row(0)});
  all.add(use);
  LogUse again = use_of({row(100)});
  all.add(again);
  CHECK(only(all.notes).code == "C05");
  CHECK(only(all.notes).where.line == 12);
  CHECK(only(all.notes).related.at(0).where.line == 2);
  CHECK(all.record.readings.size() == 1);
}

TEST_CASE("log_setups: a place in a file of more lines than there are") {
  LogRow far = row(0);
  far.line = 5'000'000'000;
  far.file = 2;
  const SourceSpan where = place_in_log(far, 3);
  CHECK(where.file == 5);
  CHECK(where.line == std::numeric_limits<int>::max());
  CHECK(where.column == 1);
}
