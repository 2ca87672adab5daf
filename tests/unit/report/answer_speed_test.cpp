#include <algorithm>
#include <cmath>
#include <numbers>

#include "hailwright/physics/speed.hpp"
#include "hailwright/report/compose_speed.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// 21 frames of 240 fps over 2 m within 5 mm, parallax within 1 %.
SpeedQuestion worked_example() {
  SpeedQuestion q;
  q.method.by = SpeedSource::each_shot;
  q.method.video = FrameRate::from_si(240);
  q.method.length = Length::from_si(2.0);
  q.method.length_error = Stated<Length>{};
  q.method.length_error->absolute = Length::from_si(0.005);
  q.method.parallax = percent(1);
  q.reading.frames = 21;
  return q;
}

SpeedAnswer answered(const SpeedQuestion& q) {
  auto a = answer_speed(q);
  REQUIRE(a);
  return std::move(*a);
}

bool warns(const SpeedAnswer& a, SpeedWarning w) {
  return std::count(a.warnings.begin(), a.warnings.end(), w) == 1;
}

bool cautions(const SpeedAnswer& a, std::string_view id) {
  return std::any_of(a.cautions.begin(), a.cautions.end(),
                     [&](const Caution* c) { return c->id == id; });
}

}  // namespace

// Worked beforehand, computed.
TEST_CASE("answer speed: the worked example") {
  const SpeedAnswer a = answered(worked_example());
  CHECK_THAT(a.measured.value.si(), WithinAbs(22.857, 0.0005));
  CHECK_THAT(a.measured.standard_u() * 100, WithinAbs(2.0, 0.05));
  CHECK_FALSE(a.at_panel);
  CHECK_FALSE(warns(a, SpeedWarning::few_frames));
  CHECK(a.assumptions.used() == std::vector<DefaultId>{DefaultId::frame_rate});
  // No ball is named, so that its energy cannot be ruled out.
  CHECK(cautions(a, "body_hit_lethal"));
}

TEST_CASE("answer speed: warnings of a video") {
  SpeedQuestion q = worked_example();
  CHECK(warns(answered(q), SpeedWarning::shutter_not_known));
  q.reading.frames = 19.5;
  CHECK(warns(answered(q), SpeedWarning::few_frames));
  q.method.shutter =
      ShutterOfVideo{{}, Time::from_si(0.008), {}, Length::from_si(1.5), FlightInPicture::along};
  CHECK_FALSE(warns(answered(q), SpeedWarning::shutter_not_known));
  q.exposure = Time::from_si(1.0 / 2000);
  const SpeedAnswer sharp = answered(q);
  CHECK_THAT(sharp.blur->si(), WithinRel(sharp.measured.value.si() / 2000, 1e-12));
  CHECK_FALSE(warns(sharp, SpeedWarning::blurred));
  q.exposure = Time::from_si(1.0 / 240);
  CHECK(warns(answered(q), SpeedWarning::blurred));
}

TEST_CASE("answer speed: at the panel, with the drag of the ball") {
  SpeedQuestion q = worked_example();
  q.method.to_panel = Length::from_si(1.5);
  CHECK_FALSE(answered(q).at_panel);  // no ball
  q.diameter = Length::from_si(0.025);
  q.mass = Mass::from_si(0.00753);
  const SpeedAnswer a = answered(q);
  REQUIRE(a.at_panel);
  const Slowing s = slowing_to_panel(*q.method.to_panel, Length{}, *q.mass, *q.diameter,
                                     defaults::air_density, defaults::air_density_within);
  CHECK_THAT(a.at_panel->value.si(), WithinRel(a.measured.value.si() * s.remaining.si(), 1e-12));
  CHECK_THAT(a.at_panel->relative_u(),
             WithinRel(std::hypot(a.measured.standard_u(), s.relative_u), 1e-12));
  CHECK(a.assumptions.uses(DefaultId::drag));
  CHECK(a.assumptions.uses(DefaultId::air_density));
  q.altitude = Length::from_si(500);
  CHECK_FALSE(answered(q).assumptions.uses(DefaultId::air_density));
  q.mass.reset();
  CHECK(answered(q).assumptions.uses(DefaultId::density));
  // 2 J: none of the rungs from 14.9 J on.
  CHECK_FALSE(cautions(answered(q), "body_hit_serious"));
  CHECK(cautions(answered(q), "eye_protection_low"));
}

TEST_CASE("answer speed: a drop and a setting say what they are") {
  SpeedQuestion q;
  q.method.by = SpeedSource::drop;
  q.fall = Length::from_si(3.0);
  const SpeedAnswer any = answered(q);
  CHECK(warns(any, SpeedWarning::weak_drop));
  CHECK_FALSE(any.fastest_terminal);
  CHECK(cautions(any, "drop_height"));
  CHECK_FALSE(cautions(any, "elastic_launcher"));
  q.diameter = Length::from_si(0.025);
  const SpeedAnswer known = answered(q);
  REQUIRE(known.fastest_terminal);
  CHECK(*known.slowest_terminal < *known.fastest_terminal);
  CHECK(known.measured.standard_u() < any.measured.standard_u());
  SpeedQuestion s;
  s.method.by = SpeedSource::setting;
  s.nominal = Speed::from_si(23);
  const SpeedAnswer nominal = answered(s);
  CHECK(warns(nominal, SpeedWarning::not_measured));
  CHECK_FALSE(nominal.measured.supports_grade);
}

TEST_CASE("answer speed: sounds that no flight fits have no answer") {
  SpeedQuestion q;
  q.method.by = SpeedSource::each_shot;
  q.method.sounds = SoundsWay{};
  q.method.sounds->path = Length::from_si(3.0);
  q.method.sounds->panel_to_microphone = Length::from_si(3.4);
  q.reading.time = Time::from_si(0.009);
  CHECK_FALSE(answer_speed(q));
  q.reading.time = Time::from_si(0.135);
  q.diameter = Length::from_si(0.025);
  // The middle of the path is known without being stated.
  CHECK(answered(q).at_panel);
}
