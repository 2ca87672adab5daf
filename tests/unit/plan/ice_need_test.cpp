// How many balls to freeze (MEASUREMENT M13) and how long it takes.
#include "hailwright/plan/ice_need.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

Tally tally(int good, int tried) {
  return {{}, tried, good};
}

FreezingTime freezing(double mm, double celsius = -18.0) {
  const auto time =
      freezing_time(Length::from_si(mm / 1000), TemperaturePoint::from_celsius(celsius));
  REQUIRE(time.has_value());
  return *time;
}

constexpr double hour_s = 3600.0;

}  // namespace

// The three cases of MEASUREMENT M13.
TEST_CASE("ice_need: balls to freeze for eleven hits") {
  CHECK(balls_to_freeze(11, tally(8, 10), tally(18, 20)) == 23);
  CHECK(balls_to_freeze(11, tally(4, 5), tally(10, 10)) == 24);
  CHECK(balls_to_freeze(11, tally(18, 20), tally(18, 20)) == 18);
}

// Computed beforehand with exact fractions (Python 3.11, fractions.Fraction): the double sum over
// the balls that can be thrown and the hits among them, beta-binomial both.
TEST_CASE("ice_need: the chance of hits against exact fractions") {
  const auto chance = [](int balls, int wanted, Tally tried, Tally made) {
    return chance_of_hits(balls, wanted, tried, made);
  };
  CHECK_THAT(chance(22, 11, tally(8, 10), tally(18, 20)), WithinAbs(0.896045770269446, 1e-12));
  CHECK_THAT(chance(23, 11, tally(8, 10), tally(18, 20)), WithinAbs(0.917266365822286, 1e-12));
  CHECK_THAT(chance(23, 11, tally(4, 5), tally(10, 10)), WithinAbs(0.898615831152256, 1e-12));
  CHECK_THAT(chance(24, 11, tally(4, 5), tally(10, 10)), WithinAbs(0.913134221455438, 1e-12));
  CHECK_THAT(chance(17, 11, tally(18, 20), tally(18, 20)), WithinAbs(0.877978970108772, 1e-12));
  CHECK_THAT(chance(5, 3, tally(1, 4), tally(0, 2)), WithinAbs(0.011428833007812, 1e-12));
}

// One ball: the product of the two means of the shares, (8 + 1/2)/11 and (18 + 1/2)/21.
TEST_CASE("ice_need: one ball hits with the product of the mean shares") {
  CHECK_THAT(chance_of_hits(1, 1, tally(8, 10), tally(18, 20)),
             WithinRel(8.5 / 11.0 * 18.5 / 21.0, 1e-13));
}

// X ~ Bin(N, p_hit p_ok) (M13): with endless tallies the shares are known and the binomial remains.
TEST_CASE("ice_need: large tallies give the binomial distribution") {
  const Tally half = tally(500'000'000, 1'000'000'000);
  // Bin(4, 1/4): at least two hits in 1 - (81 + 108)/256.
  CHECK_THAT(chance_of_hits(4, 2, half, half), WithinAbs(1.0 - 189.0 / 256.0, 1e-8));
}

TEST_CASE("ice_need: the ends of the chance") {
  const Tally some = tally(3, 4);
  CHECK_THAT(chance_of_hits(0, 0, some, some), WithinAbs(1.0, 1e-15));
  CHECK_THAT(chance_of_hits(7, 0, some, some), WithinAbs(1.0, 1e-13));
  CHECK(chance_of_hits(10, 11, some, some) == 0.0);
  double before = 0.0;
  for (int balls = 1; balls <= 60; ++balls) {
    const double now = chance_of_hits(balls, 3, some, some);
    CHECK(now >= before);
    before = now;
  }
  // A single chance far below the smallest double must not end the sum.
  const double many = chance_of_hits(10'000, 20, tally(95, 100), tally(5000, 5000));
  CHECK_THAT(many, WithinAbs(1.0, 1e-9));
}

TEST_CASE("ice_need: no trials, no number, nor one beyond any freezer") {
  CHECK_FALSE(balls_to_freeze(11, Tally{}, tally(18, 20)).has_value());
  CHECK_FALSE(balls_to_freeze(11, tally(8, 10), Tally{}).has_value());
  CHECK_FALSE(balls_to_freeze(11, tally(0, 1000), tally(1, 20)).has_value());
  CHECK_FALSE(balls_to_freeze(20'000, tally(10, 10), tally(10, 10)).has_value());
  const auto needed = balls_to_freeze(1, tally(10, 10), tally(10, 10), 0.5);
  CHECK(needed == 1);
}

TEST_CASE("ice_need: the smallest number has the chance and one less has not") {
  for (const double chance : {0.5, 0.8, 0.9, 0.95}) {
    for (const int wanted : {1, 3, 11, 30}) {
      CAPTURE(chance, wanted);
      const Tally tried = tally(7, 10);
      const Tally made = tally(15, 20);
      const auto balls = balls_to_freeze(wanted, tried, made, chance);
      REQUIRE(balls.has_value());
      CHECK(chance_of_hits(*balls, wanted, tried, made) >= chance);
      CHECK(chance_of_hits(*balls - 1, wanted, tried, made) < chance);
    }
  }
}

TEST_CASE("ice_need: promises of the caller") {
  CHECK_THROWS_AS(chance_of_hits(-1, 1, tally(1, 1), tally(1, 1)), BugError);
  CHECK_THROWS_AS(chance_of_hits(1, 1, tally(2, 1), tally(1, 1)), BugError);
  CHECK_THROWS_AS(balls_to_freeze(0, tally(1, 1), tally(1, 1)), BugError);
  CHECK_THROWS_AS(balls_to_freeze(1, tally(1, 1), tally(1, 1), 1.0), BugError);
}

TEST_CASE("ice_need: nights") {
  const Length d = Length::from_si(0.025);
  const std::vector<Mould> moulds{{{}, d, 8}, {{}, Length::from_si(0.035), 6}, {{}, d, 4}};
  CHECK(nights_to_freeze(24, d, moulds) == 2);
  CHECK(nights_to_freeze(25, d, moulds) == 3);
  CHECK(nights_to_freeze(0, d, moulds) == 0);
  CHECK(nights_to_freeze(23, Length::from_si(0.035), moulds) == 4);
  CHECK_FALSE(nights_to_freeze(23, Length::from_si(0.045), moulds).has_value());
  CHECK_FALSE(nights_to_freeze(23, d, {}).has_value());
  // An inch is 1.6 % more than 25 mm, 4.9 % more mass; 26 mm are 12 % more.
  CHECK(nights_to_freeze(23, d, {{{}, Length::from_si(0.0254), 12}}) == 2);
  CHECK_FALSE(nights_to_freeze(23, d, {{{}, Length::from_si(0.026), 12}}).has_value());
}

// Practice 3 of the fact base, computed there by Plank's equation at -18 degC, h 5 to 10: 2 to 4 h
// for 25 mm, 7 to 13 h for 75 mm, in whole hours.
TEST_CASE("ice_need: freezing time by Plank") {
  const FreezingTime small = freezing(25);
  CHECK(std::round(small.shortest.si() / hour_s) == 2);
  CHECK(std::round(small.longest.si() / hour_s) == 4);
  const FreezingTime large = freezing(75);
  CHECK(std::round(large.shortest.si() / hour_s) == 7);
  CHECK(std::round(large.longest.si() / hour_s) == 13);
}

TEST_CASE("ice_need: half the frost, twice the time, no frost, no ice") {
  CHECK_THAT(freezing(45, -9).longest.si(), WithinRel(2.0 * freezing(45, -18).longest.si(), 1e-12));
  const Length d = Length::from_si(0.025);
  CHECK_FALSE(freezing_time(d, TemperaturePoint::from_celsius(0.0)).has_value());
  CHECK_FALSE(freezing_time(d, TemperaturePoint::from_celsius(5.0)).has_value());
  CHECK_THROWS_AS(freezing_time(Length{}, TemperaturePoint::from_celsius(-18.0)), BugError);
}
