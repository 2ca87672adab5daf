#include "hailwright/model/speed_reading.hpp"

#include <numbers>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

SpeedReading frames(double n) {
  SpeedReading r;
  r.frames = n;
  return r;
}

SpeedReading time_s(double seconds) {
  SpeedReading r;
  r.time = Time::from_si(seconds);
  return r;
}

SpeedReading typed(double mps) {
  SpeedReading r;
  r.speed = Speed::from_si(mps);
  return r;
}

}  // namespace

TEST_CASE("speed reading: the way follows from what the method has") {
  SpeedMethod m;
  CHECK(m.way() == SpeedWay::typed);
  m.video = FrameRate::from_si(240);
  CHECK(m.way() == SpeedWay::frames);
  m.gates = GatesWay{};
  CHECK(m.way() == SpeedWay::gates);
  CHECK(m.measures());
  m.by = SpeedSource::drop;
  CHECK_FALSE(m.measures());
}

TEST_CASE("speed reading: frames over a length, and a speed typed beside them") {
  SpeedMethod m;
  m.video = FrameRate::from_si(240);
  CHECK_FALSE(speed_of(m, frames(30)).has_value());
  m.length = Length::from_si(3.0);
  CHECK_THAT(speed_of(m, frames(30))->si(), WithinRel(24.0, 1e-14));
  CHECK(speed_of(m, typed(23.5))->si() == 23.5);
  CHECK_FALSE(speed_of(m, SpeedReading{}).has_value());
}

TEST_CASE("speed reading: a rolling shutter is taken out of frames and positions alike") {
  SpeedMethod m;
  m.video = FrameRate::from_si(240);
  m.length = Length::from_si(3.0);
  ShutterOfVideo shutter;
  shutter.readout = Time::from_si(0.010);
  shutter.field = Length::from_si(2.4);
  shutter.flight = FlightInPicture::along;
  m.shutter = shutter;
  // 24 m/s seen, 24 * 0.010 / 2.4 = 0.1: 24 / 1.1.
  CHECK_THAT(speed_of(m, frames(30))->si(), WithinRel(24.0 / 1.1, 1e-14));
  m.video.reset();
  m.length.reset();
  m.positions = PositionsWay{{}, FrameRate::from_si(240), {}, {}};
  SpeedReading r = frames(8);
  CHECK_FALSE(speed_of(m, r).has_value());
  r.moved = Length::from_si(0.8);
  CHECK_THAT(speed_of(m, r)->si(), WithinRel(24.0 / 1.1, 1e-14));
  m.shutter->flight = FlightInPicture::against;
  CHECK_THAT(speed_of(m, r)->si(), WithinRel(24.0 / 0.9, 1e-14));
  // Nothing read out against the flight can look faster than the read-out itself.
  r.moved = Length::from_si(10.0);
  CHECK_FALSE(speed_of(m, r).has_value());
}

TEST_CASE("speed reading: gates and radar") {
  SpeedMethod m;
  m.gates = GatesWay{};
  m.gates->spacing = Length::from_si(0.3);
  CHECK_THAT(speed_of(m, time_s(0.0125))->si(), WithinRel(24.0, 1e-14));
  CHECK_FALSE(speed_of(m, typed(24)).has_value());
  m.gates.reset();
  m.radar = RadarWay{};
  m.radar->angle = Angle::from_si(std::numbers::pi / 3);
  CHECK_THAT(speed_of(m, typed(12))->si(), WithinRel(24.0, 1e-14));
  m.radar->angle.reset();
  CHECK_THAT(speed_of(m, typed(24))->si(), WithinRel(24.0 / 0.9961947, 1e-7));
  CHECK_FALSE(speed_of(m, time_s(1)).has_value());
}

TEST_CASE("speed reading: sounds closer together than their ways tell of no flight") {
  SpeedMethod m;
  m.sounds = SoundsWay{};
  m.sounds->path = Length::from_si(3.0);
  m.sounds->panel_to_microphone = Length::from_si(3.4);
  m.sounds->air = TemperaturePoint::from_celsius(15);
  // 3.4 m at 340.294 m/s take 9.9914 ms.
  CHECK_THAT(speed_of(m, time_s(0.1349914))->si(), WithinRel(24.0, 1e-6));
  CHECK_FALSE(speed_of(m, time_s(0.0099)).has_value());
  CHECK_FALSE(speed_of(m, typed(24)).has_value());
}

TEST_CASE("speed reading: trials and shots have the same columns") {
  Trial t;
  t.speed = Speed::from_si(1);
  t.step = Speed::from_si(2);
  t.frames = 3;
  t.moved = Length::from_si(4);
  t.time = Time::from_si(5);
  t.time_step = Time::from_si(6);
  Shot s;
  s.speed = t.speed;
  s.speed_step = t.step;
  s.frames = t.frames;
  s.moved = t.moved;
  s.time = t.time;
  s.time_step = t.time_step;
  for (const SpeedReading& r : {speed_reading(t), speed_reading(s)}) {
    CHECK(r.speed == t.speed);
    CHECK(r.speed_step == t.step);
    CHECK(r.frames == 3.0);
    CHECK(r.moved == t.moved);
    CHECK(r.time == t.time);
    CHECK(r.time_step == t.time_step);
  }
}
