#include "hailwright/evaluate/loss_pattern.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/curve_readings.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("loss_pattern: nothing without figures of the curve") {
  CHECK_FALSE(find_loss_pattern(test_for_curves()));
}

TEST_CASE("loss_pattern: a third of the voltage gone is one substring of three") {
  Test test = test_for_curves();
  test.record.curves = drawn_curves(CurvePattern::substring_gone, 0.45, 11);
  const auto p = find_loss_pattern(test);
  REQUIRE(p);
  CHECK(p->word == PatternWord::named);
  CHECK(p->named == std::vector{CurvePattern::substring_gone});
  CHECK(times_better(p->fits.front(), p->no_change()) > 1e6);
  CHECK(p->left_out.empty());
}

TEST_CASE("loss_pattern: without substrings that pattern is left out, and none fits") {
  Test test = test_for_curves();
  test.record.panel.substrings.reset();
  test.record.curves = drawn_curves(CurvePattern::substring_gone, 0.45, 11);
  const auto p = find_loss_pattern(test);
  REQUIRE(p);
  CHECK(p->left_out == std::vector{CurvePattern::substring_gone});
  CHECK(p->word == PatternWord::none_fits);
}

TEST_CASE("loss_pattern: a panel of which nothing is known is weighed all the same") {
  Test test;
  test.record.curves = drawn_curves(CurvePattern::series_resistance, 0.6, 4);
  test.record.conditions.same_tools = true;
  const auto p = find_loss_pattern(test);
  REQUIRE(p);
  CHECK(p->panel.cells_assumed);
  CHECK_FALSE(p->assumed.empty());
  CHECK(p->fits.front().pattern == CurvePattern::series_resistance);
}

TEST_CASE("loss_pattern: power by the curve against the loss judged") {
  LossPattern p;
  p.power = CurvePower{std::log(0.95), 0.01, {}, {}};
  PowerResult power;
  power.estimate.lambda = std::log(0.94);
  power.estimate.u_lambda = 0.005;
  CHECK(agrees_with_power(p, power) == true);
  power.estimate.lambda = std::log(0.90);
  CHECK(agrees_with_power(p, power) == false);
  power.obstacle = PowerObstacle::no_reading_before;
  CHECK_FALSE(agrees_with_power(p, power));
  p.power.reset();
  CHECK_FALSE(agrees_with_power(p, PowerResult{}));
}

TEST_CASE("loss_pattern: figures read before the shots alone have no pattern") {
  Test test = test_for_curves();
  test.record.curves = drawn_curves(CurvePattern::shunt, 0.3, 5);
  test.record.curves->after.clear();
  CHECK_FALSE(find_loss_pattern(test));
}

TEST_CASE("loss_pattern: readings that all agree rest on the instruments alone") {
  Test test = test_for_curves();
  CurveReadings readings = drawn_curves(CurvePattern::substring_gone, 0.45, 0);
  readings.before.assign(4, CurveReading(readings.before.front()));
  readings.after.assign(4, CurveReading(readings.after.front()));
  test.record.curves = readings;
  const auto p = find_loss_pattern(test);
  REQUIRE(p);
  CHECK(p->word == PatternWord::named);
  for (const CurveChange& c : p->changes) {
    CHECK(c.standard_u > 0.0);
    CHECK(c.low < c.high);
  }
}

TEST_CASE("loss_pattern: a voltage that was not read, or fell, was not kept") {
  Test test = test_for_curves();
  test.record.curves = drawn_curves(CurvePattern::series_resistance, 0.3, 7);
  REQUIRE(find_loss_pattern(test)->voltage_kept);
  for (auto* stage : {&test.record.curves->before, &test.record.curves->after}) {
    for (CurveReading& r : *stage)
      r.open_circuit.reset();
  }
  CHECK(find_loss_pattern(test)->power->high < Ratio{});
  CHECK_FALSE(find_loss_pattern(test)->voltage_kept);
  test.record.curves = drawn_curves(CurvePattern::series_resistance, 0.3, 7);
  for (CurveReading& r : test.record.curves->after)
    r.open_circuit = *r.open_circuit * 1.3;
  CHECK_FALSE(find_loss_pattern(test)->voltage_kept);
}

TEST_CASE("loss_pattern: without the current at maximum there is no power by the curve") {
  Test test = test_for_curves();
  test.record.curves = drawn_curves(CurvePattern::series_resistance, 0.3, 7);
  for (auto* stage : {&test.record.curves->before, &test.record.curves->after}) {
    for (CurveReading& r : *stage)
      r.current_at_maximum.reset();
  }
  CHECK_FALSE(find_loss_pattern(test)->power.has_value());
}

// Hail adds nothing: a gain that the instruments cannot explain is no pattern of loss.
TEST_CASE("loss_pattern: what only rises fits nothing") {
  Test test = test_for_curves();
  test.record.curves = drawn_curves(CurvePattern::shunt, 0.0, 0);
  for (CurveReading& r : test.record.curves->after) {
    r.open_circuit = *r.open_circuit * 1.5;
    r.at_maximum = *r.at_maximum * 1.5;
  }
  const auto p = find_loss_pattern(test);
  REQUIRE(p);
  CHECK(p->word == PatternWord::none_fits);
  CHECK(p->named.empty());
}
