// What a delivery tells where something of a shot is not known (MEASUREMENT M10, M13).
#include "hailwright/evaluate/delivery.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

SeriesDelivery judged_delivery(const TestBuilder& b, Assumptions* used = nullptr) {
  Assumptions assumptions;
  const SeriesDelivery d = judge_delivery(b.build(), assumptions).at(0);
  if (used != nullptr) *used = assumptions;
  return d;
}

}  // namespace

TEST_CASE("delivery answers: what is missing of a ball is named") {
  TestBuilder b;
  Shot& shot = b.test.record.shots[0];
  shot.diameters.clear();
  CHECK(judged_delivery(b).shots[0].doubt == StrengthDoubt::diameter_unknown);
  CHECK(judged_delivery(b).shots[0].energy.has_value());
  shot.mass.reset();
  const SeriesDelivery d = judged_delivery(b);
  CHECK(d.shots[0].doubt == StrengthDoubt::mass_unknown);
  CHECK_FALSE(d.shots[0].energy.has_value());
  CHECK_FALSE(d.shots[0].sides.not_weaker);
  CHECK_FALSE(d.joint_probability.has_value());
  CHECK(d.places_with_energy == 2);
}

TEST_CASE("delivery answers: of two hits on a place the one of known energy is told") {
  TestBuilder b;
  b.test.record.shots.push_back(b.test.record.shots[0]);
  b.test.record.shots[0].mass.reset();
  b.test.record.shots[0].diameters.clear();
  const SeriesDelivery d = judged_delivery(b);
  CHECK(d.places[0].best == 3U);
  CHECK(d.places[0].struck);
}

TEST_CASE("delivery answers: below the grade needs one side weaker and the other not stronger") {
  TestBuilder b;
  for (Shot& s : b.test.record.shots)
    s.mass = Mass::from_si(0.0064);  // 7.53 g are the grade
  CHECK(judged_delivery(b).shots[0].sides.weaker);
  for (Shot& s : b.test.record.shots)
    s.mass = Mass::from_si(0.0090);
  b.speed(19.0);
  CHECK_FALSE(judged_delivery(b).shots[0].sides.weaker);
}

TEST_CASE("delivery answers: the tolerance of the plan, of its grade, or assumed") {
  TestBuilder b;
  Assumptions used;
  Target& target = b.test.protocol.series[0].target;
  REQUIRE(target.grade != nullptr);
  REQUIRE(target.grade->tolerance.has_value());
  CHECK(judged_delivery(b).tolerance == *target.grade->tolerance);
  Grade without = *target.grade;
  without.tolerance.reset();
  target.grade = &without;
  CHECK(judged_delivery(b, &used).tolerance == defaults::tolerance);
  CHECK(used.uses(DefaultId::tolerance));
  target.grade = nullptr;
  CHECK(judged_delivery(b).tolerance == defaults::tolerance);
  target.tolerance = percent(7);
  CHECK(judged_delivery(b, &used).tolerance == percent(7));
  CHECK_FALSE(used.uses(DefaultId::tolerance));
}

TEST_CASE("delivery answers: a hit at a point has no offset from a place without one") {
  TestBuilder b;
  auto& places = b.test.protocol.series[0].places;
  places[1].at = Position{Length::from_si(0.20), Length::from_si(0.10)};
  Shot& shot = b.test.record.shots[0];  // aimed at the first place, whose position nobody gave
  shot.landing = Landing::at;
  shot.where = Position{Length::from_si(0.20), Length::from_si(0.11)};
  const SeriesDelivery d = judged_delivery(b);
  CHECK(d.shots[0].place == 1U);
  CHECK_FALSE(d.shots[0].off.has_value());
}

// MEASUREMENT M13: what nobody states of the scales is assumed, and told.
TEST_CASE("delivery answers: scales that nobody describes are taken for cheap ones") {
  TestBuilder b;
  Assumptions used;
  judged_delivery(b, &used);
  CHECK_FALSE(used.uses(DefaultId::scales_accuracy));
  b.test.protocol.tools.scales = {};
  const SeriesDelivery d = judged_delivery(b, &used);
  CHECK(used.uses(DefaultId::scales_accuracy));
  CHECK(used.uses(DefaultId::display_step));
  // The step is that of the masses as typed: one in a finer step makes the digits finer for all.
  b.test.record.shots[1].mass = Mass::from_si(0.0075);
  b.test.record.shots[0].mass = b.test.record.shots[2].mass = Mass::from_si(0.0075);
  const double coarse = judged_delivery(b).shots[0].mass->shared_u;
  BallKind fine;
  fine.kind = "others";
  fine.count = 10;
  fine.together = Mass::from_si(0.07531);
  b.test.record.balls = {fine};
  CHECK(judged_delivery(b).shots[0].mass->shared_u < coarse);
  CHECK(d.shots[0].mass->supports_grade);
  // What was not weighed tells no step.
  b.test.record.balls[0].together.reset();
  b.test.record.shots[1].mass.reset();
  CHECK(judged_delivery(b).shots[0].mass->shared_u == coarse);
}

TEST_CASE("delivery answers: a statement without digits needs no step") {
  TestBuilder b;
  b.test.protocol.tools.scales = {};
  Stated<Mass> digits;
  digits.digits = 2.0;
  b.test.protocol.tools.scales.error = digits;
  Assumptions used;
  judged_delivery(b, &used);
  CHECK(used.uses(DefaultId::display_step));
  digits.digits = 0.0;
  digits.absolute = Mass::from_si(0.0001);
  b.test.protocol.tools.scales.error = digits;
  judged_delivery(b, &used);
  CHECK_FALSE(used.uses(DefaultId::display_step));
}

TEST_CASE("delivery answers: calipers of a mass by the diameter, stated or assumed") {
  TestBuilder b;
  for (Shot& s : b.test.record.shots)
    s.mass.reset();
  Assumptions used;
  const double assumed = judged_delivery(b, &used).shots[0].mass->shared_u;
  CHECK(used.uses(DefaultId::calipers_accuracy));
  Stated<Length> calipers;
  calipers.absolute = Length::from_si(0.00002);
  b.test.protocol.tools.calipers.error = calipers;
  CHECK(judged_delivery(b, &used).shots[0].mass->shared_u < assumed);
  CHECK_FALSE(used.uses(DefaultId::calipers_accuracy));
}

TEST_CASE("delivery answers: the very ball is one, single, and thrown once") {
  const auto own_u = [](int of_the_name, int balls_in_it, int throws) {
    TestBuilder b;
    for (int i = 0; i < of_the_name; ++i) {
      BallKind ball;
      ball.kind = "slot 4";
      ball.count = balls_in_it;
      ball.together = Mass::from_si(0.00753 * balls_in_it);
      ball.diameters = {Length::from_si(0.025)};
      b.test.record.balls.push_back(ball);
    }
    for (int i = 0; i < throws; ++i) {
      Shot& shot = b.test.record.shots[static_cast<std::size_t>(i)];
      shot.ball = "slot 4";
      shot.mass.reset();
    }
    return judged_delivery(b).shots[0].mass->own_u;
  };
  CHECK(own_u(1, 1, 1) < 0.01);
  CHECK(own_u(2, 1, 1) > 0.019);
  CHECK(own_u(1, 2, 1) > 0.019);
  CHECK(own_u(1, 1, 2) > 0.019);
}
