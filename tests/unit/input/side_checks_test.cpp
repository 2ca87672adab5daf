#include "input/side_checks.hpp"

#include <fmt/format.h>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

Record record_of_a_day() {
  Record record;
  record.date = "2026-06-14";
  record.panel.rated_power = Power::from_si(100.0);
  record.panel.open_voltage = Voltage::from_si(22.1);
  record.panel.short_current = Current::from_si(6.0);
  return record;
}

std::string said(const Record& record) {
  Diagnostics notes;
  input::check_side_measurements(record, true, notes);
  std::string all;
  for (const Diagnostic& note : notes.items()) {
    all += note.severity == Severity::error ? "error " : "warning ";
    all += fmt::format("{}: {}\n", note.code, note.message);
  }
  return all;
}

Record with_open_voltage(double shaded_v) {
  Record record = record_of_a_day();
  ShadeTrial trial;
  trial.open_free = Voltage::from_si(20.6);
  trial.open_shaded = Voltage::from_si(shaded_v);
  record.shading = {trial};
  return record;
}

Record with_round(double shaded_w, double shaded_sun) {
  Record record = record_of_a_day();
  ShadeRound round;
  round.free = Power::from_si(80.0);
  round.shaded = Power::from_si(shaded_w);
  round.sun_free = Irradiance::from_si(905.0);
  round.sun_shaded = Irradiance::from_si(shaded_sun);
  ShadeTrial trial;
  trial.rounds = {round};
  record.shading = {trial};
  return record;
}

Record with_curve(double open_v, double sun) {
  Record record = record_of_a_day();
  CurveReading reading;
  reading.open_circuit = Voltage::from_si(open_v);
  reading.sun = Irradiance::from_si(sun);
  record.curves = CurveReadings{};
  record.curves->before = {reading};
  return record;
}

Record with_session(double mean_w, double sun) {
  Record record = record_of_a_day();
  MeterSession session;
  session.lasting = Time::from_si(1800.0);
  session.energy = Energy::from_si(mean_w * 1800.0);
  session.sun_start = session.sun_end = Irradiance::from_si(sun);
  record.energy = {session};
  return record;
}

}  // namespace

// Found by review: 20.6 V that became 25 V in the shade "fell by -4.4 V", and a diode was blamed.
TEST_CASE("side checks: a voltage that rises in the shade is an error") {
  CHECK_THAT(said(with_open_voltage(25.0)), Contains("C57") && Contains("error"));
  CHECK(said(with_open_voltage(21.0)).empty());
  CHECK(said(with_open_voltage(13.7)).empty());
}

// Found by review: 90 W/m2 against 905 W/m2 in one round went into the loss unsaid.
TEST_CASE("side checks: a round that no shade gives is told of") {
  CHECK_THAT(said(with_round(40.0, 90.0)), Contains("C58") && Contains("warning"));
  CHECK_THAT(said(with_round(90.0, 905.0)), Contains("larger in the shade"));
  CHECK(said(with_round(40.0, 903.0)).empty());
  CHECK(said(with_round(82.0, 905.0)).empty());
  CHECK(said(with_round(0.0, 905.0)).empty());
}

// Found by review: 1362 V for 13.62 V and 88.6 W/m2 for 886 were averaged in and explained away.
TEST_CASE("side checks: figures of a curve are held against the panel and the sun") {
  CHECK_THAT(said(with_curve(1362.0, 886.0)), Contains("C58") && Contains("rated 22.1 V"));
  CHECK_THAT(said(with_curve(21.0, 88.6)), Contains("88.6 W/m2"));
  CHECK(said(with_curve(21.0, 886.0)).empty());
  // Without the panel's file there is nothing to hold it against.
  Diagnostics notes;
  input::check_side_measurements(with_curve(1362.0, 886.0), false, notes);
  CHECK(notes.empty());
}

// Found by review: a mean power far above the rating was taken without a word.
TEST_CASE("side checks: a mean power above what the rating gives at its sun") {
  CHECK(said(with_session(95.0, 900.0)).empty());
  CHECK_THAT(said(with_session(130.0, 900.0)),
             Contains("130 W on average") && Contains("about 90 W at 900 W/m2"));
}

namespace {

/// Three readings in each of two set-ups, before and after.
Record with_readings(double before_w, double after_w, double sun) {
  Record record = record_of_a_day();
  record.setups = {{{}, "before 1", {StageKind::before, 0}, 1, "", {}, {}},
                   {{}, "after 1", {StageKind::after, 0}, 1, "", {}, {}}};
  for (const std::size_t setup : {std::size_t{0}, std::size_t{1}}) {
    for (int i = 0; i < 3; ++i) {
      Reading r;
      r.origin = {7, 10 + i, 1, 1};
      r.setup = setup;
      r.power = Power::from_si((setup == 0 ? before_w : after_w) + 0.1 * i);
      r.irradiance = Irradiance::from_si(sun);
      record.readings.push_back(r);
    }
  }
  return record;
}

int warnings_of(const Record& record) {
  Diagnostics notes;
  input::check_side_measurements(record, true, notes);
  return static_cast<int>(notes.items().size());
}

}  // namespace

// Found by review: 80 kW of a panel rated 100 W, and 80 W of it at 1 W/m2, were judged unsaid.
TEST_CASE("side checks: readings far from the rating are told of once a table") {
  CHECK(said(with_readings(80.0, 80.0, 900.0)).empty());
  CHECK_THAT(said(with_readings(80000.0, 80000.0, 900.0)),
             Contains("C58: set-up before 1 has 80000.2 W at 900 W/m2, and a panel rated 100 W "
                      "gives about 90 W there"));
  CHECK(warnings_of(with_readings(80000.0, 80000.0, 900.0)) == 1);
  CHECK_THAT(said(with_readings(80.0, 80.0, 1.0)), Contains("about 0.1 W there"));
  // A table and a log are two.
  Record two = with_readings(80000.0, 80000.0, 900.0);
  for (Reading& r : two.readings) {
    if (r.setup == 1) r.origin.file = 8;
  }
  CHECK(warnings_of(two) == 2);
  // A log of several files is one.
  LogUse log;
  log.setups = {0, 1};
  log.question.first_file = 7;
  two.logs = {log};
  CHECK(warnings_of(two) == 1);
}

TEST_CASE("side checks: little power is doubtful before the shots and of a panel left alone") {
  CHECK_THAT(said(with_readings(0.08, 80.0, 900.0)), Contains("before 1 has 0.08 W"));
  Record record = with_readings(80.0, 0.08, 900.0);
  CHECK(said(record).empty());
  for (Reading& r : record.readings)
    r.role = Role::sibling;
  CHECK_THAT(said(record), Contains("after 1 has 0.08 W"));
  // The control has a rating of its own, or none.
  for (Reading& r : record.readings)
    r.role = Role::control;
  CHECK(said(record).empty());
  record.control = Panel{};
  CHECK(said(record).empty());
  record.control->rated_power = Power::from_si(0.1);
  CHECK_THAT(said(record), Contains("before 1 has 80.2 W"));
}

TEST_CASE("side checks: a reading that does not count, or one row of many, is let be") {
  Record record = with_readings(80.0, 80.0, 900.0);
  record.readings[1].power = Power::from_si(130.0);
  CHECK(said(record).empty());
  record.readings[1].power = Power::from_si(8000.0);
  CHECK(warnings_of(record) == 1);
  record.readings[1].skip = "typed wrong";
  CHECK(said(record).empty());
  record.readings[1].skip.clear();
  record.panel.rated_power.reset();
  CHECK(said(record).empty());
}

// Found by review: shades and sessions took any day, whatever the test's was.
TEST_CASE("side checks: a day that contradicts that of the test is an error") {
  Record record = with_session(80.0, 900.0);
  MeterSession& session = record.energy[0];
  session.date = "2026-06-15";
  CHECK_THAT(said(record), Contains("C59") && Contains("after 2026-06-14"));
  session.after = true;
  CHECK(said(record).empty());
  session.date = "2026-06-13";
  CHECK_THAT(said(record), Contains("C59") && Contains("before 2026-06-14"));
  // The stress has a day of its own.
  StressDone done;
  done.date = "2026-06-12";
  record.stresses = {done};
  CHECK(said(record).empty());
}
