// Sums worked by hand: litres per minute by a bucket and a stopwatch.
#include <cmath>

#include "support/catch.hpp"
#include "support/stress_examples.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

const StressKind& kind() {
  return *find_stress_kind("spray");
}

StressValues plan() {
  return planned_values(kind(), {{"per_minute", "12.5 l"},
                                 {"lasting", "3 min"},
                                 {"distance", "3.0 m"},
                                 {"jet", "jet of 6.3 mm"}});
}

StressValues done() {
  return done_values(kind(), {{"bucket", "10.0 l"},
                              {"filled_in", "48 s"},
                              {"bucket_within", "2 %"},
                              {"lasting", "200 s"},
                              {"distance", "2.8 m"},
                              {"jet", "jet of 6.3 mm"},
                              {"dried", "fully"}});
}

}  // namespace

TEST_CASE("spray: 10 l in 48 s are 12.5 l/min") {
  CHECK(kind().advice(plan(), glass_panel()).at(0).text ==
        "a bucket of 10 l fills in 48 s at 12.5 l/min");
  const auto reached = kind().reached(plan(), done(), glass_panel());
  REQUIRE(reached.size() == 4);
  CHECK_THAT(reached[0].planned, WithinRel(12.5, 1e-12));
  CHECK_THAT(reached[0].done.value.si(), WithinRel(12.5, 1e-12));
  // 2 % and 0.5 s of 48 s over root three, 0.1 l of 10 l over root twelve, 1 s of 48 s over root 6.
  const double share = std::sqrt((4e-4 + std::pow(0.5 / 48.0, 2)) / 3.0 + 1e-4 / 12.0 +
                                 std::pow(1.0 / 48.0, 2) / 6.0);
  CHECK_THAT(reached[0].done.standard_u.si(), WithinRel(12.5 * share, 1e-9));
}

TEST_CASE("spray: water in all, and the time by area") {
  const auto lines = kind().advice(plan(), glass_panel());
  REQUIRE(lines.size() == 3);
  CHECK(lines[1].text == "38 l");  // 37.5
  CHECK_THAT(lines[2].text, Catch::Matchers::StartsWith("3.0 min"));
}

TEST_CASE("spray: farther is weaker, another nozzle is not as planned") {
  StressValues values = done();
  const auto reached = kind().reached(plan(), values, glass_panel());
  CHECK_FALSE(reached[2].weak_when_low);
  values["jet"].si = 2.0;
  CHECK(kind().reached(plan(), values, glass_panel()).at(3).done.value.si() == 0.0);
  values.erase("distance");
  CHECK(kind().reached(plan(), values, glass_panel()).empty());
}

TEST_CASE("spray: power of a wet panel counts for nothing") {
  StressValues values = done();
  CHECK_FALSE(kind().power_spoilt(values));
  values["dried"].si = 1.0;
  CHECK_THAT(kind().power_spoilt(values).value_or(""), Contains("not fully dried"));
  values.erase("dried");
  CHECK(kind().power_spoilt(values));
}

TEST_CASE("spray: below 60 V, and only the side of the box") {
  CHECK(kind().refused_from_V == 60.0);
  const StressQuestion& voltage = *find_stress_question(kind(), "voltage");
  CHECK_FALSE(voltage.missing("59.9 V"));
  CHECK(voltage.missing("60 V") == std::string("below 60 V"));
  CHECK(find_stress_question(kind(), "sprayed_at")->missing("other"));
  CHECK_FALSE(find_stress_question(kind(), "mains")->missing("behind a residual-current device"));
}
