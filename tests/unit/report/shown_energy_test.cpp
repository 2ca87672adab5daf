#include "report/shown_energy.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("shown energy: the two-sided interval, and none below zero") {
  const Estimate<Energy> energy{Energy::from_si(2.0), Energy::from_si(0.1)};
  const EnergyEnds ends = two_sided_interval(energy);
  // Normal quantile 1.9600 of 0.975 (R 4.2.2: qnorm).
  CHECK_THAT(ends.low.si(), WithinAbs(2.0 - 0.19600, 1e-5));
  CHECK_THAT(ends.high.si(), WithinAbs(2.0 + 0.19600, 1e-5));
  const Estimate<Energy> vague{Energy::from_si(2.0), Energy::from_si(2.0)};
  CHECK(two_sided_interval(vague).low.si() == 0.0);
}

TEST_CASE("shown energy: the corners of 5 percent on mass and speed") {
  // 0.95^3 and 1.05^3, exactly.
  const EnergyEnds box = corners_of_tolerance(Energy::from_si(1.0), percent(5));
  CHECK_THAT(box.low.si(), WithinAbs(0.857375, 1e-12));
  CHECK_THAT(box.high.si(), WithinAbs(1.157625, 1e-12));
}
