// Sums worked by hand: F = m g with g = 9.80665 m/s2.
#include <cmath>

#include "support/catch.hpp"
#include "support/stress_examples.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

const StressKind& kind() {
  return *find_stress_kind("cable pull");
}

StressValues plan(const std::string& force) {
  return planned_values(kind(), {{"force", force},
                                 {"held", "60 s"},
                                 {"times", "1"},
                                 {"at", "each lead"},
                                 {"how", "straight"}});
}

StressValues done(std::vector<TypedStress> pull) {
  pull.insert(pull.end(),
              {{"held", "65 s"}, {"times", "1"}, {"at", "each lead"}, {"how", "straight"}});
  return done_values(kind(), pull);
}

}  // namespace

TEST_CASE("cable pull: 40 N are 4.08 kg and 89 N 9.08 kg") {
  CHECK_THAT(kind().advice(plan("40 N"), glass_panel()).at(0).text,
             Catch::Matchers::StartsWith("4.08 kg for 40 N"));
  CHECK_THAT(kind().advice(plan("89 N"), glass_panel()).at(0).text,
             Catch::Matchers::StartsWith("9.08 kg for 89 N"));
  CHECK_THAT(kind().advice(plan("60 N"), glass_panel()).at(0).text,
             Catch::Matchers::StartsWith("6.12 kg"));
}

TEST_CASE("cable pull: the force of what hung there") {
  const auto reached =
      kind().reached(plan("40 N"), done({{"mass", "4.15 kg"}, {"scale", "1 %"}}), glass_panel());
  REQUIRE(reached.size() == 5);
  // 4.15 kg * 9.80665 m/s2 = 40.6976 N.
  CHECK_THAT(reached[0].done.value.si(), WithinAbs(40.6976, 0.0001));
  const double share = std::hypot(0.01 / std::sqrt(3.0), 0.01 / 4.15 / std::sqrt(12.0));
  CHECK_THAT(reached[0].done.standard_u.si(), WithinRel(40.6976 * share, 1e-5));
  CHECK(reached[0].taken.empty());
  CHECK(reached[1].unit == "s");
}

TEST_CASE("cable pull: the force that a spring balance showed") {
  const auto reached = kind().reached(plan("40 N"), done({{"force", "41 N"}}), glass_panel());
  CHECK(reached.at(0).done.value.si() == 41.0);
  CHECK_THAT(reached[0].taken, Contains("2 %"));
  CHECK(kind().reached(plan("40 N"), done({}), glass_panel()).empty());
}

TEST_CASE("cable pull: elsewhere or otherwise than planned is not what was planned") {
  StressValues values = done({{"mass", "4.15 kg"}});
  values["at"].si = 2.0;
  values["how"].si = 1.0;
  const auto reached = kind().reached(plan("40 N"), values, glass_panel());
  CHECK(reached.at(3).done.value.si() == 0.0);
  CHECK(reached.at(4).done.value.si() == 0.0);
}

TEST_CASE("cable pull: a heavy weight is refused") {
  CHECK_FALSE(kind().unsuited(plan("100 N"), glass_panel()));
  CHECK_THAT(kind().unsuited(plan("101 N"), glass_panel()).value_or(""), Contains("100 N"));
}
