#include "hailwright/physics/ice_ball.hpp"

#include <cmath>

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
