#include "plan/series_design.hpp"

#include <cmath>

#include "support/catch.hpp"

using namespace hailwright;
using Catch::WithinRel;

TEST_CASE(
    "series_design: the speed at the muzzle is that at the panel before the drag of the way") {
  Target target;
  target.mass = Mass::from_si(0.00753);
  target.diameter = Length::from_si(0.025);
  Launch launch;
  launch.distance = Length::from_si(3.0);
  // v0 = v exp(x/L), L = 2 m / (rho Cd A) = 2 * 0.00753 / (1.2 * 0.5 * pi/4 * 0.025^2) = 51.13 m.
  const double length_m = 2.0 * 0.00753 / (1.2 * 0.5 * std::acos(-1.0) / 4.0 * 0.025 * 0.025);
  CHECK_THAT(speed_at_muzzle(Speed::from_si(23.0), target, launch, Density::from_si(1.2), 0.5).si(),
             WithinRel(23.0 * std::exp(3.0 / length_m), 1e-12));
  launch.distance = std::nullopt;
  CHECK(launch_distance(launch) == Length::from_si(5.0));
}
