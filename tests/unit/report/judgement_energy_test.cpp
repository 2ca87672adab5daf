#include "report/judgement_energy.hpp"

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

constexpr double Wh = 3600.0;

MeterSession session() {
  MeterSession s;
  s.name = "morning";
  s.lasting = Time::from_si(11400.0);
  s.lasting_step = Time::from_si(60.0);
  s.energy = Energy::from_si(212.4 * Wh);
  s.typed_step = Energy::from_si(0.1 * Wh);
  return s;
}

MeterSession with_ends() {
  MeterSession s = session();
  s.sun_start = Irradiance::from_si(640.0);
  s.sun_end = Irradiance::from_si(870.0);
  s.back_start = TemperaturePoint::from_celsius(41.0);
  s.back_end = TemperaturePoint::from_celsius(52.0);
  return s;
}

std::string told(const MeterSession& s) {
  Test test = TestBuilder().build();
  test.record.energy = {s};
  Assessment a;
  a.energy = weigh_meter_sessions(test);
  std::string text;
  for (const Fact& fact : energy_facts(test, a, SourceSet()).items) {
    text += fact.label + "\n";
    for (const Runs& line : fact.lines)
      text += line.at(0).text + "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("judgement energy: a record without sessions by meter says nothing of them") {
  const Test test = TestBuilder().build();
  CHECK(energy_facts(test, Assessment(), SourceSet()).items.empty());
}

TEST_CASE("judgement energy: energy and mean power with their intervals") {
  CHECK_THAT(told(session()), Contains("session morning\nbefore the shots: 212.4 Wh ±") &&
                                  Contains("(95 %) in 3 h 10 min, on average 67.1 W") &&
                                  Contains("no normalised power: the irradiance") &&
                                  Contains("assumed for them\npower meter: "));
  MeterSession after = session();
  after.after = true;
  after.date = "2026-06-15";
  CHECK_THAT(told(after), Contains("after the shots, 2026-06-15: "));
}

TEST_CASE("judgement energy: two ends stand for the time and what that leaves out is said") {
  CHECK_THAT(told(with_ends()), Contains("at 1000 W/m2 and 25 degC") &&
                                    Contains("irradiance 640 W/m2 and 870 W/m2") &&
                                    Contains("a noon or clouds in between"));
  MeterSession no_back = with_ends();
  no_back.back_end.reset();
  CHECK_THAT(told(no_back), Contains("no normalised power: the temperature of the back"));
  MeterSession nothing = with_ends();
  nothing.energy = Energy{};
  CHECK_THAT(told(nothing), Contains("the meter counted nothing"));
}

TEST_CASE("judgement energy: a panel beside as a ratio of two meters") {
  MeterSession s = with_ends();
  s.beside = EnergyBeside{};
  s.beside->label = "C";
  s.beside->energy = Energy::from_si(209.8 * Wh);
  s.beside->typed_step = Energy::from_si(0.1 * Wh);
  s.beside->back_start = TemperaturePoint::from_celsius(41.0);
  s.beside->back_end = TemperaturePoint::from_celsius(50.5);
  CHECK_THAT(told(s), Contains("beside it, C gave 209.8 Wh") && Contains("0.988") &&
                          Contains("Clouds cancel") &&
                          Contains("another one of the first's kind") &&
                          Contains("as warm at the start and 1.5 K cooler at the end"));
}
