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
