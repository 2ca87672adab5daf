#include "hailwright/evaluate/meter_sessions.hpp"

#include <algorithm>
#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

constexpr double Wh = 3600.0;

Stated<Energy> one_percent_and_a_digit() {
  Stated<Energy> s;
  s.relative = percent(1);
  s.digits = 1.0;
  return s;
}

/// 200 Wh in 120 min, read off to the minute, by a meter of 1 % + 1 digit of 0.1 Wh.
MeterSession session() {
  MeterSession s;
  s.name = "noon";
  s.lasting = Time::from_si(7200.0);
  s.lasting_step = Time::from_si(60.0);
  s.energy = Energy::from_si(200.0 * Wh);
  s.typed_step = Energy::from_si(1.0 * Wh);
  s.energy_step = Energy::from_si(0.1 * Wh);
  s.meter = one_percent_and_a_digit();
  return s;
}

/// The instruments are without error, the coefficient is -0.4 %/K, the sensor reads the cell.
Test test_with(const MeterSession& s) {
  Test test = TestBuilder().build();
  Tools& tools = test.protocol.tools;
  tools = Tools{};
  tools.sun.error = Stated<Irradiance>{};
  tools.thermometer.error = Stated<TemperatureDifference>{};
  tools.thermometer.each_time = Stated<TemperatureDifference>{};
  tools.thermometer.where = SensorPlace::cell;
  StatedValue<TemperatureCoefficient> gamma;
  gamma.value = TemperatureCoefficient::from_si(-0.004);
  test.record.panel.power_coefficient = gamma.value;
  test.record.panel.power_coefficient_stated = gamma;
  test.record.energy = {s};
  return test;
}

MeterSessionResult weigh(const MeterSession& s) {
  return weigh_meter_sessions(test_with(s)).at(0);
}

}  // namespace

TEST_CASE("meter sessions: the mean power by hand") {
  const MeterSessionResult r = weigh(session());
  CHECK_THAT(r.mean_power.estimate.value.si(), WithinRel(100.0, 1e-12));
  // Gain 1 % / sqrt(3), a digit of 0.1 Wh / sqrt(3), each end of the time within half a minute: a
  // triangle of a minute to either side, u = 1 min / sqrt(6).
  const double gain = 0.01 / std::sqrt(3.0);
  const double digit = 0.1 / std::sqrt(3.0) / 200.0;
  const double time = 60.0 / std::sqrt(6.0) / 7200.0;
  CHECK_THAT(r.mean_power.estimate.standard_u.si(),
             WithinRel(100.0 * std::sqrt(gain * gain + digit * digit + time * time), 1e-9));
  CHECK_THAT(r.energy.estimate.standard_u.si(),
             WithinRel(200.0 * Wh * std::hypot(gain, digit), 1e-9));
  CHECK_THAT(r.mean_power.half_width().si(),
             WithinRel(1.959964 * r.mean_power.estimate.standard_u.si(), 1e-6));
  CHECK_FALSE(r.normalised);
  CHECK_FALSE(r.ratio);
  CHECK(r.assumptions.used().empty());
}

TEST_CASE("meter sessions: a meter without digits is read to its step") {
  MeterSession s = session();
  s.meter->digits = 0.0;
  s.meter->relative = Ratio{};
  s.energy_step = Energy::from_si(10.0 * Wh);
  // Rounded to 10 Wh: within 5 Wh, rectangular.
  CHECK_THAT(weigh(s).energy.estimate.standard_u.si(), WithinRel(5.0 * Wh / std::sqrt(3.0), 1e-9));
}

TEST_CASE("meter sessions: the two ends stand for the time as a rectangle between them") {
  MeterSession s = session();
  s.sun_start = Irradiance::from_si(900.0);
  s.sun_end = Irradiance::from_si(1100.0);
  s.back_start = TemperaturePoint::from_celsius(20.0);
  s.back_end = TemperaturePoint::from_celsius(30.0);
  const MeterSessionResult r = weigh(s);
  REQUIRE(r.normalised);
  CHECK_THAT(r.normalised->estimate.value.si(), WithinRel(100.0, 1e-9));
  const double mean_power = r.mean_power.estimate.standard_u.si() / 100.0;
  const double sun = 100.0 / std::sqrt(3.0) / 1000.0;
  const double back = 0.004 * 5.0 / std::sqrt(3.0);
  CHECK_THAT(r.normalised->estimate.standard_u.si(),
             WithinRel(100.0 * std::sqrt(mean_power * mean_power + sun * sun + back * back), 1e-9));
  s.sun_end = s.sun_start;
  CHECK(weigh(s).normalised->estimate.standard_u < r.normalised->estimate.standard_u);
  s.back_end.reset();
  CHECK_FALSE(weigh(s).normalised);
}

TEST_CASE("meter sessions: an energy of zero has a power and no normalised one") {
  MeterSession s = session();
  s.energy = Energy{};
  s.sun_start = s.sun_end = Irradiance::from_si(900.0);
  s.back_start = s.back_end = TemperaturePoint::from_celsius(20.0);
  s.beside = EnergyBeside{};
  s.beside->energy = Energy::from_si(Wh);
  const MeterSessionResult r = weigh(s);
  CHECK(r.mean_power.estimate.value.si() == 0.0);
  CHECK(r.mean_power.estimate.standard_u.si() > 0.0);
  CHECK_FALSE(r.normalised);
  CHECK_FALSE(r.ratio);
  CHECK(r.energy_beside);
}

TEST_CASE("meter sessions: a ratio has two independent meters and no time") {
  MeterSession s = session();
  s.beside = EnergyBeside{};
  s.beside->label = "C";
  s.beside->energy = Energy::from_si(190.0 * Wh);
  s.beside->typed_step = Energy::from_si(1.0 * Wh);
  const MeterSessionResult r = weigh(s);
  REQUIRE(r.ratio);
  CHECK_THAT(r.ratio->estimate.value.si(), WithinRel(0.95, 1e-12));
  const double gain = 0.01 / std::sqrt(3.0);
  const double digit = 0.1 / std::sqrt(3.0);
  CHECK_THAT(r.ratio->estimate.standard_u.si(),
             WithinRel(0.95 * std::sqrt(2.0 * gain * gain + std::pow(digit / 200.0, 2) +
                                        std::pow(digit / 190.0, 2)),
                       1e-9));
  const bool has_time =
      std::any_of(r.ratio->budget.begin(), r.ratio->budget.end(),
                  [](const BudgetRow& row) { return row.input.id == "duration"; });
  CHECK_FALSE(has_time);
  s.beside->meter = Stated<Energy>{};
  s.beside->meter->relative = percent(5);
  CHECK(weigh(s).ratio->estimate.standard_u > r.ratio->estimate.standard_u);
}

TEST_CASE("meter sessions: a meter that nobody describes takes the default of a power meter") {
  MeterSession s = session();
  s.meter.reset();
  s.energy_step.reset();
  const MeterSessionResult r = weigh(s);
  CHECK(r.assumptions.uses(DefaultId::meter_accuracy));
  CHECK(r.assumptions.uses(DefaultId::display_step));
  // 5 % and 3 digits of the 1 Wh in which it is typed.
  CHECK_THAT(r.energy.estimate.standard_u.si(),
             WithinRel(Wh * std::hypot(0.05 * 200.0, 3.0) / std::sqrt(3.0), 1e-9));
}

TEST_CASE("meter sessions: one result for each session in their order") {
  Test test = test_with(session());
  test.record.energy.push_back(session());
  const auto results = weigh_meter_sessions(test);
  REQUIRE(results.size() == 2);
  CHECK(results[1].session == 1);
}

TEST_CASE("meter sessions: without its step a display is as fine as what was typed") {
  MeterSession s = session();
  s.energy_step.reset();
  CHECK(weigh(s).assumptions.uses(DefaultId::display_step));
  s.meter->digits = 0.0;
  const MeterSessionResult rounded = weigh(s);
  CHECK_FALSE(rounded.assumptions.uses(DefaultId::display_step));
  // Rounded to the 1 Wh that was typed.
  const double gain = 0.01 * 200.0 * Wh / std::sqrt(3.0);
  CHECK_THAT(rounded.energy.estimate.standard_u.si(),
             WithinRel(std::hypot(gain, 0.5 * Wh / std::sqrt(3.0)), 1e-9));
}

TEST_CASE("meter sessions: both ends of sun and of the back are needed to normalise") {
  MeterSession whole = session();
  whole.sun_start = whole.sun_end = Irradiance::from_si(900.0);
  whole.back_start = whole.back_end = TemperaturePoint::from_celsius(20.0);
  CHECK(weigh(whole).normalised);
  MeterSession some = whole;
  some.sun_start.reset();
  CHECK_FALSE(weigh(some).normalised);
  some = whole;
  some.sun_end.reset();
  CHECK_FALSE(weigh(some).normalised);
  some = whole;
  some.back_start.reset();
  CHECK_FALSE(weigh(some).normalised);
}

TEST_CASE("meter sessions: the second display's own step counts for the second energy") {
  MeterSession s = session();
  s.beside = EnergyBeside{};
  s.beside->energy = Energy::from_si(190.0 * Wh);
  s.beside->energy_step = Energy::from_si(2.0 * Wh);
  const double gain = 0.01 * 190.0 * Wh / std::sqrt(3.0);
  CHECK_THAT(weigh(s).energy_beside->estimate.standard_u.si(),
             WithinRel(std::hypot(gain, 2.0 * Wh / std::sqrt(3.0)), 1e-9));
}
