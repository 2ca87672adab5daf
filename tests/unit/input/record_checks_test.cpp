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

namespace {

/// Two shots of two series on the day, at 12:00 and 14:00, and one set-up read from `begin` to
/// `end`.
Record beside_shots(StageId stage, int begin, int end) {
  Record record;
  record.date = "2026-06-14";
  record.setups.resize(1);
  record.setups[0].name = "this one";
  record.setups[0].date = "2026-06-14";
  record.setups[0].stage = stage;
  for (const int minute : {begin, end}) {
    Reading& reading = record.readings.emplace_back();
    reading.origin = {2, minute, 1, 9};
    reading.minute = minute;
  }
  for (const std::size_t series : {std::size_t{0}, std::size_t{1}}) {
    Shot& shot = record.shots.emplace_back();
    shot.origin = {3, static_cast<int>(series) + 7, 1, 9};
    shot.series = series;
    shot.minute = (series == 0 ? 12 : 14) * 60;
  }
  return record;
}

Diagnostics sides(const Record& record) {
  Diagnostics notes;
  check_sides_of_shots(record, notes);
  return notes;
}

constexpr int morning = 11 * 60, noon = 12 * 60, between = 13 * 60, afternoon = 15 * 60;

}  // namespace

// Found by review: shots at ten to midnight behind the last set-up "after" went without a word.
TEST_CASE("record_checks: set-ups lie on the side of the shots that their name says") {
  struct Case {
    StageId stage;
    int begin;
    const char* wrong;  ///< time of the shot, or nullptr
    const char* stands;
  };
  const auto c = GENERATE(values<Case>({
      {{StageKind::before, 0}, morning, nullptr, ""},
      {{StageKind::before, 0}, between, "12:00", "stands before"},
      {{StageKind::before, 0}, afternoon, "12:00", "stands before"},
      {{StageKind::baseline, 0}, morning, nullptr, ""},
      {{StageKind::baseline, 0}, afternoon, "12:00", "stands before"},
      {{StageKind::after_series, 0}, morning, "12:00", "stands after"},
      {{StageKind::after_series, 0}, between, nullptr, ""},
      {{StageKind::after_series, 0}, afternoon, "14:00", "stands before"},
      {{StageKind::after_series, 1}, between, "14:00", "stands after"},
      {{StageKind::after_series, 1}, afternoon, nullptr, ""},
      {{StageKind::after, 0}, morning, "12:00", "stands after"},
      {{StageKind::after, 0}, between, "14:00", "stands after"},
      {{StageKind::after, 0}, afternoon, nullptr, ""},
      {{StageKind::later, 0}, between, "14:00", "stands after"},
  }));
  CAPTURE(c.begin, static_cast<int>(c.stage.kind), c.stage.series);
  const Diagnostics notes = sides(beside_shots(c.stage, c.begin, c.begin + 10));
  if (c.wrong == nullptr) {
    CHECK(notes.empty());
    return;
  }
  const Diagnostic note = only(notes);
  CHECK(note.code == "T33");
  CHECK(note.severity == Severity::error);
  CHECK(note.where.line == c.begin);
  CHECK_THAT(note.message, Contains(c.wrong) && Contains(c.stands) && Contains("\"this one\""));
  CHECK_THAT(note.hints.at(1), Contains("another day"));
}

TEST_CASE("record_checks: a shot in the minute of a reading stands on either side of it") {
  const StageId before{StageKind::before, 0};
  const StageId after{StageKind::after, 0};
  CHECK(sides(beside_shots(before, noon - 10, noon)).empty());
  CHECK(sides(beside_shots(before, noon, noon)).empty());
  CHECK(only(sides(beside_shots(before, noon, noon + 10))).code == "T33");
  CHECK(sides(beside_shots(after, noon + 120, noon + 130)).empty());
  CHECK(only(sides(beside_shots(after, noon + 110, noon + 120))).code == "T33");
  // One among the readings is told of by the check above.
  CHECK(sides(beside_shots(before, noon - 10, noon + 10)).empty());
}

TEST_CASE("record_checks: sides are told where day and times of both are known") {
  const Record wrong = beside_shots({StageKind::after, 0}, morning, morning + 10);
  Record record = wrong;
  record.setups[0].date = "2026-06-15";
  CHECK(sides(record).empty());
  record = wrong;
  for (Reading& reading : record.readings)
    reading.minute.reset();
  CHECK(sides(record).empty());
  record = wrong;
  for (Shot& shot : record.shots)
    shot.minute.reset();
  CHECK(sides(record).empty());
  record = wrong;
  record.shots.clear();
  CHECK(sides(record).empty());
  record = wrong;
  record.date.clear();
  CHECK(sides(record).empty());
}

TEST_CASE("record_checks: a set-up from a log is told to look at its clock") {
  Record record = beside_shots({StageKind::after, 0}, morning, morning + 10);
  record.logs.emplace_back().setups = {0};
  CHECK_THAT(only(sides(record)).hints.at(1), Contains("zone of the log"));
}

TEST_CASE("record_checks: set-ups after a stress stand where it was done") {
  const StageId after_bags{StageKind::after_stress, 0};
  Record record = beside_shots(after_bags, between, between + 10);
  record.stresses.resize(1);
  CHECK_THAT(only(sides(record)).message, Contains("stands before"));
  record.stresses[0].after_hail = true;
  CHECK_THAT(only(sides(record)).message, Contains("14:00") && Contains("stands after"));
  record.setups[0].date = "2026-06-15";
  CHECK(sides(record).empty());
  record.stresses[0].after_hail = false;
  CHECK_THAT(only(sides(record)).message, Contains("after the shots of 2026-06-14"));
  record.setups[0].date = "2026-06-13";
  CHECK(sides(record).empty());
}
