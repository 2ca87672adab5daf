// Shading and sessions by meter against random trials in another program: numpy 1.24.2,
// default_rng(20261126), 2 000 000 trials, every input drawn in its shape. Tolerances: 1 % of u,
// for what a first-order propagation leaves out, unless it says otherwise.
#include <cmath>

#include "hailwright/evaluate/meter_sessions.hpp"
#include "hailwright/evaluate/shading.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

constexpr double Wh = 3600.0;

template <class Q>
Stated<Q> stated(double relative, double digits) {
  Stated<Q> s;
  s.relative = percent(relative);
  s.digits = digits;
  return s;
}

Stated<TemperatureDifference> kelvin(double half_width) {
  Stated<TemperatureDifference> s;
  s.absolute = TemperatureDifference::from_si(half_width);
  return s;
}

/// Meter 0.5 % + 2 digits of 0.1 W, sun 3 % + 1 digit of 1 W/m2, thermometer 1 K; coefficient
/// -0.38 %/K within 0.05 %/K; cell 3 K above the back within 3 K.
Test test_with_tools() {
  Test test = TestBuilder().build();
  Tools& tools = test.protocol.tools;
  tools = Tools{};
  tools.meter.error = stated<Power>(0.5, 2.0);
  tools.meter.step = Power::from_si(0.1);
  tools.sun.error = stated<Irradiance>(3.0, 1.0);
  tools.sun.step = Irradiance::from_si(1.0);
  tools.thermometer.error = kelvin(1.0);
  tools.thermometer.each_time = kelvin(0.0);
  test.record.panel.power_coefficient = TemperatureCoefficient::from_si(-0.0038);
  test.record.panel.power_coefficient_stated.reset();
  test.protocol.measure.cell_above_back.reset();
  return test;
}

ShadeRound round_of(double free, double shaded, double sun_free, double sun_shaded,
                    double back_free, double back_shaded) {
  ShadeRound r;
  r.free = Power::from_si(free);
  r.shaded = Power::from_si(shaded);
  r.sun_free = Irradiance::from_si(sun_free);
  r.sun_shaded = Irradiance::from_si(sun_shaded);
  r.back_free = TemperaturePoint::from_celsius(back_free);
  r.back_shaded = TemperaturePoint::from_celsius(back_shaded);
  return r;
}

}  // namespace

TEST_CASE("side measurements: three rounds in a shade against random trials of numpy") {
  Test test = test_with_tools();
  ShadeTrial trial;
  trial.rounds = {round_of(81.2, 39.9, 905, 903, 44, 45), round_of(81.0, 39.6, 902, 904, 44, 44),
                  round_of(80.6, 39.7, 899, 896, 45, 45)};
  test.record.shading = {trial};
  const ShadingResult r = weigh_shading(test).at(0);
  REQUIRE(r.log_left);
  CHECK_THAT(r.left->value.si(), WithinRel(0.492159, 1e-4));
  const Combined instruments = combine(r.log_left->budget, Evaluation::type_b);
  CHECK_THAT(instruments.standard_u, WithinRel(0.0033616, 0.01));
}

TEST_CASE("side measurements: a shade that takes all against random trials of numpy") {
  Test test = test_with_tools();
  test.protocol.tools.meter.error = stated<Power>(1.0, 2.0);
  ShadeTrial trial;
  trial.rounds = {round_of(80, 0, 1000, 1000, 25, 25)};
  test.record.shading = {trial};
  // numpy's digits are those of 0.1 W and the sun and the coefficient drop out of a ratio of 0.
  CHECK_THAT(weigh_shading(test).at(0).left->standard_u.si(), WithinRel(0.0014436, 0.01));
}

TEST_CASE("side measurements: a morning by meter against random trials of numpy") {
  Test test = test_with_tools();
  // The sensor is put on once, within 1 K.
  test.protocol.tools.thermometer.each_time = kelvin(1.0);
  MeterSession s;
  s.lasting = Time::from_si(190 * 60.0);
  s.lasting_step = Time::from_si(60.0);
  s.energy = Energy::from_si(212.4 * Wh);
  s.energy_step = Energy::from_si(0.1 * Wh);
  s.meter = stated<Energy>(1.0, 1.0);
  s.sun_start = Irradiance::from_si(640.0);
  s.sun_end = Irradiance::from_si(870.0);
  s.back_start = TemperaturePoint::from_celsius(41.0);
  s.back_end = TemperaturePoint::from_celsius(52.0);
  s.beside = EnergyBeside{};
  s.beside->energy = Energy::from_si(209.8 * Wh);
  test.record.energy = {s};
  const MeterSessionResult r = weigh_meter_sessions(test).at(0);
  CHECK_THAT(r.mean_power.estimate.value.si(), WithinRel(67.0740, 1e-4));
  CHECK_THAT(r.mean_power.estimate.standard_u.si(), WithinRel(0.41375, 0.01));
  CHECK_THAT(r.ratio->estimate.value.si(), WithinRel(0.987796, 1e-4));
  CHECK_THAT(r.ratio->estimate.standard_u.si(), WithinRel(0.0080702, 0.01));
  // Dividing by an irradiance that is known to 9 % is not linear: the mean of the trials lies 0.8 %
  // higher, and their standard deviation 2 %.
  REQUIRE(r.normalised);
  CHECK_THAT(r.normalised->estimate.value.si(), WithinRel(98.4769, 0.012));
  CHECK_THAT(r.normalised->estimate.standard_u.si(), WithinRel(8.9905, 0.03));
}
