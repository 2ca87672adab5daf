#include "hailwright/physics/speed_methods.hpp"

#include <cmath>
#include <numbers>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr Estimate<FrameRate> fps240{FrameRate::from_si(240.0), FrameRate::from_si(0.24)};

Angle degrees(double deg) {
  return Angle::from_si(deg * std::numbers::pi / 180.0);
}

MeasuredSpeed two_terms() {
  return {Speed::from_si(20.0),
          {{SpeedError::length, 0.03, true}, {SpeedError::counting, 0.04, false}}};
}

TwoSounds sounds(double between_s, double launcher_m, double panel_m) {
  TwoSounds s;
  s.path = {Length::from_si(3.0), Length::from_si(0.01)};
  s.launcher_to_microphone = Length::from_si(launcher_m);
  s.panel_to_microphone = Length::from_si(panel_m);
  s.microphone_u = Length::from_si(0.02);
  s.sound = {Speed::from_si(340.0), Speed::from_si(3.4)};
  s.between = Time::from_si(between_s);
  s.timing_u = Time::from_si(0.001);
  return s;
}

Fall fall(double metres, std::optional<FlyingBall> ball) {
  Fall f;
  f.height = {Length::from_si(metres), Length::from_si(0.02)};
  f.ball = ball;
  f.air = Density::from_si(1.225);
  f.air_half_width = Density::from_si(0.0);
  return f;
}

}  // namespace

TEST_CASE("speed methods: shared and own terms combine apart and together") {
  const MeasuredSpeed v = two_terms();
  CHECK(v.shared_u() == 0.03);
  CHECK(v.own_u() == 0.04);
  CHECK_THAT(v.standard_u(), WithinRel(0.05, 1e-14));
  CHECK(v.term(SpeedError::length) == 0.03);
  CHECK(v.term(SpeedError::setting) == 0.0);
}

TEST_CASE("speed methods: frames share all but their counting") {
  const Estimate<Length> length{Length::from_si(2.0), Length::from_si(0.002)};
  const MeasuredSpeed v = speed_by_frames(21, fps240, length, 0.005);
  CHECK_THAT(v.value.si(), WithinRel(480.0 / 21.0, 1e-14));
  CHECK_THAT(v.shared_u(), WithinRel(std::sqrt(0.001 * 0.001 * 2 + 0.005 * 0.005), 1e-12));
  CHECK_THAT(v.own_u() * 21, WithinRel(1.0 / std::sqrt(6.0), 1e-12));
  CHECK(v.supports_grade);
  CHECK_THROWS_AS(speed_by_frames(0, fps240, length, 0.0), BugError);
}

TEST_CASE("speed methods: of two positions each is read once") {
  const MeasuredSpeed v =
      speed_by_positions(Length::from_si(0.8), Length::from_si(0.004), 8, fps240, 0.003, 0.006);
  CHECK_THAT(v.value.si(), WithinRel(24.0, 1e-14));
  CHECK_THAT(v.own_u(), WithinRel(0.004 * std::sqrt(2.0) / 0.8, 1e-12));
  CHECK_THAT(v.shared_u(), WithinRel(std::sqrt(0.003 * 0.003 + 0.006 * 0.006 + 1e-6), 1e-12));
  CHECK_THROWS_AS(speed_by_positions(Length{}, Length{}, 8, fps240, 0, 0), BugError);
}

TEST_CASE("speed methods: a gate's clock is shared, its display is not") {
  const Estimate<Length> spacing{Length::from_si(0.3), Length::from_si(0.003)};
  const MeasuredSpeed v =
      speed_by_gates(spacing, Time::from_si(0.012), Time::from_si(0.00012), Time::from_si(0.00006));
  CHECK_THAT(v.value.si(), WithinRel(25.0, 1e-14));
  CHECK_THAT(v.shared_u(), WithinRel(std::sqrt(2.0) * 0.01, 1e-12));
  CHECK_THAT(v.own_u(), WithinRel(0.005, 1e-12));
  CHECK_THROWS_AS(speed_by_gates(spacing, Time{}, Time{}, Time{}), BugError);
}

TEST_CASE("speed methods: a radar held straight ahead is still wrong by the square of its angle") {
  const MeasuredSpeed v =
      speed_by_radar(Speed::from_si(23.0), Speed{}, Speed{}, Angle{}, degrees(5));
  CHECK(v.value.si() == 23.0);
  // Against a sum over the angles themselves: mean of (1/cos - 1)^2 over -5 to 5 deg.
  double squares = 0.0;
  constexpr int n = 2000;
  for (int i = 0; i < n; ++i) {
    const double a = degrees(-5.0 + 10.0 * (i + 0.5) / n).si();
    squares += std::pow(1.0 / std::cos(a) - 1.0, 2);
  }
  CHECK_THAT(v.term(SpeedError::angle), WithinRel(std::sqrt(squares / n), 0.01));
  CHECK_THROWS_AS(speed_by_radar(Speed::from_si(23), Speed{}, Speed{}, degrees(90), Angle{}),
                  BugError);
}

TEST_CASE("speed methods: sound is taken off both ends of the flight") {
  // Microphone at the panel: the launch is heard 3 m late, the flight took longer.
  CHECK_THAT(flight_time(sounds(0.120, 3.0, 0.0)).si(), WithinRel(0.120 + 3.0 / 340.0, 1e-12));
  // At the launcher the impact is heard late.
  CHECK_THAT(flight_time(sounds(0.140, 0.0, 3.0)).si(), WithinRel(0.140 - 3.0 / 340.0, 1e-12));
  // Half way between, nothing is to be corrected and the speed of sound does not matter.
  const MeasuredSpeed middle = speed_by_sounds(sounds(0.125, 1.5, 1.5));
  CHECK_THAT(middle.value.si(), WithinRel(24.0, 1e-12));
  CHECK_THAT(middle.term(SpeedError::sound),
             WithinRel(0.02 * std::sqrt(2.0) / 340.0 / 0.125, 1e-12));
  const MeasuredSpeed at_panel = speed_by_sounds(sounds(0.120, 3.0, 0.0));
  CHECK(at_panel.term(SpeedError::sound) > middle.term(SpeedError::sound));
  CHECK_THAT(at_panel.term(SpeedError::timing), WithinRel(0.001 / (0.120 + 3.0 / 340.0), 1e-12));
  CHECK_THROWS_AS(speed_by_sounds(sounds(0.008, 0.0, 3.0)), BugError);
}

TEST_CASE("speed methods: a fall of a ball that is not known spans every ball") {
  const FlyingBall ball{Mass::from_si(0.0075), Length::from_si(0.025)};
  const MeasuredSpeed known = speed_by_fall(fall(5.0, ball));
  const MeasuredSpeed any = speed_by_fall(fall(5.0, std::nullopt));
  CHECK(any.term(SpeedError::drag) > known.term(SpeedError::drag));
  const double half = any.term(SpeedError::drag) * std::sqrt(3.0) * any.value.si();
  // Its upper end is the fall without air.
  CHECK_THAT(any.value.si() + half, WithinRel(std::sqrt(2 * 9.80665 * 5.0), 1e-12));
  CHECK(any.value.si() - half < known.value.si());
  CHECK(known.term(SpeedError::air) == 0.0);
  Fall thin = fall(5.0, ball);
  thin.air_half_width = Density::from_si(0.1);
  CHECK(speed_by_fall(thin).term(SpeedError::air) > 0.0);
  CHECK_THROWS_AS(speed_by_fall(fall(0.0, ball)), BugError);
}

TEST_CASE("speed methods: a setting supports no grade") {
  const MeasuredSpeed v = speed_by_setting(Speed::from_si(23.0));
  CHECK_FALSE(v.supports_grade);
  // 25 % half-width, rectangular: 14 % standard (worked beforehand, computed).
  CHECK_THAT(v.standard_u() * 100, WithinAbs(14.0, 0.5));
  CHECK(v.own_u() == 0.0);
}

TEST_CASE("speed methods: what a rolling shutter did is undone") {
  const Time readout = Time::from_si(0.008);
  const Length field = Length::from_si(1.5);
  for (const FlightInPicture flight :
       {FlightInPicture::along, FlightInPicture::against, FlightInPicture::across}) {
    const double factor = rolling_shutter_factor(Speed::from_si(23.0), readout, field, flight);
    MeasuredSpeed apparent{Speed::from_si(23.0 * factor), {{SpeedError::length, 0.01, true}}};
    const MeasuredSpeed v =
        without_rolling_shutter(apparent, {readout, Time::from_si(0.0008)}, field, flight);
    CHECK_THAT(v.value.si(), WithinRel(23.0, 1e-12));
    // Against numbers: one term moved by its u at a time.
    const auto moved = [&](double speed, double time) {
      MeasuredSpeed a{Speed::from_si(23.0 * factor * speed), {}};
      return without_rolling_shutter(a, {readout * time, Time{}}, field, flight).value.si();
    };
    CHECK_THAT(v.term(SpeedError::length),
               WithinAbs(std::abs(moved(1.01, 1.0) - moved(0.99, 1.0)) / 2 / 23.0, 1e-5));
    CHECK_THAT(v.term(SpeedError::shutter),
               WithinAbs(std::abs(moved(1.0, 1.1) - moved(1.0, 0.9)) / 2 / 23.0, 2e-4));
  }
  CHECK(rolling_shutter_fits(Speed::from_si(187.0), readout, field, FlightInPicture::against));
  CHECK_FALSE(
      rolling_shutter_fits(Speed::from_si(188.0), readout, field, FlightInPicture::against));
  CHECK_THROWS_AS(
      rolling_shutter_factor(Speed::from_si(188.0), readout, field, FlightInPicture::along),
      BugError);
}

TEST_CASE("speed methods: what a picture does to a speed") {
  CHECK_THROWS_AS(parallax_factor(Length::from_si(1.0), Length::from_si(1.0)), BugError);
  CHECK(parallax_factor(Length::from_si(2.0), Length::from_si(1.0)) == 2.0);
  // A ball behind the scale looks too slow.
  CHECK(parallax_factor(Length::from_si(2.0), Length::from_si(-2.0)) == 0.5);
  CHECK_THAT(out_of_plane_factor(degrees(60)), WithinAbs(0.5, 1e-15));
  CHECK(motion_blur(Speed::from_si(20.0), Time::from_si(0.001)) == 20.0_mm);
}
