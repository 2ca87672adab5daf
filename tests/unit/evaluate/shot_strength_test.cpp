#include "evaluate/shot_strength.hpp"

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

TEST_CASE("strength: an unknown distance to the panel is taken wide and listed") {
  TestBuilder b;
  b.test.protocol.speed.to_panel.reset();
  b.test.protocol.speed.length = Length::from_si(2.0);
  b.test.protocol.launch.distance = Length::from_si(4.0);
  const Test t = b.build();
  Assumptions a;
  ShotStrength strength(t, a);
  const Slowing s = strength.slowing(Mass::from_si(0.0075), Length::from_si(0.025));
  CHECK(a.uses(DefaultId::distance_to_panel));
  CHECK(s.remaining.si() < 1.0);
  CHECK(s.relative_u > 0.0);
}

TEST_CASE("strength: a ball that nobody weighed or measured has no mass") {
  TestBuilder b;
  for (Shot& s : b.test.record.shots) {
    s.mass.reset();
    s.diameters.clear();
  }
  const Test t = b.build();
  Assumptions a;
  ShotStrength strength(t, a);
  CHECK_FALSE(strength.mass(t.record.shots[0]).has_value());
  CHECK_FALSE(strength.diameter(t.record.shots[0]).has_value());
}

TEST_CASE("strength: time and air that nobody noted are taken wide and listed") {
  TestBuilder b;
  for (Shot& s : b.test.record.shots)
    s.out.reset();
  b.test.record.air.reset();
  const Test t = b.build();
  Assumptions a;
  ShotStrength strength(t, a);
  const auto m = strength.mass(t.record.shots[0]);
  CHECK(a.uses(DefaultId::seconds_out));
  CHECK(a.uses(DefaultId::air_temperature));
  CHECK(m->value < 0.00753);
  CHECK(m->own_u > 0.01);
}

TEST_CASE("strength: speeds typed without an accuracy take the wide default") {
  TestBuilder b;
  b.test.protocol.speed.error.reset();
  const Test t = b.build();
  Assumptions a;
  ShotStrength strength(t, a);
  CHECK(strength.speed(t.record.shots[0])->shared_u > 0.057);
  CHECK(a.uses(DefaultId::speed_accuracy));
}
