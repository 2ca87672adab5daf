#include "hailwright/evaluate/speed_errors.hpp"

#include <cmath>
#include <numbers>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

template <class Q>
Stated<Q> within(double half_width) {
  Stated<Q> s;
  s.absolute = Q::from_si(half_width);
  return s;
}

double rectangular(double half_width) {
  return half_width / std::sqrt(3.0);
}

constexpr Speed v23 = Speed::from_si(23.0);

/// One method of each way, nothing stated beyond what it needs.
std::vector<SpeedMethod> every_way() {
  std::vector<SpeedMethod> all(6);
  all[1].video = FrameRate::from_si(240);
  all[1].length = Length::from_si(2.0);
  all[2].positions = PositionsWay{{}, FrameRate::from_si(240), {}, {}};
  all[3].gates = GatesWay{{}, Length::from_si(0.3), {}, {}};
  all[4].radar = RadarWay{};
  all[5].sounds = SoundsWay{};
  all[5].sounds->path = Length::from_si(3.0);
  all[5].sounds->panel_to_microphone = Length::from_si(3.0);
  return all;
}

}  // namespace

TEST_CASE("speed errors: what every way would read gives back the speed") {
  for (const SpeedMethod& m : every_way()) {
    CAPTURE(static_cast<int>(m.way()));
    const auto reading = imagined_reading(m, v23);
    REQUIRE(reading);
    CHECK_THAT(speed_of(m, *reading)->si(), WithinRel(23.0, 1e-12));
    Assumptions a;
    const auto measured = measure_speed(m, *reading, a);
    REQUIRE(measured);
    CHECK_THAT(measured->value.si(), WithinRel(23.0, 1e-12));
    Assumptions b;
    const SpeedErrors e = speed_errors(m, v23, b);
    CHECK(e.shared_u == measured->shared_u());
    CHECK(e.own_u == measured->own_u());
    CHECK(e.supports_grade);
    CHECK(a.used() == b.used());
    CHECK_FALSE(a.used().empty());
  }
}

TEST_CASE("speed errors: each way assumes its own defaults, and stating them removes them") {
  std::vector<SpeedMethod> ways = every_way();
  const std::vector<std::vector<DefaultId>> wanted{
      {DefaultId::speed_accuracy},
      {DefaultId::video_length, DefaultId::parallax, DefaultId::frame_rate},
      {DefaultId::parallax, DefaultId::frame_rate, DefaultId::position_reading,
       DefaultId::picture_scale},
      {DefaultId::gate_spacing, DefaultId::gate_time},
      {DefaultId::speed_accuracy, DefaultId::radar_angle},
      {DefaultId::sound_path, DefaultId::sound_microphone, DefaultId::sound_time,
       DefaultId::sound_air}};
  for (std::size_t i = 0; i < ways.size(); ++i) {
    CAPTURE(i);
    Assumptions a;
    speed_errors(ways[i], v23, a);
    CHECK(a.used() == wanted[i]);
    for (const DefaultId id : wanted[i])
      CHECK(a.on_energy(id)->si() > 0.0);
  }
  ways[0].error = within<Speed>(0.5);
  ways[1].length_error = within<Length>(0.005);
  ways[2].positions->error = within<Length>(0.003);
  ways[2].positions->scale = within<Ratio>(0.0);
  ways[2].positions->scale->relative = percent(0.5);
  for (const std::size_t i : {1U, 2U}) {
    ways[i].parallax = percent(1);
    ways[i].rate = percent(0.1);
  }
  ways[3].gates->spacing_error = within<Length>(0.003);
  ways[3].gates->time_error = within<Time>(20e-6);
  ways[4].radar->error = within<Speed>(0.447);
  ways[4].radar->angle = Angle::from_si(std::numbers::pi / 18);
  ways[4].radar->angle_within = Angle::from_si(std::numbers::pi / 36);
  ways[5].sounds->path_error = within<Length>(0.02);
  ways[5].sounds->microphone_error = within<Length>(0.02);
  ways[5].sounds->time_error = within<Time>(0.001);
  ways[5].sounds->air = TemperaturePoint::from_celsius(20);
  for (const SpeedMethod& m : ways) {
    Assumptions a;
    const SpeedErrors e = speed_errors(m, v23, a);
    CHECK(a.used().empty());
    CHECK(e.shared_u > 0.0);
  }
}

// Worked beforehand, computed: 240 fps, 2 m within 5 mm,
// parallax within 1 %: 2.0 % for 21 frames, of which 1.94 % is the counting.
TEST_CASE("speed errors: shared and own parts of a video") {
  SpeedMethod m = every_way()[1];
  m.length_error = within<Length>(0.005);
  m.parallax = percent(1);
  Assumptions a;
  const SpeedErrors e = speed_errors(m, Speed::from_si(480.0 / 21.0), a);
  CHECK_THAT(e.own_u * 100, WithinAbs(1.94, 0.005));
  CHECK_THAT(
      e.shared_u,
      WithinRel(std::hypot(rectangular(0.0025), rectangular(0.01), rectangular(0.001)), 1e-12));
}

TEST_CASE("speed errors: a stated meter, its constant part at this speed") {
  SpeedMethod m;
  m.error = within<Speed>(0.5);
  m.error->relative = percent(2);
  Assumptions a;
  CHECK_THAT(speed_errors(m, v23, a).shared_u,
             WithinRel(rectangular(std::hypot(0.02, 0.5 / 23.0)), 1e-12));
}

TEST_CASE("speed errors: a display counts once for each reading, and is listed") {
  SpeedMethod m = every_way()[3];
  SpeedReading r;
  r.time = Time::from_si(0.0125);
  r.time_step = Time::from_si(0.0005);
  Assumptions a;
  const auto v = measure_speed(m, r, a);
  CHECK_THAT(v->own_u(), WithinRel(0.0005 / std::sqrt(12.0) / 0.0125, 1e-12));
  CHECK(a.uses(DefaultId::speed_display));
}

TEST_CASE("speed errors: a speed worked out by hand has the way's shared errors only") {
  for (const std::size_t i : {1U, 2U, 3U, 5U}) {
    CAPTURE(i);
    const SpeedMethod m = every_way()[i];
    SpeedReading r;
    r.speed = v23;
    Assumptions a, b;
    const auto v = measure_speed(m, r, a);
    REQUIRE(v);
    CHECK(v->value == v23);
    CHECK(v->own_u() == 0.0);
    CHECK(v->shared_u() == speed_errors(m, v23, b).shared_u);
  }
}

TEST_CASE("speed errors: a rolling shutter adds the doubt on its read-out time") {
  SpeedMethod m = every_way()[1];
  m.shutter =
      ShutterOfVideo{{}, Time::from_si(0.008), {}, Length::from_si(1.5), FlightInPicture::along};
  Assumptions a;
  const auto v = measure_speed(m, *imagined_reading(m, v23), a);
  // d ln v / d ln t is v t/H when v is the true speed.
  CHECK_THAT(v->term(SpeedError::shutter), WithinRel(23 * 0.008 / 1.5 * rectangular(0.2), 1e-9));
  CHECK(a.uses(DefaultId::shutter_readout));
  m.shutter->flight = FlightInPicture::across;
  Assumptions none;
  CHECK(measure_speed(m, *imagined_reading(m, v23), none)->term(SpeedError::shutter) == 0.0);
  CHECK_FALSE(none.uses(DefaultId::shutter_readout));
}

TEST_CASE("speed errors: a ball that outruns the read-out gives no claim") {
  SpeedMethod m = every_way()[1];
  m.shutter =
      ShutterOfVideo{{}, Time::from_si(0.1), {}, Length::from_si(1.0), FlightInPicture::along};
  CHECK_FALSE(imagined_reading(m, v23));
  Assumptions a;
  const SpeedErrors e = speed_errors(m, v23, a);
  CHECK_FALSE(e.supports_grade);
  CHECK(e.own_u > 0.0);
}

TEST_CASE("speed errors: a setting and a drop") {
  SpeedMethod m;
  m.by = SpeedSource::setting;
  Assumptions a;
  const SpeedErrors setting = speed_errors(m, v23, a);
  CHECK_FALSE(setting.supports_grade);
  CHECK_THAT(setting.shared_u, WithinRel(rectangular(0.25), 1e-12));
  CHECK(a.used() == std::vector<DefaultId>{DefaultId::nominal_setting});
  m.by = SpeedSource::drop;
  Assumptions b;
  const SpeedErrors drop = speed_errors(m, Speed::from_si(7.5), b);
  CHECK(drop.supports_grade);
  CHECK(b.used() == std::vector<DefaultId>{DefaultId::drop_height, DefaultId::drop_drag,
                                           DefaultId::air_density});
  // Any ball is an upper value for a known one.
  Assumptions c;
  const FlyingBall ball{Mass::from_si(0.00753), Length::from_si(0.025)};
  const FlightAir air = flight_air(Density::from_si(1.2), {}, {});
  const MeasuredSpeed known =
      measure_drop(m, Length::from_si(7.5 * 7.5 / 2 / 9.80665), ball, air, c);
  CHECK(known.shared_u() < drop.shared_u);
  CHECK_FALSE(c.uses(DefaultId::air_density));
}

TEST_CASE("speed errors: the air of a flight, as well as it is known") {
  CHECK(flight_air({}, {}, {}).assumed);
  CHECK(flight_air({}, {}, TemperaturePoint::from_celsius(20)).assumed);
  CHECK(flight_air(Density::from_si(1.1), Length::from_si(500), {}).density.si() == 1.1);
  // International Standard Atmosphere: 1.225 kg/m3 at sea level, 1.1117 at 1000 m [from memory].
  const FlightAir sea = flight_air({}, Length{}, {});
  CHECK_THAT(sea.density.si(), WithinAbs(1.225, 0.0005));
  CHECK_THAT(flight_air({}, Length::from_si(1000), {}).density.si(), WithinAbs(1.1117, 0.0005));
  const FlightAir warm = flight_air({}, Length{}, TemperaturePoint::from_celsius(35));
  CHECK(warm.density < sea.density);
  CHECK(warm.half_width < sea.half_width);
}

TEST_CASE("speed errors: half of the base") {
  CHECK(half_base(every_way()[0]) == Length{});
  CHECK(half_base(every_way()[1]) == 1.0_m);
  CHECK(half_base(every_way()[3]) == 150.0_mm);
  CHECK(half_base(every_way()[5]) == 1.5_m);
}

TEST_CASE("speed errors: an angle without its doubt is half of a statement") {
  SpeedMethod m = every_way()[4];
  m.radar->angle = Angle::from_si(0.2);
  Assumptions half;
  speed_errors(m, v23, half);
  CHECK(half.uses(DefaultId::radar_angle));
  m.radar->angle_within = Angle::from_si(0.05);
  Assumptions whole;
  speed_errors(m, v23, whole);
  CHECK_FALSE(whole.uses(DefaultId::radar_angle));
}

TEST_CASE("speed errors: a display without a step rounds nothing") {
  const SpeedMethod m = every_way()[3];
  SpeedReading r = *imagined_reading(m, v23);
  r.time_step = Time{};
  Assumptions a;
  CHECK(measure_speed(m, r, a)->own_u() == 0.0);
  CHECK_FALSE(a.uses(DefaultId::speed_display));
}

TEST_CASE("speed errors: what was read decides, not the speed typed beside it") {
  const SpeedMethod video = every_way()[1];
  SpeedReading frames = *imagined_reading(video, v23);
  frames.speed = Speed::from_si(30.0);
  Assumptions a;
  CHECK(measure_speed(video, frames, a)->own_u() > 0.0);
  const SpeedMethod gates = every_way()[3];
  SpeedReading timed = *imagined_reading(gates, v23);
  timed.speed = Speed::from_si(30.0);
  timed.time_step = Time::from_si(1e-4);
  CHECK(measure_speed(gates, timed, a)->own_u() > 0.0);
}

TEST_CASE("speed errors: a video without a length reads speeds that somebody worked out") {
  SpeedMethod m = every_way()[1];
  m.length.reset();
  const auto reading = imagined_reading(m, v23);
  REQUIRE(reading);
  CHECK(reading->speed == v23);
  CHECK_FALSE(reading->frames.has_value());
  Assumptions a;
  CHECK(measure_speed(m, *reading, a)->value == v23);
  SpeedReading counted = *reading;
  counted.frames = 20.0;  // over a length that nobody knows
  CHECK(measure_speed(m, counted, a)->value == v23);
}

TEST_CASE("speed errors: a speed that outruns the read-out was not worked out from it") {
  SpeedMethod m = every_way()[1];
  m.shutter =
      ShutterOfVideo{{}, Time::from_si(0.1), {}, Length::from_si(1.0), FlightInPicture::along};
  SpeedReading r;
  r.speed = v23;
  Assumptions a;
  CHECK_FALSE(measure_speed(m, r, a));
}
