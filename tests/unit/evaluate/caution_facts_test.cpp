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

TEST_CASE(
    "caution facts: a bare live part is as a broken panel, and what was not read is no heat") {
  TestBuilder b;
  b.look(0, {seen("live part", "back")});
  Test t = b.build();
  const double hot = caution_facts(t, assess(t)).hottest_panel->celsius();
  CHECK(caution_facts(t, assess(t)).broken);
  t.record.readings.back().temperature = TemperaturePoint::from_celsius(hot + 20.0);
  CHECK(caution_facts(t, assess(t)).hottest_panel->celsius() == hot + 20.0);
  t.record.readings.back().measured = false;
  CHECK(caution_facts(t, assess(t)).hottest_panel->celsius() == hot);
  b.look(0, {seen("scuff", "back")});
  t = b.build();
  CHECK_FALSE(caution_facts(t, assess(t)).broken);
}

TEST_CASE("caution facts: without a speed there is no energy to tell") {
  TestBuilder b;
  for (Shot& s : b.test.record.shots)
    s.speed.reset();
  const Test t = b.build();
  CHECK_FALSE(caution_facts(t, assess(t)).energy.has_value());
}

// Slower at the panel than where the trials were measured: the energy at the launcher is larger.
TEST_CASE("caution facts: what a ball loses on its way is given back") {
  TestBuilder b;
  b.test.protocol.speed.to_panel = Length::from_si(3.0);
  b.test.protocol.series[0].setting = "mark 3";
  for (int i = 0; i < 5; ++i) {
    Trial trial;
    trial.setting = "mark 3";
    trial.speed = Speed::from_si(23.0);
    trial.step = Speed::from_si(0.1);
    b.test.record.trials.push_back(trial);
  }
  const Test t = b.build();
  const Assessment a = assess(t);
  REQUIRE(a.delivery.at(0).trial_speed_at_panel);
  const double lost = 23.0 / a.delivery[0].trial_speed_at_panel->si();
  CHECK(lost > 1.0);
  CHECK_THAT(caution_facts(t, a).energy->si(),
             WithinRel(a.delivery[0].at_most->si() * lost * lost, 1e-12));
}
