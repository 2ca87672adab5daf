#include "hailwright/report/compose_speed.hpp"

#include <set>

#include "hailwright/report/render.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

SpeedQuestion frames(double n) {
  SpeedQuestion q;
  q.method.by = SpeedSource::each_shot;
  q.method.video = FrameRate::from_si(240);
  q.method.length = Length::from_si(2.0);
  q.method.length_error = Stated<Length>{};
  q.method.length_error->absolute = Length::from_si(0.005);
  q.method.parallax = percent(1);
  q.reading.frames = n;
  return q;
}

std::string screen(const SpeedQuestion& q) {
  const auto a = answer_speed(q);
  REQUIRE(a);
  return render_console(compose_speed(*a), {120, false});
}

std::size_t at(const std::string& text, const std::string& what) {
  CAPTURE(text, what);
  const std::size_t found = text.find(what);
  CHECK(found != std::string::npos);
  return found;
}

}  // namespace

TEST_CASE("compose speed: the worked example on the screen, largest term first") {
  const std::string s = screen(frames(21));
  CHECK_THAT(s, Contains("22.86 m/s, u 0.46 m/s (2.0 %)"));
  CHECK_THAT(s, Contains("within 0.93 m/s at 95 % or more (k = 2)"));
  CHECK_THAT(s, Contains("21 frames over 2 m at 240 fps"));
  CHECK(at(s, "counting whole frames") < at(s, "parallax"));
  CHECK(at(s, "parallax") < at(s, "length of the base"));
  CHECK_THAT(s, Contains("1.9 %") && Contains("0.58 %") && Contains("0.14 %"));
  CHECK_THAT(s, Contains("--rate-accuracy") && !Contains("--length-accuracy"));
  CHECK_THAT(s, Contains("Cautions"));
}

TEST_CASE("compose speed: a shutter, a blur and few frames are said") {
  SpeedQuestion q = frames(12);
  q.exposure = Time::from_si(0.004);
  q.method.shutter =
      ShutterOfVideo{{}, Time::from_si(0.008), {}, Length::from_si(1.5), FlightInPicture::along};
  const std::string s = screen(q);
  CHECK_THAT(s, Contains("fewer than 20 frames") && Contains("motion blur"));
  CHECK_THAT(s, Contains("along the read-out") && Contains("too fast, taken out"));
  q.method.shutter->flight = FlightInPicture::across;
  CHECK_THAT(screen(q), Contains("nothing to correct"));
}

TEST_CASE("compose speed: a drop says what it cannot make, and of no height") {
  SpeedQuestion q;
  q.method.by = SpeedSource::drop;
  q.fall = Length::from_si(3.0);
  q.diameter = Length::from_si(0.025);
  const std::string s = screen(q);
  CHECK_THAT(s, Contains("a fall of 3 m from rest"));
  CHECK_THAT(s, Contains("cannot make a speed above the 20.2 to 23.3 m/s"));
  CHECK_THAT(s.substr(0, at(s, "Cautions")), !Contains("higher"));
  q.diameter.reset();
  CHECK_THAT(screen(q), Contains("a small part of the energy"));
}

TEST_CASE("compose speed: every way has words") {
  SpeedQuestion gates;
  gates.method.by = SpeedSource::each_shot;
  gates.method.gates = GatesWay{{}, Length::from_si(0.3), {}, {}};
  gates.reading.time = Time::from_si(0.013);
  CHECK_THAT(screen(gates), Contains("300 mm between two gates in 13 ms"));
  SpeedQuestion radar;
  radar.method.by = SpeedSource::each_shot;
  radar.method.radar = RadarWay{};
  radar.reading.speed = Speed::from_si(23);
  CHECK_THAT(screen(radar), Contains("divided by the cosine of 5.0 deg"));
  SpeedQuestion sounds;
  sounds.method.by = SpeedSource::each_shot;
  sounds.method.sounds = SoundsWay{};
  sounds.method.sounds->path = Length::from_si(3);
  sounds.method.sounds->panel_to_microphone = Length::from_si(3.4);
  sounds.method.sounds->air = TemperaturePoint::from_celsius(15);
  sounds.reading.time = Time::from_si(0.135);
  CHECK_THAT(screen(sounds), Contains("3 m in 125.0 ms, of 135.0 ms") && Contains("340.3 m/s"));
  SpeedQuestion positions = frames(8);
  positions.method.length.reset();
  positions.method.video.reset();
  positions.method.positions = PositionsWay{{}, FrameRate::from_si(240), {}, {}};
  positions.reading.moved = Length::from_si(0.8);
  CHECK_THAT(screen(positions), Contains("800 mm moved in 8 frames"));
  SpeedQuestion setting;
  setting.method.by = SpeedSource::setting;
  setting.nominal = Speed::from_si(23);
  CHECK_THAT(screen(setting), Contains("a setting is no measurement"));
}

TEST_CASE("compose speed: every term has words and a name of its own") {
  std::set<std::string_view> words, names;
  for (int i = 0; i <= static_cast<int>(SpeedError::setting); ++i) {
    CHECK(words.insert(text(static_cast<SpeedError>(i))).second);
    CHECK(names.insert(id(static_cast<SpeedError>(i))).second);
  }
}
