// Speeds of shots and trials in every way that a protocol can know them (MEASUREMENT M10, M13).
#include <cmath>

#include "evaluate/shot_strength.hpp"
#include "hailwright/physics/flight.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

/// One series, speeds by another way; nothing of the way is left at its default.
TestBuilder with_way(SpeedWay way) {
  TestBuilder b;
  SpeedMethod& m = b.test.protocol.speed;
  m.error.reset();
  b.test.protocol.series[0].setting = "mark 3";
  if (way == SpeedWay::gates) {
    m.gates = GatesWay{{}, Length::from_si(0.3), Stated<Length>{}, Stated<Time>{}};
    m.gates->spacing_error->absolute = Length::from_si(0.003);
    m.gates->time_error->absolute = Time::from_si(20e-6);
  }
  if (way == SpeedWay::positions) {
    m.positions = PositionsWay{{}, FrameRate::from_si(240), Stated<Length>{}, Stated<Ratio>{}};
    m.positions->error->absolute = Length::from_si(0.003);
    m.positions->scale->relative = percent(0.5);
  }
  if (way == SpeedWay::radar) m.radar = RadarWay{{}, Stated<Speed>{}, Angle{}, Angle{}};
  if (way == SpeedWay::sounds) {
    m.sounds = SoundsWay{};
    m.sounds->path = Length::from_si(3.0);
    m.to_panel.reset();
  }
  for (Shot& s : b.test.record.shots)
    s.speed.reset();
  return b;
}

struct Asked {
  Test test;
  Assumptions assumptions;
  ShotStrength strength;
  explicit Asked(const TestBuilder& b) : test(b.build()), strength(test, assumptions) {}
  std::optional<ShotQuantity> speed() { return strength.speed(test.record.shots[0]); }
};

void add_trials(TestBuilder& b, int n, const Trial& like) {
  for (int i = 0; i < n; ++i)
    b.test.record.trials.push_back(like);
}

Trial timed(double seconds, double step) {
  Trial t;
  t.setting = "mark 3";
  t.time = Time::from_si(seconds);
  t.time_step = Time::from_si(step);
  return t;
}

}  // namespace

TEST_CASE("shot speed: gates at every shot") {
  TestBuilder b = with_way(SpeedWay::gates);
  b.test.record.shots[0].time = Time::from_si(0.0125);
  b.test.record.shots[0].time_step = Time::from_si(1e-5);
  const auto v = Asked(b).speed();
  REQUIRE(v);
  CHECK_THAT(v->value, WithinRel(24.0, 1e-12));
  CHECK_THAT(v->shared_u, WithinRel(std::hypot(0.01, 20e-6 / 0.0125) / std::sqrt(3.0), 1e-9));
  CHECK_THAT(v->own_u, WithinRel(1e-5 / std::sqrt(12.0) / 0.0125, 1e-9));
  CHECK(v->supports_grade);
  CHECK(v->trials == 0);
}

TEST_CASE("shot speed: positions at every shot") {
  TestBuilder b = with_way(SpeedWay::positions);
  b.test.record.shots[0].moved = Length::from_si(0.8);
  b.test.record.shots[0].frames = 8;
  Asked asked(b);
  const auto v = asked.speed();
  REQUIRE(v);
  CHECK_THAT(v->value, WithinRel(24.0, 1e-12));
  CHECK_THAT(v->own_u, WithinRel(std::sqrt(2.0) * 0.003 / std::sqrt(3.0) / 0.8, 1e-9));
  CHECK(asked.assumptions.uses(DefaultId::parallax));
}

TEST_CASE("shot speed: a radar's trials are divided by the cosine of its angle") {
  TestBuilder b = with_way(SpeedWay::radar);
  b.test.protocol.speed.radar->angle = Angle::from_si(std::acos(0.96));
  Trial t;
  t.setting = "mark 3";
  t.speed = Speed::from_si(24.0);
  t.step = Speed::from_si(1.0);
  add_trials(b, 5, t);
  Asked asked(b);
  const auto pooled = asked.strength.trials("mark 3");
  REQUIRE(pooled);
  CHECK_THAT(pooled->mean.si(), WithinRel(25.0, 1e-12));
  CHECK(pooled->step_limited);
  CHECK_THAT(pooled->scatter, WithinRel(1.0 / std::sqrt(12.0) / 24.0, 1e-9));
  CHECK(asked.assumptions.uses(DefaultId::speed_display));
}

// MEASUREMENT M13: trials that agree by the coarseness of their clock, their positions or their
// frames scatter at least by that.
TEST_CASE("shot speed: the step of trials by gates, sounds and positions") {
  TestBuilder gates = with_way(SpeedWay::gates);
  add_trials(gates, 5, timed(0.0125, 0.0005));
  const auto by_gates = Asked(gates).strength.trials("mark 3");
  CHECK(by_gates->step_limited);
  CHECK_THAT(by_gates->scatter, WithinRel(0.0005 / std::sqrt(12.0) / 0.0125, 1e-9));
  TestBuilder sounds = with_way(SpeedWay::sounds);
  add_trials(sounds, 5, timed(0.125, 0.001));
  CHECK_THAT(Asked(sounds).strength.trials("mark 3")->scatter,
             WithinRel(0.001 / std::sqrt(12.0) / 0.125, 1e-9));
  TestBuilder positions = with_way(SpeedWay::positions);
  Trial t;
  t.setting = "mark 3";
  t.moved = Length::from_si(0.8);
  t.frames = 8;
  add_trials(positions, 5, t);
  CHECK_THAT(Asked(positions).strength.trials("mark 3")->scatter,
             WithinRel(std::sqrt(2.0) * 0.003 / std::sqrt(3.0) / 0.8, 1e-9));
}

TEST_CASE("shot speed: trials by gates speak for the shots, five of them for a grade") {
  TestBuilder b = with_way(SpeedWay::gates);
  for (const double ms : {12.5, 12.6, 12.4, 12.5})
    b.test.record.trials.push_back(timed(ms / 1000.0, 1e-5));
  const auto four = Asked(b).speed();
  REQUIRE(four);
  CHECK_FALSE(four->supports_grade);
  CHECK_FALSE(four->nominal);
  b.test.record.trials.push_back(timed(0.0125, 1e-5));
  Asked asked(b);
  const auto five = asked.speed();
  const auto pooled = asked.strength.trials("mark 3");
  CHECK(five->supports_grade);
  CHECK(five->trials == 5);
  CHECK(five->own_dof == 4.0);
  CHECK_THAT(five->own_u, WithinRel(pooled->scatter * std::sqrt(1.2), 1e-12));
  // Gates and launcher drift, each once.
  Assumptions a;
  const double gates = speed_errors(b.test.protocol.speed, pooled->mean, a).shared_u;
  CHECK_THAT(five->shared_u, WithinRel(std::hypot(gates, 0.01 / std::sqrt(3.0)), 1e-9));
}

TEST_CASE("shot speed: trials that are exact, imagined for a plan, scatter by nothing") {
  TestBuilder b;
  b.test.protocol.series[0].setting = "mark 3";
  b.test.record.shots[0].speed.reset();
  Trial t;
  t.setting = "mark 3";
  t.speed = Speed::from_si(23.0);
  t.step = Speed{};
  add_trials(b, 5, t);
  Asked asked(b);
  CHECK(asked.strength.trials("mark 3")->scatter == 0.0);
  CHECK_FALSE(asked.assumptions.uses(DefaultId::display_step));
}

TEST_CASE("shot speed: two sounds tell the speed half way to the panel") {
  TestBuilder b = with_way(SpeedWay::sounds);
  b.test.record.shots[0].time = Time::from_si(0.125);
  Asked asked(b);
  const auto v = asked.speed();
  REQUIRE(v);
  const Slowing s = asked.strength.slowing(Mass::from_si(0.00753), Length::from_si(0.025));
  const Slowing half_way =
      slowing_to_panel(Length::from_si(1.5), Length{}, Mass::from_si(0.00753),
                       Length::from_si(0.025), Density::from_si(1.2), Density::from_si(0.1));
  CHECK(s.remaining.si() == half_way.remaining.si());
  CHECK(s.relative_u == half_way.relative_u);
  CHECK_FALSE(asked.assumptions.uses(DefaultId::distance_to_panel));
  CHECK(v->value < 24.0);
}

TEST_CASE("shot speed: a setting gives an interval and never a claim") {
  TestBuilder b;
  b.test.protocol.speed = SpeedMethod{};
  b.test.protocol.speed.by = SpeedSource::setting;
  for (Shot& s : b.test.record.shots)
    s.speed.reset();
  Asked asked(b);
  const auto v = asked.speed();
  REQUIRE(v);
  CHECK(v->value == 23.0);
  CHECK(v->nominal);
  CHECK_FALSE(v->supports_grade);
  CHECK_THAT(v->shared_u, WithinRel(0.25 / std::sqrt(3.0), 1e-12));
  CHECK(asked.assumptions.uses(DefaultId::nominal_setting));
  CHECK_FALSE(asked.assumptions.uses(DefaultId::drag));
  Assumptions a;
  const SeriesDelivery d = judge_delivery(asked.test, a).at(0);
  CHECK_FALSE(d.reached());
  CHECK(d.shots[0].doubt == StrengthDoubt::speed_nominal);
  CHECK(d.at_least.has_value());
  CHECK_FALSE(d.joint_probability.has_value());
}

TEST_CASE("shot speed: a drop has the speed of its fall, at the panel already") {
  TestBuilder b;
  b.test.protocol.speed = SpeedMethod{};
  b.test.protocol.speed.by = SpeedSource::drop;
  b.test.protocol.launch.kind = Launcher::drop;
  b.test.record.air_density = Density::from_si(1.225);
  for (Shot& s : b.test.record.shots)
    s.speed.reset();
  CHECK_FALSE(Asked(b).speed().has_value());  // no height
  b.test.protocol.launch.height = Length::from_si(5.0);
  Asked asked(b);
  const auto v = asked.speed();
  REQUIRE(v);
  // Worked beforehand, computed: 9.4727 m/s for Cd 0.45 and a 25 mm ball, the fastest.
  CHECK(v->value < 9.4727);
  const FlyingBall ball{asked.test.record.shots[0].mass.value(), Length::from_si(0.025)};
  const Speed slowest =
      drop_speed(Length::from_si(5.0), terminal_speed(ball, Density::from_si(1.225), 0.60));
  CHECK(v->value > slowest.si());
  CHECK(v->supports_grade);
  CHECK(asked.assumptions.uses(DefaultId::drop_height));
  CHECK_FALSE(asked.assumptions.uses(DefaultId::distance_to_panel));
  Assumptions a;
  CHECK(judge_delivery(asked.test, a).at(0).shots[0].sides.weaker);
}

TEST_CASE("shot speed: the altitude of the launch replaces the assumed air") {
  TestBuilder b;
  b.test.protocol.speed.to_panel = Length::from_si(2.0);
  Asked sea(b);
  b.test.protocol.launch.altitude = Length::from_si(2000);
  Asked high(b);
  const Mass m = Mass::from_si(0.00753);
  CHECK(high.strength.slowing(m, Length::from_si(0.025)).remaining >
        sea.strength.slowing(m, Length::from_si(0.025)).remaining);
  CHECK(sea.assumptions.uses(DefaultId::air_density));
  CHECK_FALSE(high.assumptions.uses(DefaultId::air_density));
}

TEST_CASE("shot speed: the mass that is handed over is the one it slows with") {
  TestBuilder b;
  b.test.protocol.speed.to_panel = Length::from_si(3.0);
  Asked asked(b);
  const Shot& shot = asked.test.record.shots[0];
  const auto mass = asked.strength.mass(shot);
  CHECK(asked.strength.speed(shot, mass)->value == asked.strength.speed(shot)->value);
  ShotQuantity heavy = *mass;
  heavy.value *= 2.0;
  CHECK(asked.strength.speed(shot, heavy)->value > asked.strength.speed(shot)->value);
}

TEST_CASE("shot speed: trials of a ball that outruns the read-out give no claim") {
  TestBuilder b = with_way(SpeedWay::frames);
  SpeedMethod& m = b.test.protocol.speed;
  m.video = FrameRate::from_si(240);
  m.length = Length::from_si(2.0);
  Trial t;
  t.setting = "mark 3";
  t.speed = Speed::from_si(23.0);
  add_trials(b, 5, t);
  CHECK(Asked(b).speed()->supports_grade);
  m.shutter =
      ShutterOfVideo{{}, Time::from_si(0.1), {}, Length::from_si(1.0), FlightInPicture::along};
  const auto v = Asked(b).speed();
  REQUIRE(v);
  CHECK_FALSE(v->supports_grade);
}

TEST_CASE("shot speed: a trial that tells no speed is none") {
  TestBuilder b = with_way(SpeedWay::gates);
  for (int i = 0; i < 3; ++i)
    b.test.record.trials.push_back(timed(0.0125, 1e-5));
  Trial empty;
  empty.setting = "mark 3";
  add_trials(b, 2, empty);
  CHECK(Asked(b).strength.trials("mark 3")->n == 3);
}

TEST_CASE("shot speed: the launcher's drift is stated or assumed") {
  TestBuilder b = with_way(SpeedWay::gates);
  add_trials(b, 5, timed(0.0125, 1e-5));
  Asked assumed(b);
  const double wide = assumed.speed()->shared_u;
  CHECK(assumed.assumptions.uses(DefaultId::launcher_drift));
  b.test.protocol.speed.drift = percent(0.1);
  Asked stated_drift(b);
  CHECK(stated_drift.speed()->shared_u < wide);
  CHECK_FALSE(stated_drift.assumptions.uses(DefaultId::launcher_drift));
}

TEST_CASE("shot speed: a drop needs a height") {
  TestBuilder b;
  b.test.protocol.speed.by = SpeedSource::drop;
  b.test.record.shots[0].speed.reset();
  CHECK_FALSE(Asked(b).speed());
  b.test.protocol.launch.height = Length{};
  CHECK_FALSE(Asked(b).speed());
  b.test.protocol.launch.height = Length::from_si(3.0);
  CHECK(Asked(b).speed());
}

TEST_CASE("shot speed: what is not measured on its way does not slow") {
  TestBuilder b;
  b.test.protocol.speed.by = SpeedSource::setting;
  const Slowing none = Asked(b).strength.slowing(Mass::from_si(0.00753), Length::from_si(0.025));
  CHECK(none.remaining == Ratio::from_si(1.0));
  CHECK(none.relative_u == 0.0);
}

TEST_CASE("shot speed: the air of the day, else that of the launch") {
  TestBuilder b;
  b.test.protocol.speed.to_panel = Length::from_si(3.0);
  b.test.protocol.launch.altitude = Length{};
  b.test.protocol.launch.air = TemperaturePoint::from_celsius(-10.0);
  b.test.record.air = TemperaturePoint::from_celsius(35.0);
  const Mass m = Mass::from_si(0.00753);
  const Length d = Length::from_si(0.025);
  const Ratio warm = Asked(b).strength.slowing(m, d).remaining;
  b.test.record.air.reset();
  CHECK(Asked(b).strength.slowing(m, d).remaining < warm);
}
