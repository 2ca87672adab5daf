// MEASUREMENT M9: outlying readings are flagged and kept. The test itself: metrology/outliers_test.
#include "evaluate/outlying.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

const PowerQuestion both{{StageKind::before, 0}, {StageKind::after, 0}, PowerQuestion::Of::both};

/// Set-ups of eight rounds whose readings scatter by 0.1 % and 0.2 %, up and down.
Test noisy(TestBuilder b) {
  Test t = b.rounds(8).build();
  t.protocol.tools.meter.step = Power::from_si(0.01);
  t.protocol.tools.sun.step = Irradiance::from_si(0.1);
  for (Reading& r : t.record.readings) {
    const double size = *r.round % 4 < 2 ? 0.001 : 0.002;
    if (r.role == Role::struck) r.power = r.power * std::exp(*r.round % 2 == 0 ? size : -size);
  }
  return t;
}

std::size_t index_of(const Test& t, std::size_t setup, int round, Role role) {
  for (std::size_t i = 0; i < t.record.readings.size(); ++i) {
    const Reading& r = t.record.readings[i];
    if (r.setup == setup && r.round == round && r.role == role) return i;
  }
  FAIL("no such reading");
  return 0;
}

}  // namespace

TEST_CASE("outlying: readings that scatter alike are not flagged") {
  CHECK(outlying_readings(noisy(TestBuilder()), both).empty());
  CHECK(outlying_readings(TestBuilder().rounds(8).build(), both).empty());  // exact ones
}

TEST_CASE("outlying: the reading that is off is flagged, of whichever panel") {
  for (const Role role : {Role::struck, Role::control}) {
    Test t = noisy(TestBuilder());
    const std::size_t off = index_of(t, 5, 3, role);
    t.record.readings[off].power = t.record.readings[off].power * 0.95;
    const auto found = outlying_readings(t, both);
    REQUIRE(found.size() == 1);
    CHECK(found[0].reading == off);
    CHECK(found[0].setup == 5);
    CHECK(found[0].deviations > found[0].bound);
    // Left out, it is not flagged, and nothing else is.
    PowerQuestion without = both;
    without.leave_out = {off};
    CHECK(outlying_readings(t, without).empty());
  }
}

TEST_CASE("outlying: two that hide each other are both flagged") {
  Test t = noisy(TestBuilder());
  for (const int round : {3, 7}) {
    Reading& r = t.record.readings[index_of(t, 1, round, Role::struck)];
    r.power = r.power * 0.95;
  }
  CHECK(outlying_readings(t, both).size() == 2);
}

TEST_CASE("outlying: fewer than five rounds show nothing") {
  Test t = TestBuilder().rounds(4).build();
  t.record.readings[0].power = t.record.readings[0].power * 0.5;
  CHECK(outlying_readings(t, both).empty());
}

// A coarse display gives equal values but for one that fell on the next step.
TEST_CASE("outlying: a step of the display is no deviation") {
  Test t = TestBuilder().same_panel().rounds(6).build();
  t.protocol.tools.meter.step = Power::from_si(1.0);
  for (Reading& r : t.record.readings) {
    r.irradiance = Irradiance::from_si(850.0);
    r.power = Power::from_si(r.round == 4 ? 80.0 : 79.0);
  }
  const PowerQuestion struck{both.from, both.to, PowerQuestion::Of::struck};
  CHECK(outlying_readings(t, struck).empty());
  t.record.readings[index_of(t, 0, 4, Role::struck)].power = Power::from_si(85.0);
  CHECK(outlying_readings(t, struck).size() == 1);
}

TEST_CASE("outlying: siblings are looked at in their own stage") {
  TestBuilder b;
  b.siblings(3, 0.01);
  Test t = noisy(b);
  const StageId after{StageKind::after, 0};
  const PowerQuestion q{after, after, PowerQuestion::Of::siblings};
  CHECK(outlying_readings(t, q).empty());
  const std::size_t off = index_of(t, 2, 5, Role::sibling) + 1;  // the second unit
  t.record.readings[off].power = t.record.readings[off].power * 1.06;
  const auto found = outlying_readings(t, q);
  REQUIRE(found.size() == 1);
  CHECK(found[0].reading == off);
}
