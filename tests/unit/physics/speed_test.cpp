#include "hailwright/physics/speed.hpp"

#include <cmath>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

// Worked beforehand, computed: 240 fps, 2.000 m, 21 frames -> 22.9 m/s.
TEST_CASE("speed from video frames") {
  const Speed v = speed_from_frames(21, FrameRate::from_si(240), Length::from_si(2.0));
  CHECK_THAT(v.si(), WithinAbs(22.9, 0.05));
  CHECK_THAT(frame_count_u / 21 * 100, WithinAbs(1.94, 0.005));
  CHECK_THROWS_AS(speed_from_frames(0, FrameRate::from_si(240), Length::from_si(2.0)), BugError);
}

TEST_CASE("trial speeds pool to mean and scatter") {
  const std::vector<Speed> v{Speed::from_si(23), Speed::from_si(24), Speed::from_si(25)};
  const TrialSpeeds t = pool_trials(v, 0.001);
  CHECK(t.n == 3);
  CHECK_THAT(t.mean.si(), WithinRel(24.0, 1e-14));
  CHECK_THAT(t.scatter, WithinRel(1.0 / 24.0, 1e-12));
  // MEASUREMENT M13: s sqrt(1 + 1/n) with n - 1 degrees of freedom; three give an interval only.
  CHECK_THAT(t.unmeasured_u(), WithinRel(std::sqrt(4.0 / 3.0) / 24.0, 1e-12));
  CHECK(t.degrees_of_freedom() == 2.0);
  CHECK(t.gives_interval());
  CHECK_FALSE(t.supports_grade());
}

TEST_CASE("agreement by chance is never taken for precision") {
  const std::vector<Speed> same(6, Speed::from_si(24));
  const TrialSpeeds t = pool_trials(same, 0.014);
  CHECK(t.step_limited);
  CHECK(t.scatter == 0.014);
  CHECK(t.supports_grade());
  CHECK_THROWS_AS(pool_trials(std::vector<Speed>(1, Speed::from_si(24)), 0.01), BugError);
}

// Table of speed losses, computed beforehand with Cd 0.45 and 1.225 kg/m3: 25 mm loses 3.543 % over
// 2 m. Here Cd runs over 0.45 to 0.60, so the middle is 0.525: the loss over a length goes with Cd.
TEST_CASE("slowing on the way to the panel") {
  const double kg = 917.0 * 3.14159265358979 / 6 * std::pow(0.025, 3);
  const auto loss = [&](double metres) {
    const Slowing s = slowing_to_panel(Length::from_si(metres), Length{}, Mass::from_si(kg),
                                       Length::from_si(0.025), Density::from_si(1.225), Density{});
    return 1.0 - s.remaining.si();
  };
  const double expected = 1.0 - std::exp(std::log(1.0 - 0.03543) * 0.525 / 0.45);
  CHECK_THAT(loss(2.0), WithinAbs(expected, 5e-6));
  CHECK(loss(0.0) == 0.0);
  CHECK(loss(3.0) > loss(2.0));
}

TEST_CASE("what is not known of the flight widens the speed") {
  const Slowing exact = slowing_to_panel(Length::from_si(2), Length{}, Mass::from_si(0.0075),
                                         Length::from_si(0.025), Density::from_si(1.2), Density{});
  const Slowing wide =
      slowing_to_panel(Length::from_si(2), Length::from_si(1), Mass::from_si(0.0075),
                       Length::from_si(0.025), Density::from_si(1.2), Density::from_si(0.1));
  CHECK(exact.relative_u > 0.0);
  CHECK(wide.relative_u > exact.relative_u);
  CHECK(wide.remaining.si() == exact.remaining.si());
}
