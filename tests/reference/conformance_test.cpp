// Probabilities of conformity and guard bands: JCGM 106:2012, and decisions about a loss. The text
// of JCGM 106 could not be opened: printed figures are from memory, and each agrees with the
// computed one beside it.
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>

#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/estimate.hpp"
#include "hailwright/metrology/loss_decision.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

double at_least(double value, double u, double bound) {
  return probability_at_least(value, u, infinite, bound);
}

/// Simpson's rule over an even number of steps.
double integral(const std::function<double(double)>& f, double from, double to) {
  constexpr int steps = 4000;
  const double h = (to - from) / steps;
  double sum = f(from) + f(to);
  for (int i = 1; i < steps; ++i)
    sum += (i % 2 == 1 ? 4.0 : 2.0) * f(from + i * h);
  return sum * h / 3.0;
}

double density(double x, double mean, double sd) {
  const double z = (x - mean) / sd;
  return std::exp(-0.5 * z * z) / (sd * std::sqrt(2.0 * std::numbers::pi));
}

/// Resistors of a production with known spread, each measured once with known uncertainty.
struct Resistors {
  double nominal, spread, u, low, high;

  /// Chance that one of this resistance is accepted by limits drawn in by `guard` on each side.
  [[nodiscard]] double accepted(double resistance, double guard) const {
    return at_least(resistance, u, low + guard) - at_least(resistance, u, high - guard);
  }
  /// Accepted though outside.
  [[nodiscard]] double consumer_risk(double guard) const {
    const auto f = [&](double r) { return density(r, nominal, spread) * accepted(r, guard); };
    return integral(f, nominal - 10.0 * spread, low) + integral(f, high, nominal + 10.0 * spread);
  }
  /// Refused though inside.
  [[nodiscard]] double producer_risk(double guard) const {
    return integral(
        [&](double r) { return density(r, nominal, spread) * (1.0 - accepted(r, guard)); }, low,
        high);
  }
};

/// The three cases of a loss and a limit of 5 %, as normal distributions of the loss.
void check_loss(double loss, double u, double beyond, double real) {
  CHECK_THAT(at_least(loss, u, 0.05), WithinAbs(beyond, 1e-9));
  CHECK_THAT(at_least(loss, u, 0.0), WithinAbs(real, 1e-9));
  // The tool makes the interval in lambda. For a loss at the limit both ways are one; elsewhere
  // they differ a little, by the curvature of the logarithm.
  const LossEstimate e =
      estimate_loss(std::log1p(-loss), {u / (1.0 - loss), infinite}, {0.0, infinite}, 0.025);
  CHECK_THAT(e.u_loss().si(), WithinRel(u, 1e-12));
  CHECK_THAT(e.probability_above(percent(5)), WithinAbs(beyond, 0.005));
}

}  // namespace

// 7.2, upper limit (breakdown voltage of a Zener diode). Status: memory; tolerance 0.005.
TEST_CASE("check jcgm106_zener: conformity with an upper limit", "[reference]") {
  const double conforming = 1.0 - at_least(-5.47, 0.05, -5.40);
  CHECK_THAT(conforming, WithinAbs(0.92, 0.005));
  CHECK_THAT(conforming, WithinAbs(0.9192433407662273, 1e-12));
}

// 7.2, lower limit (a container's contents). Status: memory; tolerance 0.0005.
TEST_CASE("check jcgm106_container: conformity with a lower limit", "[reference]") {
  CHECK_THAT(at_least(507.5, 10.0, 490.0), WithinAbs(0.960, 0.0005));
  CHECK_THAT(at_least(507.5, 10.0, 490.0), WithinAbs(0.9599408431361829, 1e-12));
}

// 7.3, table 1. Status: memory; tolerance 0.005.
TEST_CASE("check jcgm106_table1: one-sided quantiles for a conformance probability",
          "[reference]") {
  const double conforming[] = {0.80, 0.90, 0.95, 0.99, 0.999};
  const double printed[] = {0.84, 1.28, 1.64, 2.33, 3.09};
  const double computed[] = {0.8416212335729143, 1.2815515655446004, 1.6448536269514722,
                             2.3263478740408408, 3.090232306167813};
  for (int i = 0; i < 5; ++i) {
    CAPTURE(conforming[i]);
    CHECK_THAT(normal_quantile(conforming[i]), WithinAbs(printed[i], 0.005));
    CHECK_THAT(normal_quantile(conforming[i]), WithinAbs(computed[i], 1e-12));
    CHECK_THAT(normal_cdf(-normal_quantile(conforming[i])), WithinAbs(1.0 - conforming[i], 1e-14));
  }
}

// 8.3.3, guarded rejection: the measured speed above which a limit of 100 was exceeded with a
// probability of 0.999, at a relative u of 2 %. Status: memory; tolerance 0.5.
TEST_CASE("check jcgm106_speed: a limit shown to be exceeded", "[reference]") {
  double low = 100.0;
  double high = 120.0;
  for (int i = 0; i < 100; ++i) {
    const double v = 0.5 * (low + high);
    (at_least(v, 0.02 * v, 100.0) < 0.999 ? low : high) = v;
  }
  CHECK_THAT(low, WithinAbs(107.0, 0.5));
  CHECK_THAT(low, WithinAbs(106.5876094853783, 1e-9));
}

// 8.3.2: a guard band w = U = 2 u accepts a bad one at most once in 44. Status: read, in ILAC-G8 as
// two laboratories reproduce it (below 2.5 %); tolerance 0.0005. The tool's guard is t u at its own
// risk and not 2 u: with 2 degrees of freedom 2 u would leave 9.2 % (MEASUREMENT M4).
TEST_CASE("check jcgm106_w2u: the risk that a guard band of 2 u leaves", "[reference]") {
  const double limit = 5.0;
  const double u = 0.7;
  CHECK_THAT(at_least(limit - 2.0 * u, u, limit), WithinAbs(0.023, 0.0005));
  CHECK_THAT(at_least(limit - 2.0 * u, u, limit), WithinAbs(0.022750131948179195, 1e-12));
  CHECK_THAT(probability_at_least(limit - 2.0 * u, u, 2.0, limit), WithinAbs(0.092, 0.0005));
  const double guard = t_quantile(0.975, 2.0) * u;
  CHECK_THAT(probability_at_least(limit - guard, u, 2.0, limit), WithinAbs(0.025, 1e-12));
}

// 9.5, resistors. Status: memory (10 %, 1 %, 7 %); printed tolerance 0.005, computed 1e-6 relative;
// integrated again with R.
TEST_CASE("check jcgm106_resistor: risks of both sides with and without a guard band",
          "[reference]") {
  const Resistors lot{1500.0, 0.12, 0.04, 1499.8, 1500.2};
  const double outside = 2.0 * normal_cdf(-0.2 / 0.12);
  CHECK_THAT(outside, WithinAbs(0.096, 0.005));
  CHECK_THAT(lot.consumer_risk(0.0), WithinRel(0.01894220671709216, 1e-6));
  CHECK_THAT(lot.producer_risk(0.0), WithinRel(0.037207800177953596, 1e-6));
  const double guard = 0.02;
  CHECK_THAT(lot.consumer_risk(guard), WithinAbs(0.01, 0.005));
  CHECK_THAT(lot.producer_risk(guard), WithinAbs(0.07, 0.005));
  CHECK_THAT(lot.consumer_risk(guard), WithinRel(0.009878291521749922, 1e-6));
  CHECK_THAT(lot.producer_risk(guard), WithinRel(0.0690265104613329, 1e-6));
}

// Normal distributions of the loss. Status: computed; tolerance 1e-9.
TEST_CASE("check decision_62_5: a loss of 6.2 % known to 0.5 %", "[reference]") {
  check_loss(0.062, 0.005, 0.9918024640754038, 1.0);
}

TEST_CASE("check decision_30_8: a loss of 3.0 % known to 0.8 %", "[reference]") {
  check_loss(0.03, 0.008, 0.006209665325776123, 0.9999115827147992);
}

TEST_CASE("check decision_50_10: a loss exactly at the limit", "[reference]") {
  check_loss(0.05, 0.01, 0.5, 0.9999997133484281);
}

// IEC 61215-1:2021, 7.2.3 (Gate No. 2): P after >= 0.95 P before (1 - r / 100), r at most 1.0 % for
// crystalline silicon. Status: memory; the clause's title was read, the inequality not. Tolerance
// 1e-9. The reproducibility r of a laboratory is no allowance for a test at home: there the limit
// stays 5 %, and the measured uncertainty guards it.
TEST_CASE("check iec_gate2: the largest apparent loss of a laboratory", "[reference]") {
  const double before = 100.0;
  const double limit_W = 0.95 * before * (1.0 - 1.0 / 100.0);
  CHECK_THAT(limit_W, WithinAbs(94.05, 1e-9));
  const LossEstimate exact =
      estimate_loss(std::log(limit_W / before), {0.0, infinite}, {0.0, infinite}, 0.025);
  CHECK_THAT(100.0 * exact.loss().si(), WithinAbs(5.95, 1e-9));
  CHECK(decide_loss(exact, percent(5.95 + 1e-9)).beyond == Answer::no);
  CHECK(decide_loss(exact, percent(5.95 - 1e-9)).beyond == Answer::yes);
  CHECK(decide_loss(exact, percent(5)).beyond == Answer::yes);
}
