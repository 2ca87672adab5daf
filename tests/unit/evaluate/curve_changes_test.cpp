#include "evaluate/curve_changes.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "support/catch.hpp"
#include "support/curve_readings.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

CurveChanges changes_of(const Test& test, const CurveReadings& readings) {
  return curve_changes(test, readings, panel_for_curves());
}

const CurveInput& input_of(const CurveChanges& c, const std::string& name) {
  const auto at = std::find_if(c.inputs.begin(), c.inputs.end(),
                               [&](const CurveInput& i) { return i.name == name; });
  REQUIRE(at != c.inputs.end());
  return *at;
}

}  // namespace

TEST_CASE("curve_changes: sun and temperature are taken out") {
  // 930 W/m2 at 45 degC before, 870 W/m2 at 52 degC after; displays of 0.01 V and 0.01 A.
  const CurveChanges c =
      changes_of(test_for_curves(), drawn_curves(CurvePattern::all_cells_less, 0.0, 0));
  for (const double change : c.change)
    CHECK_THAT(change, WithinAbs(0.0, 0.002));
  CHECK_THAT(std::exp(c.mean_before[0]), WithinAbs(22.1, 0.01));
  CHECK_THAT(std::exp(c.mean_after[1]), WithinAbs(5.898, 0.01));
  CHECK(c.read.size() == 4);
}

TEST_CASE("curve_changes: gains that both stages share cancel, drifts between them do not") {
  const CurveChanges c =
      changes_of(test_for_curves(), drawn_curves(CurvePattern::all_cells_less, 0.05, 0));
  for (const char* gain : {"voltmeter, gain", "ammeter, gain"}) {
    CAPTURE(gain);
    for (const double u : input_of(c, gain).u)
      CHECK_THAT(u, WithinAbs(0.0, 1e-9));
  }
  // Of the sun meter's too, but for the heat that comes with it.
  CHECK_THAT(input_of(c, "sun meter, gain").u[1], WithinAbs(0.0, 1e-4));
  const double drift = 0.05 * 0.01 / std::sqrt(3.0);
  CHECK_THAT(input_of(c, "voltmeter, drift, after").u[0], WithinRel(drift, 1e-3));
  CHECK_THAT(input_of(c, "voltmeter, drift, after").u[2], WithinRel(drift, 1e-3));
  CHECK(input_of(c, "voltmeter, drift, after").u[1] == 0.0);
  // More sun than was read before: the currents were too large for it then.
  const CurveVector sky = input_of(c, "sky of the day, before").u;
  CHECK_THAT(sky[1], WithinRel(0.01, 2e-2));
  CHECK_THAT(sky[3], WithinRel(sky[1], 1e-9));
  CHECK(std::abs(sky[0]) < 0.001);
}

TEST_CASE("curve_changes: an offset counts where the figure changed") {
  const CurveChanges c =
      changes_of(test_for_curves(), drawn_curves(CurvePattern::substring_gone, 0.4, 0));
  const double offset = 0.03 / std::sqrt(3.0);
  const CurveVector u = input_of(c, "voltmeter, offset").u;
  // Before 20.5 V were read at the terminals, after 13.4 V.
  CHECK_THAT(u[0], WithinRel(offset * (1.0 / 13.37 - 1.0 / 20.46), 0.02));
  CHECK(u[2] > u[0]);
}

TEST_CASE("curve_changes: another sun meter after the shots does not cancel") {
  Test test = test_for_curves();
  test.record.conditions.same_tools = false;
  const CurveChanges c = changes_of(test, drawn_curves(CurvePattern::shunt, 0.0, 0));
  CHECK_THAT(input_of(c, "sun meter, gain, before").u[1], WithinRel(0.05 / std::sqrt(3.0), 0.02));
  CHECK(std::sqrt(c.shared[1][1]) > 0.04);
  CHECK(std::any_of(c.assumed.begin(), c.assumed.end(), [](const std::string& s) {
    return s.find("another one after the shots") != std::string::npos;
  }));
}

TEST_CASE("curve_changes: scatter of repeats is pooled over both stages") {
  CurveReadings readings;
  const auto add = [](std::vector<CurveReading>& stage, double volts, double amps) {
    CurveReading r;
    r.sun = Irradiance::from_si(1000.0);
    r.back = TemperaturePoint::from_celsius(22.0);  // 25 degC in the cell
    r.open_circuit = Voltage::from_si(volts);
    r.short_circuit = Current::from_si(amps);
    stage.push_back(r);
  };
  for (const double e : {-0.01, 0.0, 0.01}) {
    add(readings.before, 20.0 * std::exp(e), 5.0);
    add(readings.after, 20.0 * std::exp(2.0 * e), 5.0);
  }
  const CurveChanges c = changes_of(test_for_curves(), readings);
  // Sum of squares 2e-4 + 8e-4 by 4 degrees of freedom; as a bivariate t 4/3 of it; means of three.
  CHECK_THAT(c.scatter[0][0], WithinRel(1e-3 / 4.0 * 4.0 / 3.0 * (2.0 / 3.0), 1e-6));
  CHECK(c.scatter[1][1] == Approx(0.0).margin(1e-15));
  CHECK(c.scatter_dof == 3.0);
  CHECK_FALSE(c.scatter_assumed);
  CHECK(c.scatter[0][1] == 0.0);
  // Without any scatter the steps of the displays stay.
  CHECK(c.shared[1][1] > 0.0);
  CHECK(c.read == std::vector<CurveFigure>{CurveFigure::open_voltage, CurveFigure::short_current});
}

TEST_CASE("curve_changes: too few repeats take the stated scatter and say so") {
  const CurveChanges c =
      changes_of(test_for_curves(), drawn_curves(CurvePattern::shunt, 0.0, 0, {1, 1, 0.0, 0.0}));
  CHECK(c.scatter_assumed);
  CHECK(std::isinf(c.scatter_dof));
  CHECK_THAT(c.scatter[0][0], WithinRel(2.0 * 0.005 * 0.005, 1e-9));
  CHECK_THAT(c.scatter[3][3], WithinRel(2.0 * 0.01 * 0.01, 1e-9));
}

TEST_CASE("curve_changes: ratings come from the panel, else from the readings before") {
  Test test = test_for_curves();
  const CurveReadings readings = drawn_curves(CurvePattern::shunt, 0.0, 0);
  CHECK(curve_ratings(test, readings).open_voltage->si() == 22.1);
  CHECK(*curve_ratings(test, readings).cells == 36);
  test.record.panel = Panel{};
  const CurveRatings read = curve_ratings(test, readings);
  CHECK_THAT(read.open_voltage->si(), WithinAbs(20.5, 0.2));
  CHECK_THAT(read.short_current->si(), WithinAbs(5.97, 0.05));
  CHECK(read.power.has_value());
  CHECK_FALSE(read.cells.has_value());
  CHECK_FALSE(read.substrings.has_value());
}

namespace {

bool curve_assumes(const CurveChanges& c, const std::string& begin) {
  return std::any_of(c.assumed.begin(), c.assumed.end(),
                     [&](const std::string& words) { return words.starts_with(begin); });
}

}  // namespace

TEST_CASE("curve_changes: what is stated is not assumed") {
  const CurveReadings readings = drawn_curves(CurvePattern::shunt, 0.0, 0);
  const std::vector<std::string> open{"sun meter: within 10 %",   "one day's sky",
                                      "drift between the stages", "thermometer: within",
                                      "thermometer, put on",      "cell above back"};
  Test test = test_for_curves();
  test.protocol.tools.sun = {};
  test.protocol.tools.thermometer = {};
  test.protocol.measure.compare = Comparison::same_panel;
  test.protocol.measure.cell_above_back.reset();
  test.record.panel.voltage_coefficient_stated.reset();
  const CurveChanges wide = changes_of(test, readings);
  for (const std::string& words : open) {
    CAPTURE(words);
    CHECK(curve_assumes(wide, words));
  }
  Stated<Irradiance> sun;
  sun.relative = percent(3);
  Stated<TemperatureDifference> probe;
  probe.absolute = TemperatureDifference::from_si(0.5);
  test.protocol.tools.sun.error = sun;
  test.protocol.tools.sun.between_stages = percent(0.3);
  test.protocol.tools.thermometer.error = probe;
  test.protocol.tools.thermometer.each_time = probe;
  test.protocol.measure.day = percent(0.4);
  test.protocol.measure.stage = percent(0.2);
  const StatedValue<TemperatureDifference> above{TemperatureDifference::from_si(2.5),
                                                 Shape::rectangular,
                                                 TemperatureDifference::from_si(0.5),
                                                 {}};
  test.protocol.measure.cell_above_back = above;
  const StatedValue<TemperatureCoefficient> beta{TemperatureCoefficient::from_si(-0.0029),
                                                 Shape::normal,
                                                 TemperatureCoefficient::from_si(0.0001),
                                                 {}};
  test.record.panel.voltage_coefficient = beta.value;
  test.record.panel.voltage_coefficient_stated = beta;
  const CurveChanges told = changes_of(test, readings);
  for (const std::string& words : open) {
    CAPTURE(words);
    CHECK_FALSE(curve_assumes(told, words));
  }
  CHECK_FALSE(curve_assumes(told, "temperature coefficient of the voltage"));
  CHECK_THAT(input_of(told, "sky of the day, before").u[1], WithinRel(0.004, 0.02));
  CHECK_THAT(input_of(told, "sun meter, drift, before").u[1],
             WithinRel(0.003 / std::sqrt(3.0), 0.02));
  // A day's sky that was stated for panels read together is not that of one panel.
  test.protocol.measure.compare = Comparison::control_panel;
  CHECK(curve_assumes(changes_of(test, readings), "one day's sky"));
  CHECK(curve_assumes(changes_of(test, readings), "drift between the stages"));
}

TEST_CASE("curve_changes: a figure read in one stage alone has no change") {
  CurveReadings readings = drawn_curves(CurvePattern::shunt, 0.0, 5);
  for (CurveReading& r : readings.after)
    r.current_at_maximum.reset();
  readings.before.front().at_maximum.reset();
  readings.before.back().open_circuit.reset();
  const CurveChanges c = changes_of(test_for_curves(), readings);
  CHECK(c.read == std::vector<CurveFigure>{CurveFigure::open_voltage, CurveFigure::short_current,
                                           CurveFigure::voltage_at_maximum});
  CHECK(c.change[3] == 0.0);
  CHECK(c.before[0] == 2);
  CHECK(c.before[2] == 2);
}

TEST_CASE("curve_changes: ratings that neither the panel nor the readings tell stay unknown") {
  Test test = test_for_curves();
  test.record.panel = Panel{};
  CurveReadings readings = drawn_curves(CurvePattern::shunt, 0.0, 0);
  const auto without = [&](auto CurveReading::*figure) {
    CurveReadings some = readings;
    for (CurveReading& r : some.before)
      (r.*figure).reset();
    return curve_ratings(test, some);
  };
  CHECK_FALSE(without(&CurveReading::open_circuit).open_voltage.has_value());
  CHECK_FALSE(without(&CurveReading::short_circuit).short_current.has_value());
  CHECK_FALSE(without(&CurveReading::at_maximum).power.has_value());
  CHECK_FALSE(without(&CurveReading::current_at_maximum).power.has_value());
  test.record.panel.rated_power = Power::from_si(100.0);
  CHECK(without(&CurveReading::at_maximum).power->si() == 100.0);
}
