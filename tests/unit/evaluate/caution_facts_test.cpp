#include "evaluate/caution_facts.hpp"

#include <algorithm>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;

TEST_CASE("caution facts: the upper energy of the hardest throw") {
  const Test t = TestBuilder().build();
  const CautionFacts f = caution_facts(t, assess(t));
  CHECK(f.launches);
  CHECK(f.published);
  REQUIRE(f.energy.has_value());
  CHECK(f.energy->si() > 1.9917);
  CHECK_FALSE(f.broken);
}

TEST_CASE("caution facts: broken glass and a power station trigger theirs") {
  TestBuilder b;
  b.look(0, {seen("broken front", "place 1")});
  b.test.protocol.measure.load = "power station";
  const Test t = b.build();
  const Assessment a = assess(t);
  const auto shown = [&](std::string_view id) {
    return std::any_of(a.cautions.begin(), a.cautions.end(),
                       [&](const Caution* c) { return c->id == id; });
  };
  CHECK(shown("broken_glass"));
  CHECK(shown("power_station_voltage"));
  CHECK(shown("elastic_launcher"));
  CHECK(shown("claims"));
}
