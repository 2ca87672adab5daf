// What keeps two stages from being compared, and what is then told (MEASUREMENT M2, M5, M9).
#include "evaluate/scatter_choice.hpp"
#include "hailwright/evaluate/power.hpp"
#include "support/catch.hpp"
#include "support/judged_power.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

const SetupComponent stated_remounting{{}, "remounting", std::nullopt, percent(0.2)};

SetupComponent stated_part(Redone of, const char* name) {
  return {{}, name, of, percent(0.1)};
}

PowerObstacle obstacle_of(const TestBuilder& b) {
  return judged(b).obstacle;
}

}  // namespace

TEST_CASE("power obstacles: a set-up without a round of both panels") {
  Test t = TestBuilder().build();
  std::erase_if(t.record.readings,
                [](const Reading& r) { return r.setup == 5 && r.role == Role::control; });
  const PowerResult p = judged(t);
  CHECK(p.obstacle == PowerObstacle::no_control_pair);
  CHECK(p.obstacle_subject == t.record.setups[5].name);
}

TEST_CASE("power obstacles: one reading a set-up has no spread") {
  TestBuilder b;
  b.setups(1, 1).rounds(1);
  b.test.protocol.measure.setup_scatter = {stated_remounting};
  CHECK(obstacle_of(b) == PowerObstacle::one_reading);
  b.rounds(2);
  CHECK(obstacle_of(b) == PowerObstacle::none);
  // One stage with, one without.
  Test t = b.build();
  std::erase_if(t.record.readings, [](const Reading& r) { return r.setup == 1 && r.round == 2; });
  CHECK(judged(t).obstacle == PowerObstacle::one_reading);
}

TEST_CASE("power obstacles: stated parts of the set-up must be all but the probe") {
  TestBuilder b;
  b.setups(1, 1);
  auto& stated = b.test.protocol.measure.setup_scatter;
  stated = {stated_part(Redone::mount, "feet"), stated_part(Redone::aim, "aim")};
  const PowerResult p = judged(b);
  CHECK(p.obstacle == PowerObstacle::part_not_stated);
  CHECK(p.obstacle_subject == "leads");
  stated.push_back(stated_part(Redone::leads, "plugs"));
  CHECK(obstacle_of(b) == PowerObstacle::none);
}

TEST_CASE("power obstacles: few set-ups beside an unfinished statement are told as few") {
  TestBuilder b;
  b.setups(2, 2);
  b.test.protocol.measure.setup_scatter = {stated_part(Redone::mount, "feet")};
  const PowerResult p = judged(b);
  CHECK(p.estimated());
  CHECK_FALSE(p.rests_on_stated);
  CHECK(has(p, PowerRemark::few_units));
}

TEST_CASE("power obstacles: siblings of a stated tolerance") {
  TestBuilder b;
  b.siblings(1, 0.0).setups(1, 1);
  MeasurementPlan& plan = b.test.protocol.measure;
  plan.unit_tolerance = percent(3);
  plan.setup_scatter = {stated_part(Redone::mount, "feet"), stated_part(Redone::leads, "plugs")};
  const PowerResult unstated = judged(b);
  CHECK(unstated.obstacle == PowerObstacle::part_not_stated);
  CHECK(unstated.obstacle_subject == "aim");
  plan.setup_scatter = {stated_remounting};
  CHECK(obstacle_of(TestBuilder(b).rounds(1)) == PowerObstacle::one_reading);
  const PowerResult good = judged(b);
  CHECK(good.obstacle == PowerObstacle::none);
  CHECK(has(good, PowerRemark::spread_not_measured));
}

TEST_CASE("power obstacles: two siblings give an interval and no decision") {
  const PowerResult p = judged(TestBuilder().siblings(2, 0.004).loss(0.5));
  CHECK(p.estimated());
  CHECK_FALSE(p.decides);
  CHECK(note_of(p, PowerRemark::spread_not_measured).numbers == std::vector<double>{2.0});
  CHECK_FALSE(has(judged(TestBuilder().siblings(3, 0.004)), PowerRemark::spread_not_measured));
}

TEST_CASE("power: days count as units only where each stage has two") {
  Test t = TestBuilder().build();
  for (std::size_t i = 0; i < 4; ++i)
    t.record.setups[i].date = i < 2 ? "2026-06-10" : "2026-06-11";
  const PowerResult p = judged(t);
  CHECK_FALSE(p.model->unit_is_day);
  CHECK(p.model->units_from == 4);
}

TEST_CASE("power: the chance to see a loss may be stated") {
  TestBuilder b;
  const PowerResult usual = judged(b);
  b.test.protocol.decide.see_chance = percent(70);
  Assumptions used;
  const PowerResult stated = judged(b, &used);
  CHECK_FALSE(used.uses(DefaultId::see_chance));
  CHECK_THAT(stated.see_chance.si(), WithinAbs(0.7, 1e-12));
  CHECK(stated.smallest_shown < usual.smallest_shown);
  b.test.protocol.decide.see_chance = percent(50);  // the least that the format takes
  CHECK(judged(b).smallest_shown < stated.smallest_shown);
}

TEST_CASE("power: days after the shots need both dates") {
  Test t = TestBuilder().build();
  CHECK(judged(t).days_after_shots == 0);
  for (Setup& s : t.record.setups)
    s.date.clear();
  CHECK_FALSE(judged(t).days_after_shots.has_value());
  t = TestBuilder().build();
  t.record.date.clear();
  CHECK_FALSE(judged(t).days_after_shots.has_value());
}

TEST_CASE("power: two meters read both panels at once") {
  TestBuilder b;
  CHECK(judged(b).in_turn);
  b.test.protocol.measure.meters = 2;
  CHECK_FALSE(judged(b).in_turn);
}

TEST_CASE("power: skipped readings count where they belong to the stages compared") {
  Test t = TestBuilder().later(0.0).build();
  t.record.readings.front().skip = "cloud";
  t.record.readings.back().skip = "cloud";  // of the stage that is not compared
  PowerResult p = judged(t);
  CHECK(p.skipped == 1);
  CHECK(p.with_skipped.has_value());
  t.record.readings.front().measured = false;  // nothing to show beside
  p = judged(t);
  CHECK(p.skipped == 1);
  CHECK_FALSE(p.with_skipped.has_value());
}

TEST_CASE("power: what was skipped may not be comparable") {
  TestBuilder b;
  b.same_panel().timed();
  b.test.protocol.measure.fitted_trend = true;
  Test t = b.build();
  Setup without_time = t.record.setups.back();
  without_time.name = "after 5";
  t.record.setups.push_back(without_time);
  Reading r = t.record.readings.back();
  r.setup = t.record.setups.size() - 1;
  r.minute.reset();
  r.skip = "cloud";
  t.record.readings.push_back(r);
  const PowerResult p = judged(t);
  CHECK(p.estimated());
  CHECK(p.skipped == 1);
  CHECK_FALSE(p.with_skipped.has_value());
}

TEST_CASE("power: a baseline that was set up and not read is not checked") {
  Test t = TestBuilder().same_panel().build();
  Setup unread = t.record.setups.front();
  unread.stage = {StageKind::baseline, 0};
  unread.name = "baseline 1";
  t.record.setups.push_back(unread);
  const PowerResult p = judged(t);
  CHECK(p.estimated());
  CHECK(has(p, PowerRemark::baseline_not_checked));
  CHECK_FALSE(p.baseline.has_value());
}

TEST_CASE("power: one sibling within a tolerance shows an interval and decides nothing") {
  TestBuilder b;
  b.siblings(1, 0.0);
  b.test.protocol.measure.unit_tolerance = percent(3);
  const PowerResult p = judged(b);
  CHECK(p.estimated());
  CHECK(p.model->siblings->assumed);
  CHECK_FALSE(p.decides);
}
