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
