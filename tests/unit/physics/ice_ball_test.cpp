#include "hailwright/physics/ice_ball.hpp"

#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/tables/hailstones.hpp"
#include "support/catch.hpp"

using namespace hailwright;

// Target masses at 917 kg/m3, computed beforehand and rounded.
TEST_CASE("mass of a sphere") {
  struct Row {
    double mm, g;
  };
  for (const Row& r :
       {Row{25, 7.50}, Row{35, 20.6}, Row{45, 43.8}, Row{55, 79.9}, Row{75, 202.6}}) {
    CAPTURE(r.mm);
    const auto m = mass_of_sphere({Length::from_si(r.mm / 1000)}, {IceDensity::nominal});
    CHECK_THAT(m.value.si() * 1000, WithinAbs(r.g, r.g < 10 ? 0.005 : 0.06));
  }
}

TEST_CASE("one per cent of diameter is three per cent of mass and of density") {
  const Estimate<Length> d{Length::from_si(0.025), Length::from_si(0.00025)};
  CHECK_THAT(mass_of_sphere(d, {IceDensity::nominal}).relative_u(), WithinRel(0.03, 1e-12));
  CHECK_THAT(implied_density({Mass::from_si(0.0075)}, d).relative_u(), WithinRel(0.03, 1e-12));
}

// A maker's published shots, read as a secondary source: 34.40 mm with 20.444 g cannot be ice.
TEST_CASE("implied density") {
  const auto heavy = implied_density({Mass::from_si(0.020444)}, {Length::from_si(0.03440)});
  CHECK_THAT(heavy.value.si(), WithinAbs(959, 0.5));
  CHECK_FALSE(believable_ice(heavy.value));
  const auto fine = implied_density({Mass::from_si(0.020497)}, {Length::from_si(0.03510)});
  CHECK_THAT(fine.value.si(), WithinAbs(905, 0.5));
  CHECK(believable_ice(fine.value));
}

// Computed beforehand: 60 s in a light wind (h = 25), air 22 K over the ball.
TEST_CASE("the most that melts in a minute") {
  const auto share = [](double mm) {
    return largest_melt(Time::from_si(60), Length::from_si(mm / 1000),
                        TemperaturePoint::from_celsius(22))
               .si() *
           100;
  };
  CHECK_THAT(share(25), WithinAbs(2.6, 0.05));
  CHECK_THAT(share(45), WithinAbs(1.4, 0.05));
  CHECK_THAT(share(75), WithinAbs(0.9, 0.05));
}

TEST_CASE("nothing melts in the frost, and never more than everything") {
  const Length d = Length::from_si(0.025);
  CHECK(largest_melt(Time::from_si(600), d, TemperaturePoint::from_celsius(-5)).si() == 0.0);
  CHECK(largest_melt(Time::from_si(1e6), d, TemperaturePoint::from_celsius(30)).si() == 1.0);
  CHECK_THROWS_AS(largest_melt(Time::from_si(-1), d, TemperaturePoint::from_celsius(30)), BugError);
}

namespace {

const BallLimits iec_25 = ball_limits(Mass::from_si(0.00753), Length::from_si(0.025), percent(5));

Length mm(double value) {
  return Length::from_si(value / 1000);
}

BallCheck checked(std::optional<double> grams, std::vector<Length> diameters,
                  std::optional<bool> crack = false) {
  BallMeasured ball;
  if (grams) ball.mass = Mass::from_si(*grams / 1000);
  ball.diameters = std::move(diameters);
  ball.crack = crack;
  return check_ball(ball, iec_25);
}

}  // namespace

TEST_CASE("ball check: a good ball") {
  const BallCheck c = checked(7.5, {mm(25.0), mm(25.2), mm(24.8)});
  CHECK(c.accepted());
  CHECK(c.doubts.empty());
  CHECK_THAT(c.diameter->si(), WithinRel(0.025, 1e-12));
  CHECK_THAT(c.roundness->si(), WithinRel(0.4 / 25.0, 1e-9));
  CHECK_THAT(c.density->si(), WithinAbs(917, 1));
}

TEST_CASE("ball check: each reason by itself") {
  using Faults = std::vector<BallFault>;
  const std::vector<Length> round{mm(25), mm(25)};
  CHECK(checked(7.5, round, true).rejects == Faults{BallFault::cracked});
  CHECK(checked(7.1, round).rejects == Faults{BallFault::too_light});
  CHECK(checked(7.95, round).rejects == Faults{BallFault::too_heavy});
  CHECK(checked(7.2, {mm(23.7), mm(23.7)}).rejects == Faults{BallFault::too_small});
  CHECK(checked(7.9, {mm(26.3), mm(26.3)}).rejects == Faults{BallFault::too_large});
  CHECK(checked(7.5, {mm(24.3), mm(25.7)}).rejects == Faults{BallFault::not_round});
  CHECK(checked(7.5, {}).rejects == Faults{BallFault::no_diameter});
}

TEST_CASE("ball check: several reasons come together") {
  const BallCheck c = checked(6.0, {mm(22.0), mm(25.0)}, true);
  CHECK(c.rejects == std::vector{BallFault::cracked, BallFault::too_small, BallFault::not_round,
                                 BallFault::too_light});
}

TEST_CASE("ball check: what was not looked at is a doubt, not a reason") {
  using Faults = std::vector<BallFault>;
  const BallCheck unweighed = checked({}, {mm(25), mm(25)});
  CHECK(unweighed.accepted());
  CHECK(unweighed.doubts == Faults{BallFault::no_mass});
  CHECK_FALSE(unweighed.density.has_value());
  const BallCheck one = checked(7.5, {mm(25)});
  CHECK(one.accepted());
  CHECK(one.doubts == Faults{BallFault::one_diameter});
  CHECK_FALSE(one.roundness.has_value());
  const BallCheck unseen = checked(7.5, {mm(25), mm(25)}, std::nullopt);
  CHECK(unseen.accepted());
  CHECK(unseen.doubts == Faults{BallFault::crack_not_checked});
}

TEST_CASE("ball check: a density that ice has not is a doubt") {
  const BallCheck airy = checked(7.2, {mm(25.4), mm(25.4)});
  CHECK(airy.accepted());
  CHECK(airy.doubts == std::vector{BallFault::not_like_ice});
}

TEST_CASE("ball check: the ends of the limits are inside") {
  const Mass least = iec_25.mass_low;
  CHECK(check_ball({least, {mm(25), mm(25)}, false}, iec_25).accepted());
  CHECK(check_ball({least, {iec_25.diameter_low, iec_25.diameter_low}, false}, iec_25).accepted());
  // (25.625 - 24.375) / 25: 5 % in numbers that a double holds exactly.
  CHECK_THAT(roundness({Length::from_si(24.375), Length::from_si(25.625)})->si(),
             WithinAbs(0.05, 1e-15));
}

TEST_CASE("ball check: promises of the caller") {
  CHECK_THROWS_AS(checked(7.5, {mm(25), mm(0)}), BugError);
  CHECK_THROWS_AS(checked(0.0, {mm(25)}), BugError);
  CHECK_THROWS_AS(ball_limits(Mass{}, mm(25), percent(5)), BugError);
  CHECK_THROWS_AS(ball_limits(Mass::from_si(0.0075), mm(25), percent(100)), BugError);
}

// After one time constant 1 - 1/e of the way is gone, after three 95 % (definition).
TEST_CASE("a ball warms by its time constant") {
  const Time tau = warming_time(mm(25));
  CHECK_THAT(warmed_share(tau, mm(25)).si(), WithinRel(1.0 - std::exp(-1.0), 1e-12));
  CHECK_THAT(warmed_share(3.0 * tau, mm(25)).si(), WithinAbs(0.950, 0.0005));
  CHECK(warmed_share(Time{}, mm(25)).si() == 0.0);
  CHECK_THAT(warming_time(mm(75)).si(), WithinRel(3.0 * tau.si(), 1e-12));
  CHECK_THROWS_AS(warmed_share(Time::from_si(-1), mm(25)), BugError);
  CHECK_THROWS_AS(warming_time(Length{}), BugError);
}

TEST_CASE("diameter for a mass") {
  CHECK_THAT(diameter_share(Ratio::from_si(0.331)).si(), WithinRel(0.1, 1e-12));  // 1.1^3
  CHECK(diameter_share(Ratio{}).si() == 0.0);
  CHECK_THROWS_AS(diameter_share(Ratio::from_si(-1.0)), BugError);
}
