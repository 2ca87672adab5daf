// MEASUREMENT M10 and M13: what each hit shows, each side of the tolerance by itself.
#include "hailwright/evaluate/delivery.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

SeriesDelivery delivered(const TestBuilder& builder) {
  Assumptions assumptions;
  return judge_delivery(builder.build(), assumptions).at(0);
}

/// Shots without masses and speeds of their own: balls weighed together, trials at one setting.
TestBuilder with_trials(std::vector<double> frames, double grams_of_ten = 77.0) {
  TestBuilder b;
  Protocol& p = b.test.protocol;
  p.series[0].setting = "mark 3";
  p.speed.by = SpeedSource::trial_shots;
  p.speed.error.reset();
  p.speed.video = FrameRate::from_si(240);
  p.speed.length = Length::from_si(3.0);
  for (Shot& s : b.test.record.shots) {
    s.mass.reset();
    s.speed.reset();
    s.diameters.clear();
  }
  BallKind ball;
  ball.kind = "small";
  ball.count = 10;
  ball.together = Mass::from_si(grams_of_ten / 1000);
  ball.diameters = {Length::from_si(0.0252)};
  b.test.record.balls = {ball};
  for (const double f : frames) {
    Trial t;
    t.setting = "mark 3";
    t.frames = f;
    b.test.record.trials.push_back(t);
  }
  return b;
}

}  // namespace

TEST_CASE("delivery: shots at the nominal figures") {
  const SeriesDelivery d = delivered(TestBuilder());
  CHECK(d.throws == 3);
  CHECK(d.hits == 3);
  CHECK(d.places_struck == 3);
  CHECK(d.reached());
  for (const ShotResult& r : d.shots) {
    CHECK(r.sides.not_weaker);
    CHECK(r.sides.not_stronger);
    CHECK_FALSE(r.sides.weaker);
    CHECK_THAT(r.energy->value.si(), WithinRel(1.9917, 0.002));
  }
  REQUIRE(d.joint_probability.has_value());
  CHECK(*d.joint_probability > 0.99);
}

TEST_CASE("delivery: one-sided 95 % on each side") {
  // u of the speed is 1 %: at v0 (1 - 0.05) / (1 - 1.645 * 0.01) the chance is just 95 %.
  const double edge = 23.0 * 0.95 / (1.0 - 1.6449 * 0.01);
  CHECK(delivered(TestBuilder().speed(edge * 1.0005)).reached());
  const SeriesDelivery below = delivered(TestBuilder().speed(edge * 0.9995));
  CHECK_FALSE(below.reached());
  CHECK(below.shots[0].doubt == StrengthDoubt::speed_low);
  CHECK_FALSE(below.shots[0].sides.weaker);
  CHECK(delivered(TestBuilder().speed(20.0)).shots[0].sides.weaker);
  CHECK_FALSE(delivered(TestBuilder().speed(24.5)).shots[0].sides.not_stronger);
}

TEST_CASE("delivery: energy is bounded below by its 95 % bound") {
  const SeriesDelivery d = delivered(TestBuilder());
  const Estimate<Energy>& e = *d.shots[0].energy;
  REQUIRE(d.at_least.has_value());
  CHECK_THAT(d.at_least->si(), WithinRel(lower_bound(e, 0.95).si(), 1e-12));
  CHECK(*d.at_most > e.value);
}

TEST_CASE("delivery: misses, broken balls and offsets") {
  TestBuilder b;
  Shot off = b.test.record.shots[0];
  off.landing = Landing::offset;
  off.where = Position{Length::from_si(0.020), Length::from_si(-0.015)};  // 25 mm: just inside
  b.test.record.shots[0] = off;
  off.where = Position{Length::from_si(0.030), Length{}};
  b.test.record.shots.push_back(off);
  off.landing = Landing::miss;
  b.test.record.shots.push_back(off);
  off.landing = Landing::broke;
  b.test.record.shots.push_back(off);
  const SeriesDelivery d = delivered(b);
  CHECK(d.throws == 6);
  CHECK(d.hits == 4);
  CHECK(d.off_places == 1);
  CHECK(d.misses == 1);
  CHECK(d.broken == 1);
  CHECK(d.reached());
  CHECK_THAT(d.shots[0].off->si(), WithinAbs(0.025, 1e-12));
}

TEST_CASE("delivery: a hit counts where it lands") {
  TestBuilder b;
  auto& places = b.test.protocol.series[0].places;
  places[0].at = Position{Length::from_si(0.10), Length::from_si(0.10)};
  places[1].at = Position{Length::from_si(0.20), Length::from_si(0.10)};
  Shot& shot = b.test.record.shots[1];  // aimed at the second place, landed in the first
  shot.landing = Landing::at;
  shot.where = Position{Length::from_si(0.11), Length::from_si(0.10)};
  const SeriesDelivery d = delivered(b);
  CHECK(d.shots[1].place == 0U);
  CHECK(d.places[0].hits == 2);
  CHECK(d.places[1].hits == 0);
  CHECK_FALSE(d.reached());
  CHECK_FALSE(d.joint_probability.has_value());
}

// s sqrt(1 + 1/n) t(n - 1) + e, with e added once (MEASUREMENT M13).
TEST_CASE("delivery: unmeasured shots take the trials' prediction") {
  const SeriesDelivery d = delivered(with_trials({29.5, 30, 29, 30, 29.5, 30}));
  REQUIRE(d.trials.has_value());
  CHECK(d.trials->n == 6);
  const ShotQuantity& v = *d.shots[0].speed;
  CHECK_THAT(v.own_u, WithinRel(d.trials->scatter * std::sqrt(7.0 / 6.0), 1e-12));
  CHECK(v.own_dof == 5.0);
  CHECK(v.shared_u > 0.0);
  CHECK(d.reached());
}

TEST_CASE("delivery: fewer than five trials support no grade") {
  const SeriesDelivery d = delivered(with_trials({29, 29, 29, 29}));
  CHECK(d.shots[0].doubt == StrengthDoubt::few_trials);
  CHECK_FALSE(d.reached());
  CHECK(d.at_least.has_value());
}

TEST_CASE("delivery: no trials at the setting leave the speed unknown") {
  const SeriesDelivery d = delivered(with_trials({}));
  CHECK(d.shots[0].doubt == StrengthDoubt::speed_unknown);
  CHECK_FALSE(d.at_least.has_value());
  CHECK(d.places_hit == 3);
}

TEST_CASE("delivery: a mass from the diameter is not a measured mass") {
  TestBuilder b = with_trials({28, 28.5, 28, 28.5, 28, 28.5});
  b.test.record.balls[0].together.reset();
  const SeriesDelivery d = delivered(b);
  CHECK(d.shots[0].doubt == StrengthDoubt::mass_from_diameter);
  CHECK(d.shots[0].energy.has_value());
}

TEST_CASE("delivery: balls weighed together carry the stated unit scatter") {
  const SeriesDelivery d = delivered(with_trials({29, 29.5, 29, 29.5, 29, 29.5}));
  // 2 % of a single ball against the mean (ours), and a little melting.
  CHECK_THAT(d.shots[0].mass->own_u, WithinAbs(0.02, 0.001));
}

TEST_CASE("delivery: five single balls replace the stated unit scatter by their own") {
  TestBuilder b = with_trials({29, 29.5, 29, 29.5, 29, 29.5});
  b.test.record.balls.clear();
  for (const double g : {7.6, 7.7, 7.8, 7.7, 7.7}) {
    BallKind ball;
    ball.kind = "small";
    ball.together = Mass::from_si(g / 1000);
    ball.diameters = {Length::from_si(0.0252)};
    b.test.record.balls.push_back(ball);
  }
  const SeriesDelivery d = delivered(b);
  CHECK(d.shots[0].mass->own_dof == 4.0);
  CHECK(d.shots[0].mass->own_u < 0.012);
}

TEST_CASE("delivery: a diameter outside its tolerance is not this grade's ball") {
  TestBuilder b;
  b.test.record.shots[0].diameters = {Length::from_si(0.0264)};
  CHECK(delivered(b).shots[0].doubt == StrengthDoubt::diameter_off);
  b.test.record.shots[0].diameters = {Length::from_si(0.0262)};
  CHECK(delivered(b).shots[0].doubt == StrengthDoubt::none);
}

// MEASUREMENT M10, the reason given there: with u = 2 % of a shared speed error at the nominal
// speed, joint delivery is what one draw for the whole series gives, not a product of single ones.
TEST_CASE("delivery: what the shots share is drawn once for the series") {
  TestBuilder b;
  Stated<Speed> error;
  error.shape = Shape::normal;
  error.relative = percent(5);
  b.test.protocol.speed.error = error;
  const SeriesDelivery d = delivered(b);
  // P(v >= 0.95 v0) with 5 % shared u is Phi(1) = 0.841 for one shot and for all three alike.
  CHECK_THAT(*d.joint_probability, WithinAbs(0.841, 0.03));
}

// Found by review: the constant part of a speed meter's error was lost for trial shots.
TEST_CASE("delivery: a constant error of the speed meter is shared by all shots") {
  TestBuilder b;
  Stated<Speed> error;
  error.absolute = Speed::from_si(3.0);
  b.test.protocol.speed.error = error;
  const SeriesDelivery d = delivered(b);
  CHECK_THAT(d.shots[0].speed->shared_u, WithinRel(3.0 / std::sqrt(3.0) / 23.0, 0.01));
  CHECK_FALSE(d.reached());
}

// Found by review: ten single weighings were taken for one weighing of ten balls.
TEST_CASE("delivery: the scales' constant error stays whole in a mean of single weighings") {
  TestBuilder b = with_trials({29, 29.5, 29, 29.5, 29, 29.5});
  b.test.record.balls.clear();
  for (int i = 0; i < 5; ++i) {
    BallKind ball;
    ball.kind = "small";
    ball.together = Mass::from_si(0.008);
    ball.diameters = {Length::from_si(0.0252)};
    b.test.record.balls.push_back(ball);
  }
  Stated<Mass> coarse;
  coarse.absolute = Mass::from_si(0.001);
  b.test.protocol.tools.scales.error = coarse;
  b.test.protocol.tools.scales.step = Mass::from_si(0.001);
  const SeriesDelivery d = delivered(b);
  const ShotQuantity& m = *d.shots[0].mass;
  CHECK(m.shared_u > 0.001 / std::sqrt(3.0) / 0.008);
  // Five times "8 g" on a scale of 1 g is no agreement to better than its step.
  CHECK(m.own_u >= 0.001 / std::sqrt(12.0) / 0.008);
}

// Found by review: one weighed ball stood for every ball of its kind, without their scatter.
TEST_CASE("delivery: one weighed ball is the very ball only where a single shot names it") {
  TestBuilder b = with_trials({29, 29.5, 29, 29.5, 29, 29.5});
  b.test.record.balls[0].count = 1;
  b.test.record.balls[0].together = Mass::from_si(0.0077);
  CHECK(delivered(b).shots[0].mass->own_u > 0.019);
  b.test.record.balls.push_back(b.test.record.balls[0]);
  b.test.record.balls[1].kind = "slot 4";
  b.test.record.shots[1].ball = "slot 4";
  const SeriesDelivery d = delivered(b);
  CHECK(d.shots[1].mass->own_u < 0.01);
  CHECK(d.shots[0].mass->own_u > 0.019);
}

// Found by review: a light ball thrown much faster carries more, and is not "below the grade".
TEST_CASE("delivery: light and fast is not weaker than the grade") {
  TestBuilder b;
  for (Shot& s : b.test.record.shots)
    s.mass = Mass::from_si(0.0064);
  b.speed(30.0);
  const SeriesDelivery d = delivered(b);
  CHECK_FALSE(d.shots[0].sides.weaker);
  CHECK_FALSE(d.shots[0].sides.not_stronger);
  CHECK(d.shots[0].doubt == StrengthDoubt::mass_low);
}

// Found by review: a display in mph has its step in mph.
TEST_CASE("delivery: trials that agree by their display scatter by its step") {
  TestBuilder b = with_trials({});
  b.test.protocol.speed.video.reset();
  b.test.protocol.speed.length.reset();
  for (int i = 0; i < 6; ++i) {
    Trial t;
    t.setting = "mark 3";
    t.speed = Speed::from_si(55 * 0.44704);
    t.step = Speed::from_si(0.44704);
    b.test.record.trials.push_back(t);
  }
  const SeriesDelivery d = delivered(b);
  CHECK_THAT(d.trials->scatter, WithinRel(0.44704 / std::sqrt(12.0) / (55 * 0.44704), 1e-9));
}

TEST_CASE("delivery: two trials give no interval, three do") {
  CHECK_FALSE(delivered(with_trials({29, 29})).at_least.has_value());
  CHECK(delivered(with_trials({29, 29, 29})).at_least.has_value());
}

TEST_CASE("delivery: an angle takes the speed along the normal") {
  TestBuilder b;
  for (Shot& s : b.test.record.shots)
    s.angle = Angle::from_si(std::acos(0.5));
  const SeriesDelivery d = delivered(b);
  CHECK_THAT(d.shots[0].energy->value.si(), WithinRel(1.9917 / 4.0, 0.005));
  CHECK_FALSE(d.reached());
}

// Found by review: 40000 hits on eleven places took seconds, long after nothing could change.
TEST_CASE("delivery: of very many hits on one place it is as good as sure that one was strong") {
  TestBuilder b;
  const std::vector<Shot> once = b.test.record.shots;
  for (int i = 0; i < 400; ++i)
    b.test.record.shots.insert(b.test.record.shots.end(), once.begin(), once.end());
  const SeriesDelivery d = delivered(b);
  REQUIRE(d.joint_probability.has_value());
  CHECK(*d.joint_probability >= *delivered(TestBuilder()).joint_probability);
  CHECK(*d.joint_probability <= 1.0);
}

TEST_CASE("delivery: no joint probability where no hit could support the grade") {
  TestBuilder b;
  for (Shot& s : b.test.record.shots)
    s.diameters = {Length::from_si(0.027)};
  CHECK_FALSE(delivered(b).joint_probability.has_value());
}

TEST_CASE("delivery: a place whose first hit was too weak is struck, but is no first trial") {
  TestBuilder b;
  b.test.record.shots.push_back(b.test.record.shots[0]);
  b.test.record.shots[0].speed = Speed::from_si(20.0);
  const SeriesDelivery d = delivered(b);
  CHECK(d.places_struck == 3);
  CHECK(d.places_struck_first == 2);
}
