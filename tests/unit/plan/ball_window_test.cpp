// Which weighed balls to throw (MEASUREMENT M10), held against the rule that judge applies to them.
#include "hailwright/plan/ball_window.hpp"

#include "hailwright/core/contract.hpp"
#include "hailwright/evaluate/delivery.hpp"
#include "hailwright/plan/delivery_aim.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

Target iec_25() {
  Target t;
  t.diameter = Length::from_si(0.025);
  t.mass = Mass::from_si(0.00753);
  t.speed = Speed::from_si(23.0);
  return t;
}

/// Scales with these standard uncertainties, calipers of 0.3 mm.
BallMeasuring measuring(double share, double grams, double largest_melt = 0.0) {
  BallMeasuring m;
  m.scales.shape = Shape::normal;
  m.scales.relative = Ratio::from_si(share);
  m.scales.absolute = Mass::from_si(grams / 1000);
  m.calipers.absolute = Length::from_si(0.0003);
  m.largest_melt = Ratio::from_si(largest_melt);
  return m;
}

constexpr double z95 = 1.6448536269514722;  // one-sided 95 %, any table of the normal distribution

/// What judge says to the mass of a ball that the scales showed, in a record of its own.
HitSides judged(Mass shown, const BallMeasuring& m, double air_celsius) {
  TestBuilder b;
  b.test.protocol.tools.scales.error = m.scales;
  b.test.protocol.tools.scales.step = m.scales_step;
  b.test.record.air = TemperaturePoint::from_celsius(air_celsius);
  for (Shot& s : b.test.record.shots) {
    s.mass = shown;
    s.diameters = {Length::from_si(0.025)};
    s.out = Time::from_si(60);
  }
  Assumptions assumptions;
  const SeriesDelivery d = judge_delivery(b.build(), assumptions).at(0);
  const Target& target = b.test.protocol.series[0].target;
  return compare_quantity(*d.shots.at(0).mass, target.mass, d.tolerance);
}

}  // namespace

TEST_CASE("ball_window: exact scales leave the whole tolerance") {
  const BallWindow w = ball_window(iec_25(), percent(5), measuring(0.0, 0.0));
  CHECK_THAT(w.mass_low.si(), WithinRel(0.95 * 0.00753, 1e-12));
  CHECK_THAT(w.mass_high.si(), WithinRel(1.05 * 0.00753, 1e-12));
  CHECK_THAT(w.mass_aim.si(), WithinRel(0.00753, 1e-12));
  CHECK_THAT(w.diameter_low.si(), WithinRel(0.02375, 1e-12));
  CHECK_THAT(w.diameter_high.si(), WithinRel(0.02625, 1e-12));
  CHECK(w.both_sides);
  CHECK(w.scales_suffice);
}

// The rule as it was set: mass_low = 0.95 m0 + 1.645 u.
TEST_CASE("ball_window: a constant error is added once to the lower end") {
  const BallWindow w = ball_window(iec_25(), percent(5), measuring(0.0, 0.05));
  CHECK_THAT(w.mass_low.si(), WithinRel(0.95 * 0.00753 + z95 * 0.00005, 1e-12));
  CHECK_THAT(w.mass_high.si(), WithinRel(1.05 * 0.00753 - z95 * 0.00005, 1e-12));
}

TEST_CASE("ball_window: a share of the reading grows with it") {
  const BallWindow w = ball_window(iec_25(), percent(5), measuring(0.01, 0.0));
  CHECK_THAT(w.mass_low.si(), WithinRel(0.95 * 0.00753 / (1.0 - z95 * 0.01), 1e-12));
  CHECK_THAT(w.mass_high.si(), WithinRel(1.05 * 0.00753 / (1.0 + z95 * 0.01), 1e-12));
}

// judge itself is the check: just inside the window it shows both sides, just outside one is lost.
TEST_CASE("ball_window: the ends are where judge changes its mind") {
  const double air = 22.0;
  BallMeasuring m = measuring(0.004, 0.03);
  m.scales.shape = Shape::rectangular;
  m.scales.digits = 1;
  m.scales_step = Mass::from_si(0.00001);
  m.largest_melt =
      largest_melt(Time::from_si(60), Length::from_si(0.025), TemperaturePoint::from_celsius(air));
  Target target = iec_25();
  target.mass = TestBuilder().test.protocol.series[0].target.mass;
  const BallWindow w = ball_window(target, percent(5), m);
  REQUIRE(w.both_sides);
  CHECK(judged(w.mass_low * 1.000001, m, air).not_weaker);
  CHECK_FALSE(judged(w.mass_low * 0.999999, m, air).not_weaker);
  CHECK(judged(w.mass_high * 0.999999, m, air).not_stronger);
  CHECK_FALSE(judged(w.mass_high * 1.000001, m, air).not_stronger);
  CHECK(judged(w.mass_aim, m, air).not_weaker);
  CHECK(judged(w.mass_aim, m, air).not_stronger);
}

TEST_CASE("ball_window: melting moves the window up") {
  const BallWindow dry = ball_window(iec_25(), percent(5), measuring(0.0, 0.0));
  const BallWindow wet = ball_window(iec_25(), percent(5), measuring(0.0, 0.0, 0.026));
  CHECK(wet.mass_low > dry.mass_low / (1.0 - 0.013));
  CHECK(wet.mass_high < dry.mass_high / (1.0 - 0.013));
  CHECK(wet.mass_aim > dry.mass_aim);
}

TEST_CASE("ball_window: coarse scales cost first the upper side, then everything") {
  // 4 % each way: 0.95 / (1 - 0.0658) = 1.017 and 1.05 / (1 + 0.0658) = 0.985 of the mass.
  const BallWindow one_side = ball_window(iec_25(), percent(5), measuring(0.04, 0.0));
  CHECK_FALSE(one_side.both_sides);
  CHECK(one_side.scales_suffice);
  CHECK_THAT(one_side.mass_high.si(), WithinRel(1.05 * 0.00753, 1e-12));
  CHECK_THAT(one_side.mass_low.si(), WithinRel(0.95 * 0.00753 / (1.0 - z95 * 0.04), 1e-12));
  const BallWindow melting = ball_window(iec_25(), percent(5), measuring(0.04, 0.0, 0.02));
  CHECK_THAT(melting.mass_high.si(), WithinRel(1.05 * 0.00753 / 0.99, 1e-12));
  CHECK_FALSE(ball_window(iec_25(), percent(5), measuring(0.0, 1.0)).scales_suffice);
  CHECK_FALSE(ball_window(iec_25(), percent(5), measuring(0.7, 0.0)).scales_suffice);
}

TEST_CASE("ball_window: calipers to half the tolerance") {
  BallMeasuring m = measuring(0.0, 0.0);
  CHECK(ball_window(iec_25(), percent(5), m).calipers_suffice);
  m.calipers.absolute = Length::from_si(0.0011);  // rectangular: u = 0.635 mm of 25 mm, 2.54 %
  CHECK_FALSE(ball_window(iec_25(), percent(5), m).calipers_suffice);
}

TEST_CASE("ball_window: what it lets through, check_ball lets through") {
  const BallWindow w = ball_window(iec_25(), percent(5), measuring(0.005, 0.0));
  BallMeasured ball{w.mass_aim, {Length::from_si(0.0250), Length::from_si(0.0251)}, false};
  CHECK(check_ball(ball, w.limits()).accepted());
  ball.mass = w.mass_low * 0.999;
  CHECK(check_ball(ball, w.limits()).rejects == std::vector{BallFault::too_light});
}

TEST_CASE("ball_window: the same window as in the simulation of where to aim") {
  DeliveryQuestion q;
  q.places = 3;
  q.mass_shared_u = 0.01;
  q.each_ball_weighed = true;
  q.each_shot_measured = true;
  const BallWindow w = ball_window(iec_25(), percent(5), measuring(0.01, 0.0));
  CHECK_THAT(find_delivery_aim(q).mass_aim, WithinRel(w.mass_aim.si() / 0.00753, 1e-12));
}

TEST_CASE("ball_window: promises of the caller") {
  CHECK_THROWS_AS(ball_window(iec_25(), Ratio{}, measuring(0.0, 0.0)), BugError);
  CHECK_THROWS_AS(ball_window(iec_25(), percent(5), measuring(0.0, 0.0, 1.5)), BugError);
}
