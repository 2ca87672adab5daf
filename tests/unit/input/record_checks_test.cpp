#include "input/record_checks.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;

namespace {

/// Two series at two settings, one hit each, a trial at the first setting only.
Test sample() {
  Test test;
  test.protocol.series.resize(2);
  test.protocol.series[0].name = "small";
  test.protocol.series[0].setting = "mark 3";
  test.protocol.series[1].name = "large";
  test.protocol.series[1].setting = "mark 5";
  test.protocol.speed.video = FrameRate::from_si(240);
  for (std::size_t i = 0; i < 2; ++i) {
    Shot shot;
    shot.series = i;
    shot.landing = Landing::in;
    test.record.shots.push_back(shot);
  }
  Trial trial;
  trial.setting = "mark 3";
  trial.frames = 29.5;
  test.record.trials.push_back(trial);
  return test;
}

const RecordPlaces given{{1, 9, 1, 6}, {1, 10, 3, 6}, {1, 11, 3, 5}};
const RecordPlaces no_tables{{1, 9, 1, 6}, {}, {}};

Diagnostics trials(const Test& test, const RecordPlaces& places) {
  Diagnostics notes;
  check_trials(test, places, notes);
  return notes;
}

}  // namespace

TEST_CASE("record_checks: a setting without trials is a warning at the table") {
  const Diagnostic note = only(trials(sample(), given));
  CHECK(note.code == "C17");
  CHECK(note.severity == Severity::warning);
  CHECK(note.where.line == 10);
  CHECK_THAT(note.message, Contains("mark 5") && Contains("large"));
}

TEST_CASE("record_checks: shots with a speed of their own, misses and other methods need none") {
  Test test = sample();
  test.record.shots[1].landing = Landing::broke;
  CHECK(trials(test, given).empty());
  test = sample();
  test.record.shots[1].speed = 28.0_mps;
  CHECK(trials(test, given).empty());
  test = sample();
  test.protocol.speed.by = SpeedSource::each_shot;
  CHECK(trials(test, given).empty());
}

TEST_CASE("record_checks: hits and no table of trials") {
  Test test = sample();
  test.record.trials.clear();
  const Diagnostic note = only(trials(test, no_tables));
  CHECK(note.code == "C12");
  CHECK(note.where.line == 9);
  test.record.shots.clear();
  CHECK(trials(test, no_tables).empty());
}

TEST_CASE("record_checks: frames without a video, settings of no series") {
  Test test = sample();
  test.record.shots.clear();
  test.protocol.speed.video.reset();
  CHECK(only(trials(test, given)).code == "C13");
  test = sample();
  test.record.shots.clear();
  test.record.trials[0].setting = "mark3";
  test.record.trials.push_back(test.record.trials[0]);
  const Diagnostic note = only(trials(test, given));
  CHECK(note.code == "C16");
  CHECK(note.severity == Severity::warning);
  CHECK_THAT(note.hints.at(0), Contains("mark 3"));
}

TEST_CASE("record_checks: balls that shots name") {
  Test test = sample();
  Diagnostics none;
  check_balls(test, no_tables, none);
  CHECK(none.empty());
  test.record.shots[0].ball = "smal";
  test.record.shots[1].ball = "smal";
  Diagnostics no_table;
  check_balls(test, no_tables, no_table);
  CHECK(only(no_table).code == "C14");
  CHECK_THAT(only(no_table).hints.at(0), Contains("balls.csv"));
  test.record.balls.resize(1);
  test.record.balls[0].kind = "small";
  Diagnostics slip;
  check_balls(test, given, slip);
  CHECK_THAT(only(slip).hints.at(0), Contains("'small'"));
}

namespace {

/// One set-up of the day of the shots, read from 13:00 to 13:20, and a shot at `shot`.
Record one_setup(int shot) {
  Record record;
  record.date = "2026-06-14";
  record.setups.resize(2);
  record.setups[0].name = "after 1";
  record.setups[0].date = "2026-06-14";
  record.setups[1].date = "2026-06-14";
  for (const int minute : {0, 10, 20}) {
    Reading reading;
    reading.origin = {2, minute + 1, 1, 9};
    reading.minute = 13 * 60 + minute;
    record.readings.push_back(reading);
  }
  record.readings.emplace_back().setup = 1;
  record.shots.emplace_back().origin = {3, 7, 1, 9};
  record.shots.back().minute = shot;
  return record;
}

Diagnostics whole(const Record& record) {
  Diagnostics notes;
  check_setups_whole(record, notes);
  return notes;
}

}  // namespace

TEST_CASE("record_checks: a set-up with a shot between its readings names both rows") {
  const Diagnostic note = only(whole(one_setup(13 * 60 + 10)));
  CHECK(note.code == "T34");
  CHECK(note.severity == Severity::error);
  CHECK(note.where.line == 21);
  CHECK(note.related.at(0).where.line == 7);
  CHECK_THAT(note.message,
             Contains("13:10") && Contains("\"after 1\"") && Contains("13:00 to 13:20"));
  CHECK(only(whole(one_setup(13 * 60 + 9))).where.line == 11);
}

TEST_CASE("record_checks: shots before and after a set-up, of other days and without a time") {
  CHECK(whole(one_setup(13 * 60)).empty());
  CHECK(whole(one_setup(13 * 60 + 20)).empty());
  CHECK(whole(one_setup(12 * 60)).empty());
  Record record = one_setup(13 * 60 + 10);
  record.setups[0].date = "2026-06-15";
  CHECK(whole(record).empty());
  record = one_setup(13 * 60 + 10);
  record.shots[0].minute.reset();
  CHECK(whole(record).empty());
  record = one_setup(13 * 60 + 10);
  record.readings[0].setup = 1;
  record.readings[1].setup = 1;
  CHECK(whole(record).empty());
}
