#include "hailwright/plan/test_plan.hpp"

#include <cmath>

#include "hailwright/evaluate/delivery.hpp"
#include "hailwright/physics/speed.hpp"
#include "plan/series_design.hpp"
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

  explicit Case(const std::string& name = "protocol") {
    SourceSet sources;
    const Loader load = hailwright::testing::real_files();
    auto p =
        read_protocol(HAILWRIGHT_SOURCE_DIR "/protocols/demo/" + name + ".yaml", load, sources);
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
  const double fastest = 1.25 * plan.sheet->series[1].speed->at_muzzle.si();
  const double h = plan.outlook.miss.height.si();
  CHECK_THAT(plan.outlook.miss.no_air.si(),
             WithinRel(fastest * fastest / 9.80665 *
                           std::sqrt(1.0 + 2.0 * 9.80665 * h / (fastest * fastest)),
                       1e-12));
  // Found by review: a stated figure below what is aimed at made the reach smaller.
  c.protocol.launch.fastest = Speed::from_si(0.01);
  CHECK(c.plan().outlook.miss.no_air == plan.outlook.miss.no_air);
  CHECK_FALSE(c.plan().sheet);
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
    REQUIRE(s.speed);
    REQUIRE(s.speed->as_measured);
    REQUIRE(s.speed->least_measured);
    REQUIRE(s.mass);
    CHECK(s.speed->at_panel < *s.speed->as_measured);
    CHECK(*s.speed->as_measured < s.speed->at_muzzle);
    CHECK(*s.speed->least_measured < *s.speed->as_measured);
    // 240 fps over 3.00 m.
    CHECK_THAT(*s.speed->frames_aim, WithinRel(720.0 / s.speed->as_measured->si(), 1e-12));
    CHECK(*s.speed->frames_most > *s.speed->frames_aim);
    CHECK(s.mass->least < s.mass->aim);
    // Level flight over 3.6 m: half g times the square of the time, a little more by drag.
    const double t = 3.6 / s.speed->at_muzzle.si();
    CHECK_THAT(s.sag->si(), WithinRel(0.5 * 9.80665 * t * t, 0.06));
  }
}

TEST_CASE("test_plan: no window leads beyond what the gate was asked for") {
  // Found by review: with few trials or a poor meter the least speed was above the aim, and with
  // poor scales the mass, so that a faithful user went beyond the energy that was cleared.
  const auto designed = [](const Protocol& protocol) {
    Assumptions assumptions;
    KnownAims known;
    return design_series(protocol, 0, PlanAir{}, assumptions, known);
  };
  Case c;
  c.protocol.speed.trials = 1;
  const SeriesDesign few = designed(c.protocol);
  CHECK(few.outlook.obstacle == DeliveryObstacle::few_trials);
  CHECK_FALSE(few.launch.speed->least_measured);
  c = Case();
  for (const double spread : {12.0, 50.0}) {
    c.protocol.launch.spread = percent(spread);
    CHECK_FALSE(designed(c.protocol).launch.speed->least_measured);
  }
  c = Case();
  c.protocol.ice.weighed_together = 1;
  Stated<Mass> poor;
  poor.absolute = Mass::from_si(0.02);
  c.protocol.tools.scales.error = poor;
  CHECK_FALSE(designed(c.protocol).launch.mass);
  c.protocol.ice.weighed_together = 2;
  CHECK_FALSE(designed(c.protocol).launch.mass);
}

// Found by review: forty series of 500 places took 23 s, since each looked for the same aim anew.
TEST_CASE("test_plan: an aim is found once for all series that ask the same") {
  Case c;
  c.protocol.series.push_back(c.protocol.series.front());
  c.protocol.series.push_back(c.protocol.series.front());
  c.protocol.series.back().places.pop_back();
  Assumptions assumptions;
  KnownAims known;
  const auto designed = [&](std::size_t series, KnownAims& aims) {
    return design_series(c.protocol, series, PlanAir{}, assumptions, aims);
  };
  const std::size_t same = c.protocol.series.size() - 2;
  const SeriesDesign first = designed(0, known);
  CHECK(known.size() == 1);
  const SeriesDesign again = designed(same, known);
  CHECK(known.size() == 1);
  KnownAims none;
  const SeriesDesign alone = designed(same, none);
  CHECK(none.size() == 1);
  CHECK(again.launch.aim.speed_aim == alone.launch.aim.speed_aim);
  CHECK(again.launch.aim.mass_aim == alone.launch.aim.mass_aim);
  CHECK(again.outlook.chance == alone.outlook.chance);
  CHECK(again.outlook.chance == first.outlook.chance);
  CHECK(designed(same + 1, known).outlook.chance > first.outlook.chance);
  CHECK(known.size() == 2);
}

TEST_CASE("test_plan: the upper energy covers the launcher's scatter and the heaviest ball") {
  // Found by review: a tolerance of 0.5 % shrank the corner to less than one standard deviation.
  Case c;
  c.protocol.series[0].target.tolerance = percent(0.5);
  c.protocol.launch.spread = percent(4);
  const TestPlan plan = c.plan();
  const Target& target = c.protocol.series[0].target;
  const double muzzle = plan.sheet->series[0].speed->at_muzzle.si() * 1.12;
  CHECK(plan.outlook.series[0].upper.si() > 0.5 * target.mass.si() * muzzle * muzzle);
  for (const LaunchSeries& s : plan.sheet->series)
    if (s.mass) CHECK(plan.outlook.series[s.series].heaviest >= s.mass->aim);
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
    const double mass_kg = s.mass->least.si() * mass_factor;
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
      trial.speed = *s.speed->least_measured * (speed_factor * (1.0 + scatter * z));
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

TEST_CASE("test_plan: the height of a drop fixes its speed, its energy and its danger") {
  // Found by review: a drop was planned as if it could be aimed for a speed, and its energy taken
  // from the target.
  Case c;
  c.protocol.launch.kind = Launcher::drop;
  c.protocol.launch.height = Length::from_si(5.0);
  const TestPlan plan = c.plan();
  const SeriesOutlook& small = plan.outlook.series[0];
  REQUIRE(small.drop);
  // 25 mm from 5 m: 0.34 J, 17 % of 1.99 J at Cd 0.45 (hail test facts, section 7.4).
  CHECK_THAT(small.drop->highest.si(), WithinAbs(0.34, 0.005));
  CHECK(small.drop->lowest < small.drop->highest);
  CHECK_FALSE(small.reached);
  CHECK(small.chance < 0.001);
  // Without air: m g h, with 5 % more mass.
  CHECK_THAT(small.upper.si(), WithinRel(0.00753 * 1.05 * 9.80665 * 5.0, 1e-9));
  if (plan.sheet) CHECK_FALSE(plan.sheet->series[0].speed);

  c.protocol.launch.height = Length::from_si(400.0);
  CHECK_FALSE(c.plan().gate.refusals.empty());
  c.protocol.launch.height = std::nullopt;
  const Checked<TestPlan> none = make_plan({&c.protocol, {&c.panel}, c.today, false, {}});
  CHECK_FALSE(none.value);
  CHECK(none.notes.items()[0].code == "C32");
}

TEST_CASE("test_plan: one panel twice is an error") {
  const Case c;
  const Checked<TestPlan> made = make_plan({&c.protocol, {&c.panel, &c.panel}, c.today, false, {}});
  CHECK_FALSE(made.value);
  CHECK(made.notes.items()[0].code == "C33");
}

TEST_CASE("test_plan: a distance that is not stated is taken as far") {
  Case c;
  const TestPlan stated = c.plan();
  c.protocol.launch.distance = std::nullopt;
  const TestPlan assumed = c.plan();
  CHECK(assumed.outlook.assumptions.uses(DefaultId::launch_distance));
  CHECK(assumed.outlook.series[0].upper > stated.outlook.series[0].upper);
}

TEST_CASE("test_plan: the backstop is held against the panels whose size is known") {
  // Found by review: one panel without a size switched the comparison off for all.
  Case c;
  Panel second = c.panel;
  second.name = "Without";
  second.size = std::nullopt;
  second.cells = std::nullopt;
  second.junction_box = std::nullopt;
  second.mounting_points.clear();
  const Checked<TestPlan> made = make_plan({&c.protocol, {&c.panel, &second}, c.today, false, {}});
  REQUIRE(made.value);
  CHECK(made.value->outlook.dangers.panel_long_side == c.panel.size->long_side);
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

TEST_CASE("test_plan: siblings take time after the shots, and each struck panel has its own") {
  Case c("protocol-siblings");
  c.today = "2026-06-25";
  const auto minutes = [](const TestPlan& plan, TaskKind kind) {
    double sum = 0.0;
    for (const Task& task : plan.outlook.timetable.tasks)
      if (task.kind == kind) sum += task.takes.si() / 60.0;
    return sum;
  };
  const TestPlan plan = c.plan();
  CHECK(minutes(plan, TaskKind::setups_before) == 0.0);
  // Three set-ups of five panels: 25 min, and three panels more with four readings of 40 s each.
  CHECK_THAT(minutes(plan, TaskKind::setups_after), WithinAbs(3 * 33.0, 1e-9));
  REQUIRE(plan.outlook.panels[0].power.size() == 1);
  CHECK(plan.outlook.panels[0].power[0].planned.units.siblings == 4);
  Panel second = c.panel;
  second.name = "Another";
  const Checked<TestPlan> two = make_plan({&c.protocol, {&c.panel, &second}, c.today, false, {}});
  REQUIRE(two.value);
  CHECK_THAT(minutes(*two.value, TaskKind::setups_after),
             WithinAbs(3 * (25.0 + 8 * 4 * 40.0 / 60.0), 1e-9));
  c.protocol.decide.judges_power = false;
  CHECK(minutes(c.plan(), TaskKind::setups_after) == 0.0);
}
