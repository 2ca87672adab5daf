#include "hailwright/plan/test_plan.hpp"

#include <cmath>

#include "hailwright/evaluate/delivery.hpp"
#include "hailwright/physics/speed.hpp"
#include "support/catch.hpp"
#include "support/real_files.hpp"

using namespace hailwright;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

struct Case {
  Protocol protocol;
  Panel panel;
  std::string today = "2026-06-11";  // the demo's answers are of the day before

  Case() {
    SourceSet sources;
    const Loader load = hailwright::testing::real_files();
    auto p = read_protocol(HAILWRIGHT_SOURCE_DIR "/protocols/demo/protocol.yaml", load, sources);
    auto panel_read =
        read_panel(HAILWRIGHT_SOURCE_DIR "/protocols/demo/panels/rigid-a.yaml", load, sources);
    REQUIRE(p.value);
    REQUIRE(panel_read.value);
    protocol = std::move(*p.value);
    panel = std::move(*panel_read.value);
  }
  [[nodiscard]] TestPlan plan(bool estimate_only = false) const {
    Checked<TestPlan> made = make_plan({&protocol, {&panel}, today, estimate_only, {}});
    REQUIRE(made.value);
    return std::move(*made.value);
  }
};

}  // namespace

TEST_CASE("test_plan: energies are those of the grade, upper values those of the corner") {
  const TestPlan plan = Case().plan();
  REQUIRE(plan.outlook.series.size() == 2);
  // IEC 61215 rows: 7.53 g at 23.0 m/s, 1.9917 J; 20.7 g at 27.2 m/s, 7.6574 J.
  CHECK_THAT(plan.outlook.series[0].nominal.si(), WithinAbs(1.9917, 5e-5));
  CHECK_THAT(plan.outlook.series[1].nominal.si(), WithinAbs(7.6573, 1e-3));
  // At least the corner of 5 % in mass and in speed, 1.05^3; the aim and the way to the panel add.
  for (const SeriesOutlook& s : plan.outlook.series) {
    CHECK(s.upper.si() > s.nominal.si() * std::pow(1.05, 3));
    CHECK(s.upper.si() < s.nominal.si() * std::pow(1.05, 3) * 1.6);
  }
  CHECK(plan.outlook.dangers.muzzle_energy == plan.outlook.series[1].upper);
}

TEST_CASE("test_plan: the reach of a miss comes from the launcher's fastest speed (M16)") {
  Case c;
  c.protocol.launch.fastest = Speed::from_si(60.0);
  c.protocol.launch.height = Length::from_si(1.2);
  c.protocol.launch.ground_falls = Length::from_si(0.0);
  const TestPlan plan = c.plan();
  CHECK(plan.outlook.miss.fastest_stated);
  // (v^2/g) sqrt(1 + 2 g h / v^2) with v = 60 m/s, h = 1.2 m: 368.30 m (computed by hand).
  CHECK_THAT(plan.outlook.miss.no_air.si(), WithinAbs(368.30, 0.01));
  c.protocol.launch.ground_falls = Length::from_si(20.0);
  CHECK(c.plan().outlook.miss.no_air > plan.outlook.miss.no_air);
}

TEST_CASE("test_plan: an unknown fastest speed is reckoned as a quarter above the aim") {
  Case c;
  c.protocol.launch.fastest = std::nullopt;
  const TestPlan plan = c.plan();
  CHECK_FALSE(plan.outlook.miss.fastest_stated);
  REQUIRE(plan.sheet);
  const double fastest = 1.25 * plan.sheet->series[1].at_muzzle.si();
  const double h = plan.outlook.miss.height.si();
  CHECK_THAT(plan.outlook.miss.no_air.si(),
             WithinRel(fastest * fastest / 9.80665 *
                           std::sqrt(1.0 + 2.0 * 9.80665 * h / (fastest * fastest)),
                       1e-12));
}

TEST_CASE("test_plan: no sheet without the gate's leave, and none when only estimates are wanted") {
  Case c;
  CHECK(c.plan().sheet);
  CHECK_FALSE(c.plan(true).sheet);
  CHECK(c.plan(true).gate.clearance);
  c.protocol.safety.blocks.at("people").erase("lookout");
  CHECK_FALSE(c.plan().sheet);
  c = Case();
  c.today = "2026-07-12";
  CHECK_FALSE(c.plan().sheet);
}

TEST_CASE("test_plan: speeds grow from the panel back to the launcher") {
  const TestPlan plan = Case().plan();
  REQUIRE(plan.sheet);
  for (const LaunchSeries& s : plan.sheet->series) {
    CHECK(s.at_panel < s.as_measured);
    CHECK(s.as_measured < s.at_muzzle);
    CHECK(s.least_measured < s.as_measured);
    REQUIRE(s.frames_aim);
    // 240 fps over 3.00 m.
    CHECK_THAT(*s.frames_aim, WithinRel(720.0 / s.as_measured.si(), 1e-12));
    CHECK(*s.frames_most > *s.frames_aim);
    CHECK(s.least_mass < s.mass_aim);
    // Level flight over 3.6 m: half g times the square of the time, a little more by drag.
    const double t = 3.6 / s.at_muzzle.si();
    CHECK_THAT(s.sag->si(), WithinRel(0.5 * 9.80665 * t * t, 0.06));
  }
}

TEST_CASE("test_plan: a hit at the least speed and mass is just shown to be not weaker") {
  // The window of the sheet and the rule of `judge` are one: MEASUREMENT M10 and M13.
  Case c;
  c.protocol.ice.weighed_together = 10;
  const TestPlan plan = c.plan();
  const LaunchSeries& s = plan.sheet->series[0];
  const SeriesPlan& series = c.protocol.series[0];
  const auto judged = [&](double speed_factor, double mass_factor) {
    Test test;
    test.protocol = c.protocol;
    const double mass_kg = s.least_mass.si() * mass_factor;
    test.record.balls.push_back(
        {{}, series.name, 10, Mass::from_si(10.0 * mass_kg), {series.target.diameter}, {}});
    // Trials that scatter exactly as planned about the least mean.
    const int n = plan.outlook.series[0].trials;
    const double scatter = std::hypot(c.protocol.launch.spread ? c.protocol.launch.spread->si()
                                                               : defaults::launcher_spread.si(),
                                      frame_count_u / (720.0 / series.target.speed.si()));
    for (int i = 0; i < n; ++i) {
      const double z = (i - 0.5 * (n - 1)) / std::sqrt((n * n - 1.0) / 12.0 * n / (n - 1.0));
      Trial trial;
      trial.setting = series.setting;
      trial.speed = s.least_measured * (speed_factor * (1.0 + scatter * z));
      trial.step = Speed::from_si(0.01);
      test.record.trials.push_back(trial);
    }
    Shot shot;
    shot.landing = Landing::in;
    test.record.shots.push_back(shot);
    Assumptions assumptions;
    return judge_delivery(test, assumptions)[0].shots[0].sides.not_weaker;
  };
  CHECK(judged(1.002, 1.002));
  CHECK_FALSE(judged(0.99, 1.002));
  CHECK_FALSE(judged(1.002, 0.99));
}

TEST_CASE("test_plan: balls to freeze are those of M13's case") {
  Case c;
  c.protocol.launch.tried = Tally{{}, 10, 8};
  c.protocol.ice.made = Tally{{}, 20, 18};
  const TestPlan plan = c.plan();
  CHECK(plan.outlook.series[0].wanted == 11);
  CHECK(plan.outlook.series[0].balls == 23);
  c.protocol.launch.tried = std::nullopt;
  CHECK_FALSE(c.plan().outlook.series[0].balls);
}

TEST_CASE("test_plan: a nominal setting supports no grade") {
  Case c;
  c.protocol.speed.by = SpeedSource::setting;
  const TestPlan plan = c.plan();
  CHECK(plan.outlook.series[0].obstacle == DeliveryObstacle::nominal_setting);
  CHECK_FALSE(plan.outlook.series[0].reached);
}

TEST_CASE("test_plan: a drop says what it gives") {
  Case c;
  c.protocol.launch.kind = Launcher::drop;
  c.protocol.launch.height = Length::from_si(5.0);
  const TestPlan plan = c.plan();
  REQUIRE(plan.outlook.series[0].drop);
  // 25 mm from 5 m: 0.34 J, 17 % of 1.99 J at Cd 0.45 (hail test facts, section 7.4).
  CHECK_THAT(plan.outlook.series[0].drop->highest.si(), WithinAbs(0.34, 0.005));
  CHECK(plan.outlook.series[0].drop->lowest < plan.outlook.series[0].drop->highest);
}

TEST_CASE("test_plan: a launcher too far away is an error, not an endless speed") {
  // Found by review: the speed at the muzzle became infinite and ended in exit code 70.
  Case c;
  c.protocol.launch.distance = Length::from_si(100.0);
  c.protocol.series[0].target.mass = Mass::from_si(1e-6);
  const Checked<TestPlan> made = make_plan({&c.protocol, {&c.panel}, c.today, false, {}});
  CHECK_FALSE(made.value);
  REQUIRE(made.notes.items().size() == 1);
  CHECK(made.notes.items()[0].code == "C31");
}
