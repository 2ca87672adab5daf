// What a comparison of powers must say when its readings are changed in a way whose effect is
// known.
#include <algorithm>
#include <cmath>

#include "support/catch.hpp"
#include "support/drawn_test.hpp"
#include "support/property.hpp"

namespace hailwright::testing {

namespace {

/// Rounding of logarithms of powers, and sums of some twenty of them.
constexpr double log_rounding = 1e-13;

/// The stage after the shots shows what the one before them did.
void repeat_before(Test& test) {
  const auto before = readings_of(test, StageKind::before);
  const auto after = readings_of(test, StageKind::after);
  for (std::size_t i = 0; i < after.size(); ++i) {
    Reading& r = test.record.readings[after[i]];
    const Reading& same = test.record.readings[before[i % before.size()]];
    r.power = same.power;
    r.irradiance = same.irradiance;
    r.temperature = same.temperature;
  }
}

/// As many set-ups after as before, so that one stage can stand for the other.
Test even_test(Draw& draw, const DrawnKind& kind) {
  Test test = drawn_test(draw, kind);
  const auto of = [&](StageKind stage) { return readings_of(test, stage).size(); };
  const StageKind longer =
      of(StageKind::before) > of(StageKind::after) ? StageKind::before : StageKind::after;
  const std::size_t fewer = std::min(of(StageKind::before), of(StageKind::after));
  while (of(longer) > fewer)
    test.record.readings.erase(test.record.readings.begin() +
                               static_cast<std::ptrdiff_t>(readings_of(test, longer).back()));
  return test;
}

void swap_stages(Test& test) {
  for (Setup& s : test.record.setups)
    s.stage.kind = s.stage.kind == StageKind::before ? StageKind::after : StageKind::before;
}

void must_be_alike(const PowerResult& a, const PowerResult& b, double tolerance) {
  must_be_close(a.estimate.lambda, b.estimate.lambda, tolerance, "lambda");
  must_be_close(a.estimate.expanded, b.estimate.expanded, tolerance, "half-width");
  must_be_close(a.estimate.low().si(), b.estimate.low().si(), tolerance, "lower end");
  must_be_close(a.estimate.high().si(), b.estimate.high().si(), tolerance, "upper end");
  must(a.answers == b.answers, "the answers are the same");
  must(a.usable() == b.usable(), "both can be used, or none");
}

}  // namespace

TEST_CASE("Property: the same readings before and after show no loss") {
  holds("the loss is 0 to rounding and its interval holds 0", [](Draw& draw) {
    Test test = even_test(draw, drawn_kind(draw));
    repeat_before(test);
    const PowerResult result = judged_briefly(test);
    must_be_close(result.estimate.loss().si(), 0.0, log_rounding, "loss");
    must(result.estimate.low() <= Ratio{} && result.estimate.high() >= Ratio{}, "0 lies within");
    must(!result.is_real() && !result.is_beyond() && !result.answers.gained, "no drop, no gain");
  });
}

// With the same instruments and the same number of set-ups in both stages.
TEST_CASE("Property: before and after exchanged turn lambda round and the loss into its inverse") {
  holds("lambda' is -lambda with the same u; each end of 1 - L' is 1 / (1 - the other end of L)",
        [](Draw& draw) {
          Test test = drawn_test(draw, drawn_kind(draw));
          const LossEstimate there = judged_briefly(test).estimate;
          swap_stages(test);
          const LossEstimate back = judged_briefly(test).estimate;
          must_be_close(back.lambda, -there.lambda, log_rounding, "lambda");
          must_be_close(back.u_lambda, there.u_lambda, log_rounding, "u");
          must_be_close(back.expanded, there.expanded, 1e-11, "half-width");
          const auto inverse = [](Ratio loss) { return 1.0 - 1.0 / (1.0 - loss.si()); };
          must_be_close(back.loss().si(), inverse(there.loss()), 1e-11, "loss");
          must_be_close(back.low().si(), inverse(there.high()), 1e-11, "lower end");
          must_be_close(back.high().si(), inverse(there.low()), 1e-11, "upper end");
        });
}

// A gain multiplies; what a meter shows wrong in watts weighs less on larger powers, so such errors
// are left out. Answers that rest on a bound in watts or W/m2 (M9) would hear of it, too.
TEST_CASE("Property: a gain error of the meter that stays the same changes nothing") {
  holds("all powers times k: same estimate, interval and answers", [](Draw& draw) {
    DrawnKind kind = drawn_kind(draw);
    kind.proportional = true;
    Test test = drawn_test(draw, kind);
    const PowerResult right = judged_briefly(test);
    const double k = draw.magnitude("gain", 0.5, 2.0);
    for (Reading& r : test.record.readings)
      multiply(r, k);
    must_be_alike(judged_briefly(test), right, 1e-11);
  });
}

// The cell's warmth over its back goes with the sun, so that only a sensor on the cell leaves the
// sun meter's gain nothing else to touch.
TEST_CASE("Property: a gain error of the sun meter that stays the same changes nothing") {
  holds("all irradiances times k: same estimate; same interval where nothing is stated in W/m2",
        [](Draw& draw) {
          Test test = drawn_test(draw, drawn_kind(draw));
          test.protocol.tools.thermometer.where = SensorPlace::cell;
          test.protocol.tools.sun.error->absolute = {};
          test.protocol.tools.sun.error->digits = 0.0;
          const PowerResult right = judged_briefly(test);
          const double k = draw.number("gain", 0.95, 1.05);
          for (Reading& r : test.record.readings)
            r.irradiance = k * r.irradiance;
          must_be_alike(judged_briefly(test), right, 1e-11);
        });
}

// Two meters, each with a gain of its own: that cancels as well, each with itself.
TEST_CASE("Property: with a meter for each panel each gain cancels by itself") {
  holds("the control's powers times k: same estimate, interval and answers", [](Draw& draw) {
    DrawnKind kind{Comparison::control_panel, draw.coin("stated scatter"), true};
    Test test = drawn_test(draw, kind);
    test.protocol.measure.meters = 2;
    const PowerResult right = judged_briefly(test);
    const double k = draw.magnitude("gain", 0.5, 2.0);
    for (Reading& r : test.record.readings) {
      if (r.role == Role::control) multiply(r, k);
    }
    must_be_alike(judged_briefly(test), right, 1e-11);
  });
}

}  // namespace hailwright::testing
