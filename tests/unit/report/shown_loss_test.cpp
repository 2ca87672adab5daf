#include "report/shown_loss.hpp"

#include <cmath>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// A result with this loss, standard uncertainty and half-width, in per cent; the interval is
/// symmetric in lambda.
PowerResult result(double loss, double u, double half_width) {
  PowerResult p;
  p.limit = percent(5);
  p.estimate.lambda = std::log1p(-loss / 100.0);
  p.estimate.u_lambda = u / 100.0 / (1.0 - loss / 100.0);
  p.estimate.expanded = half_width / 100.0;
  p.estimate.degrees_of_freedom = 40.0;
  return p;
}

PowerResult checked(PowerResult p, int agreed_digits) {
  p.check.emplace();
  p.check->agreed_digits = agreed_digits;
  return p;
}

}  // namespace

TEST_CASE("shown loss: tenths of a per cent where the uncertainty is below one") {
  CHECK(interval_text(result(0.71, 0.72, 1.45)) == "0.7 % (95 %: -0.7 % to 2.1 %)");
  CHECK(loss_decimals(checked(result(0.71, 0.72, 1.45), 1)) == 1);
}

// JCGM 101:2008, clause 8: agreement at one digit of u says nothing of the second.
TEST_CASE("shown loss: one digit of the uncertainty where the trials agree to one alone") {
  const PowerResult coarse = result(7.4, 2.3, 4.6);
  CHECK(loss_decimals(coarse) == 1);
  CHECK(loss_decimals(checked(coarse, 2)) == 1);
  CHECK(loss_decimals(checked(coarse, 1)) == 0);
  CHECK(loss_decimals(checked(coarse, 0)) == 0);
  CHECK(interval_text(checked(coarse, 1)) == "7 % (95 %: 3 % to 12 %)");
}

TEST_CASE("shown loss: a rounding up to the next power of ten counts") {
  CHECK(loss_decimals(checked(result(3.0, 0.949, 1.3), 1)) == 1);
  CHECK(loss_decimals(checked(result(3.0, 0.951, 1.3), 1)) == 0);
  CHECK(loss_decimals(checked(result(1.0, 0.04, 0.08), 1)) == 2);
}

TEST_CASE("shown loss: an end never seems to lie on another side of 0 or of the limit") {
  // 4.98 % to one decimal is the limit itself; without the second the answer "within" looks
  // like luck.
  const PowerResult below = result(3.55, 0.72, 1.4723);
  REQUIRE_THAT(below.estimate.high().si(), WithinAbs(0.0496, 0.0001));
  CHECK(ends_text(below.estimate.low(), below.estimate.high(), below) == "2.12 % to 4.96 %");
  const PowerResult above_zero = result(1.45, 0.72, 1.425);
  CHECK_THAT(interval_text(above_zero), Contains("(95 %: 0.04 % to 2.84 %)"));
}

// Found by review: the ends of the random trials were rounded onto the limit.
TEST_CASE("shown loss: an end of the random trials does not seem to lie on the limit either") {
  PowerResult p = checked(result(0.7, 0.72, 1.45), 2);
  p.limit = percent(2.2);
  p.check->low = percent(-0.75);
  p.check->high = percent(2.13);
  CHECK(loss_decimals(p) == 1);
  p.check->high = percent(2.21);
  CHECK(ends_text(p.check->low, p.check->high, p) == "-0.75 % to 2.21 %");
  CHECK(telling_decimals({percent(0.004)}, percent(5), 1) == 3);
  CHECK(telling_decimals({percent(0.3)}, percent(5), 1) == 1);
}

// Found by review: a panel of 1 W lost 0.0 W of 1 W.
TEST_CASE("shown loss: watts to two digits of the uncertainty") {
  const PowerResult p = result(3.0, 0.72, 1.45);
  CHECK(watts_decimals(p, Power::from_si(1.0)) == 4);
  CHECK(watts_decimals(p, Power::from_si(100.0)) == 2);
  CHECK(watts_decimals(p, Power::from_si(300.0)) == 1);
  CHECK(watts_decimals(checked(p, 1), Power::from_si(300.0)) == 0);
  CHECK(watts_decimals(result(3.0, 0.0, 0.0), Power::from_si(300.0)) == 1);
}

// Found by review: 0.000 W of 0.000 W, and a panel of 0.486 W that had 0.5 W beside its price.
TEST_CASE("shown loss: the power of a very small panel keeps its digits") {
  const PowerResult unknown = result(1.0, 5000.0, 10000.0);
  CHECK(watts_decimals(unknown, Power::from_si(7.7e-5)) == 6);
  CHECK(watts_decimals(unknown, Power::from_si(0.5)) == 2);
  CHECK(power_decimals(Power::from_si(0.486), percent(3)) == 3);
  CHECK(power_decimals(Power::from_si(97.2), percent(3)) == 1);
  CHECK(power_decimals(Power::from_si(970.0), percent(3)) == 1);
  CHECK(power_decimals(Power::from_si(97.2), Ratio{}) == 1);
  CHECK(power_decimals(Power::from_si(7.7e-5), Ratio::from_si(2251.87)) == 6);
}

TEST_CASE("shown loss: nothing uncertain") {
  CHECK(interval_text(result(2.0, 0.0, 0.0)) == "2.0 % (95 %: 2.0 % to 2.0 %)");
}
