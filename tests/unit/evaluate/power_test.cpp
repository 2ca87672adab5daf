#include "hailwright/evaluate/power.hpp"

#include <algorithm>
#include <cmath>

#include "support/catch.hpp"
#include "support/judged_power.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::has;
using hailwright::testing::judged;
using hailwright::testing::note_of;
using hailwright::testing::TestBuilder;

namespace {

constexpr StageId after{StageKind::after, 0};

/// The same set-ups with so many more before them, on the untouched panel, whose power is so much
/// higher there.
Test with_baseline(Test t, int setups, double higher = 0.0) {
  const std::vector<Reading> readings = t.record.readings;
  for (int k = 0; k < setups; ++k) {
    Setup s;
    s.stage = {StageKind::baseline, 0};
    s.name = "baseline " + std::to_string(k + 1);
    s.date = t.record.date;
    t.record.setups.push_back(s);
    for (Reading r : readings) {
      if (r.setup != static_cast<std::size_t>(k % 2)) continue;
      r.setup = t.record.setups.size() - 1;
      if (r.role == Role::struck) r.power = r.power * (1.0 + higher);
      t.record.readings.push_back(r);
    }
  }
  return t;
}

double u_of(const PowerResult& p, const std::string& prefix) {
  double variance = 0.0;
  for (const BudgetRow& row : p.budget) {
    if (row.input.id.starts_with(prefix)) variance += row.contribution() * row.contribution();
  }
  return std::sqrt(variance);
}

}  // namespace

TEST_CASE("power: the loss put in comes out") {
  for (const double loss : {0.0, 0.02, 0.12, -0.06}) {
    CAPTURE(loss);
    CHECK_THAT(judged(TestBuilder().loss(loss)).estimate.loss().si(), WithinAbs(loss, 1e-12));
  }
}

// MEASUREMENT M2: s_p sqrt(1/Kb + 1/Ka) with nu = Kb + Ka - 2.
TEST_CASE("power: pooled scatter of the set-ups") {
  const PowerResult p = judged(TestBuilder().setup_scatter(0.006));
  CHECK_THAT(*p.model->pooled_sd, WithinRel(0.006, 1e-9));
  CHECK(p.model->observed_dof == 6.0);
  CHECK_THAT(u_of(p, "scatter"), WithinRel(0.006 * std::sqrt(0.5), 1e-9));
}

// MEASUREMENT M1: without a stated day and stability the wide defaults hold, and more set-ups never
// bring u below them.
TEST_CASE("power: day and stability never shrink with more set-ups") {
  Assumptions used;
  const PowerResult few = judged(TestBuilder().setups(3, 3), &used);
  const PowerResult many = judged(TestBuilder().setups(20, 20));
  CHECK(used.uses(DefaultId::day_control_panel));
  CHECK(used.uses(DefaultId::control_stability));
  const double floor = std::hypot(0.002 * std::sqrt(2.0), 0.005);
  CHECK(few.estimate.u_lambda > many.estimate.u_lambda);
  CHECK(many.estimate.u_lambda > floor);
  CHECK_THAT(u_of(many, "day"), WithinRel(0.002 * std::sqrt(2.0), 1e-9));
  Assumptions same;
  const PowerResult alone = judged(TestBuilder().same_panel(), &same);
  CHECK(same.uses(DefaultId::day_same_panel));
  CHECK_THAT(u_of(alone, "day"), WithinRel(0.01 * std::sqrt(2.0), 1e-9));
  CHECK_THAT(u_of(alone, "stage"), WithinRel(0.005, 1e-9));
}

TEST_CASE("power: days that are repeated become the unit and replace the day term") {
  TestBuilder b;
  Test t = b.build();
  for (std::size_t i = 0; i < t.record.setups.size(); ++i) {
    t.record.setups[i].date = "2026-06-1" + std::to_string(i / 2);  // two set-ups a day, four days
  }
  Assumptions used;
  const PowerResult p = judge_power(t, after, used);
  CHECK(p.model->unit_is_day);
  CHECK(p.model->units_from == 2);
  CHECK(p.model->observed_dof == 2.0);
  CHECK_FALSE(used.uses(DefaultId::day_control_panel));
  CHECK(u_of(p, "day") == 0.0);
  CHECK(u_of(p, "stage") > 0.0);  // drift between the stages lies outside the days
}

TEST_CASE("power: fewer than four degrees of freedom decide nothing alone") {
  const PowerResult p = judged(TestBuilder().setups(2, 2).loss(0.3));
  CHECK(p.estimated());
  CHECK_FALSE(p.decides);
  CHECK(has(p, PowerRemark::few_units));
  CHECK_FALSE(p.is_beyond());
  CHECK(judged(TestBuilder().setups(3, 3).loss(0.3)).is_beyond());
}

TEST_CASE("power: few set-ups rest on stated components where these are larger") {
  TestBuilder b;
  b.setups(2, 2).loss(0.3).setup_scatter(0.0005);
  b.test.protocol.measure.setup_scatter = {{{}, "alignment", std::nullopt, percent(0.5)}};
  b.test.protocol.measure.readings_independent = "triggered anew each time";
  const PowerResult p = judged(b);
  CHECK(p.decides);
  CHECK(p.rests_on_stated);
  CHECK(p.is_beyond());
}

TEST_CASE("power: stated components smaller than the observed scatter give way to it") {
  TestBuilder b;
  b.setups(2, 2).setup_scatter(0.03);
  b.test.protocol.measure.setup_scatter = {{{}, "alignment", std::nullopt, percent(0.1)}};
  const PowerResult p = judged(b);
  CHECK(has(p, PowerRemark::stated_smaller_than_observed));
  CHECK(p.model->pooled_sd.has_value());
}

// Found by review: next to nothing stated beside 2 + 2 set-ups made them enough to decide by.
TEST_CASE("power: a tiny stated scatter does not make few set-ups enough") {
  TestBuilder b;
  b.setups(2, 2).loss(0.3).setup_scatter(0.03);
  b.test.protocol.measure.setup_scatter = {{{}, "alignment", std::nullopt, percent(0.0001)}};
  const PowerResult p = judged(b);
  CHECK(has(p, PowerRemark::stated_smaller_than_observed));
  CHECK(has(p, PowerRemark::few_units));
  CHECK_FALSE(p.decides);
  CHECK_FALSE(p.rests_on_stated);
}

// Found by review: 1.249 W before and 1.151 W after read 1.2 W throughout, and came out as within.
TEST_CASE("power: a display coarser than the question gives no verdict") {
  TestBuilder b;
  b.test.protocol.tools.meter.step = Power::from_si(0.1);
  Test t = b.build();
  for (Reading& r : t.record.readings)
    r.power = Power::from_si(1.2);
  Assumptions a;
  const PowerResult coarse = judge_power(t, after, a);
  CHECK(has(coarse, PowerRemark::display_too_coarse));
  CHECK_FALSE(coarse.decides);
  // Steps that are small beside the power, or readings that spread over them, are no matter.
  for (Reading& r : t.record.readings)
    r.power = Power::from_si(12.0);
  CHECK_FALSE(has(judge_power(t, after, a), PowerRemark::display_too_coarse));
  double sign = 1.0;
  for (Reading& r : t.record.readings) {
    if (r.role == Role::struck) r.power = Power::from_si(1.2 + 0.1 * (sign = -sign));
  }
  CHECK_FALSE(has(judge_power(t, after, a), PowerRemark::display_too_coarse));
}

TEST_CASE("power: baseline set-ups add degrees of freedom and nothing to the loss") {
  const Test t = TestBuilder().setups(2, 2).build();
  const PowerResult without = judged(t);
  const PowerResult p = judged(with_baseline(t, 3));
  CHECK(p.model->observed_dof == 4.0);
  CHECK(p.decides);
  CHECK_THAT(p.estimate.lambda, WithinAbs(without.estimate.lambda, 1e-12));
}

// MEASUREMENT M5: the check of two untouched blocks is told whether it failed or not.
TEST_CASE("power: the baseline against the readings before") {
  const Test t = TestBuilder().build();
  CHECK_FALSE(judged(t).baseline.has_value());
  const PowerResult still = judged(with_baseline(t, 4));
  REQUIRE(still.baseline.has_value());
  CHECK(still.baseline->units == 4);
  CHECK_FALSE(still.baseline->moved);
  CHECK_THAT(still.baseline->change.lambda, WithinAbs(0.0, 1e-12));
  CHECK(still.valid);
  const PowerResult moved = judged(with_baseline(t, 4, 0.05));
  REQUIRE(moved.baseline.has_value());
  CHECK(moved.baseline->moved);
  CHECK_THAT(moved.baseline->change.loss().si(), WithinAbs(1.0 - 1.0 / 1.05, 1e-12));
  CHECK(has(moved, PowerRemark::baseline_moved));
  CHECK_FALSE(moved.valid);
  const PowerResult few = judged(with_baseline(TestBuilder().setups(2, 4).build(), 2));
  CHECK_FALSE(few.baseline.has_value());
  CHECK(has(few, PowerRemark::baseline_not_checked));
}

TEST_CASE("power: replication needs to know what each set-up redid") {
  TestBuilder b;
  b.test.protocol.measure.redone.reset();
  CHECK(judged(b).obstacle == PowerObstacle::redone_not_stated);
  b.test.protocol.measure.redone = std::vector<Redone>{Redone::mount, Redone::probe, Redone::leads};
  const PowerResult p = judged(b);
  CHECK(p.obstacle == PowerObstacle::part_not_redone);
  CHECK(p.obstacle_subject == "aim");
  b.test.protocol.measure.setup_scatter = {{{}, "alignment", Redone::aim, percent(0.3)}};
  const PowerResult stated = judged(b);
  REQUIRE(stated.estimated());
  // One draw a stage, beside the observed scatter of the rest.
  CHECK_THAT(u_of(stated, "setup/alignment"), WithinRel(0.003 * std::sqrt(2.0), 1e-9));
}

TEST_CASE("power: a probe that was not put on anew takes its stated or default size once a stage") {
  TestBuilder b;
  b.test.protocol.measure.redone = std::vector<Redone>{Redone::mount, Redone::aim, Redone::leads};
  Assumptions used;
  const PowerResult p = judged(b, &used);
  CHECK(used.uses(DefaultId::thermometer_each_time));
  CHECK(u_of(p, "thermometer/each") > 0.0);
}

TEST_CASE("power: the same meter cancels, another after the shots does not") {
  TestBuilder b;
  b.same_panel();
  Stated<Power> one_percent;
  one_percent.relative = percent(1);
  b.test.protocol.tools.meter.error = one_percent;
  b.test.protocol.tools.meter.between_stages = percent(0);
  CHECK(u_of(judged(b), "meter/gain") < 1e-15);
  Tools other = b.test.protocol.tools;
  other.meter.origin.line = 7;
  b.test.record.tools_after = other;
  const PowerResult p = judged(b);
  CHECK_THAT(u_of(p, "meter/gain"), WithinRel(0.01 / std::sqrt(3.0) * std::sqrt(2.0), 1e-9));
  CHECK(has(p, PowerRemark::other_instrument));
}

// MEASUREMENT M3: by default 0.05 of a meter's and 0.1 of a sun meter's gain is drawn anew.
TEST_CASE("power: a part of each gain is drawn in each stage") {
  TestBuilder b;
  b.same_panel();
  Stated<Irradiance> ten_percent;
  ten_percent.relative = percent(10);
  b.test.protocol.tools.sun.error = ten_percent;
  Assumptions used;
  const PowerResult p = judged(b, &used);
  CHECK(used.uses(DefaultId::sun_between_stages));
  // The gain enters once as itself and once through the cells, hotter than the back in more sun:
  // 1 + gamma dT G' / (1 + gamma (Tc - 25)) with gamma -0.35 %/K, dT 3 K, 851 W/m2, Tc 47.6 degC.
  const double through_cells = 1.0 - 0.0035 * 3.0 * 0.851 / (1.0 - 0.0035 * (47.553 - 25.0));
  CHECK_THAT(u_of(p, "sun/between"),
             WithinRel(0.01 / std::sqrt(3.0) * std::sqrt(2.0) * through_cells, 1e-4));
}

// MEASUREMENT's issue check: different models with unknown coefficients, cells 6.5 K apart, carry
// the difference; panels of one model do not.
TEST_CASE("power: a coefficient is shared within a model only") {
  TestBuilder b;
  b.test.record.control_same_model = false;
  Test t = b.build();
  for (Reading& r : t.record.readings) {
    const bool later = t.record.setups[r.setup].stage == after;
    if (later) r.temperature = r.temperature + TemperatureDifference::from_si(6.5);
  }
  Assumptions a;
  const PowerResult different = judge_power(t, after, a);
  CHECK(a.uses(DefaultId::coefficient_unknown));
  t.record.control_same_model = true;
  const PowerResult same = judge_power(t, after, a);
  const double expected = 6.5 * 0.0015 / std::sqrt(3.0) * std::sqrt(2.0);
  CHECK_THAT(u_of(different, "coefficient"), WithinRel(expected, 0.2));
  CHECK(u_of(same, "coefficient") < 1e-12);
}

TEST_CASE("power: a gain is not valid, whatever the limit") {
  const PowerResult p = judged(TestBuilder().loss(-0.06));
  CHECK_FALSE(p.valid);
  CHECK(has(p, PowerRemark::power_gained));
  CHECK_FALSE(p.is_within());
}

TEST_CASE("power: a control that moved makes the comparison not valid") {
  TestBuilder b;
  Test t = b.build();
  for (Reading& r : t.record.readings) {
    if (t.record.setups[r.setup].stage == after) r.power = r.power * 0.90;
  }
  Assumptions a;
  const PowerResult p = judge_power(t, after, a);
  CHECK(has(p, PowerRemark::control_moved));
  CHECK_FALSE(p.valid);
}

TEST_CASE("power: skipped readings stay out and are shown beside") {
  Test t = TestBuilder().build();
  t.record.readings[0].skip = "cloud";
  t.record.readings[0].power = t.record.readings[0].power * 0.3;
  Assumptions a;
  const PowerResult p = judge_power(t, after, a);
  CHECK(p.skipped == 1);
  CHECK_THAT(p.estimate.loss().si(), WithinAbs(0.0, 1e-12));
  REQUIRE(p.with_skipped.has_value());
  CHECK(p.with_skipped->loss() < percent(-1));
}

TEST_CASE("power: a fixed load and a full battery are not maximum power") {
  TestBuilder fixed;
  fixed.test.protocol.measure.maximum_power = MaximumPower::fixed_load;
  CHECK_FALSE(judged(fixed).decides);
  TestBuilder tracker;
  tracker.test.protocol.measure.maximum_power = MaximumPower::tracker_settled;
  CHECK(has(judged(tracker), PowerRemark::battery_not_stated));
  Test t = tracker.build();
  t.record.setups[2].battery = percent(95);
  Assumptions a;
  const PowerResult p = judge_power(t, after, a);
  CHECK(has(p, PowerRemark::battery_full));
  CHECK_FALSE(p.decides);
}

TEST_CASE("power: the day of the last reading is counted from the shots") {
  Test t = TestBuilder().build();
  for (Setup& s : t.record.setups) {
    if (s.stage == after) s.date = "2026-07-02";
  }
  Assumptions a;
  CHECK(judge_power(t, after, a).days_after_shots == 18);
  CHECK(judge_power(t, after, a).first_day_after_shots == 18);
}

// Found by review: one late set-up, or a sibling's, dated the whole stage.
TEST_CASE("power: the days after the shots are those of the struck panel, first and last") {
  Test t = TestBuilder().build();
  const auto last = std::find_if(t.record.setups.rbegin(), t.record.setups.rend(),
                                 [](const Setup& s) { return s.stage == after; });
  last->date = "2026-06-19";
  Assumptions a;
  const PowerResult p = judge_power(t, after, a);
  CHECK(p.first_day_after_shots == 0);
  CHECK(p.days_after_shots == 5);
  Test s = TestBuilder().siblings(3, 0.004).build();
  Setup own = s.record.setups.back();
  own.name = "after 9";
  own.number = 9;
  own.date = "2026-06-20";
  Reading of_sibling = *std::find_if(s.record.readings.begin(), s.record.readings.end(),
                                     [](const Reading& r) { return r.role == Role::sibling; });
  of_sibling.setup = s.record.setups.size();
  s.record.setups.push_back(own);
  s.record.readings.push_back(of_sibling);
  CHECK(judge_power(s, after, a).days_after_shots == 0);
}

TEST_CASE("power: smallest loss shown has a range where the scatter was observed") {
  const PowerResult p = judged(TestBuilder());
  REQUIRE(p.smallest_shown_range.has_value());
  CHECK(p.smallest_shown_range->first < p.smallest_shown);
  CHECK(p.smallest_shown_range->second > p.smallest_shown);
}

// Found by review: stated scatter for one step of three was enough.
TEST_CASE("power: stated set-up scatter must cover every step or the whole") {
  TestBuilder b;
  b.setups(1, 1);
  b.test.protocol.measure.readings_independent = "triggered anew each time";
  b.test.protocol.measure.setup_scatter = {{{}, "aim", std::nullopt, percent(0.05)}};
  const PowerResult p = judged(b);
  CHECK(p.obstacle == PowerObstacle::part_not_stated);
  CHECK(p.obstacle_subject == "mount");
  b.test.protocol.measure.setup_scatter = {{{}, "remounting", std::nullopt, percent(0.3)}};
  CHECK(judged(b).estimated());
}

// Found by review: baseline set-ups counted as repeats though nobody said what they redid.
TEST_CASE("power: baseline set-ups need to say what they redid, too") {
  TestBuilder b;
  b.test.protocol.measure.redone.reset();
  Test t = b.setups(1, 1).build();
  for (int k = 0; k < 6; ++k) {
    Setup s = t.record.setups[0];
    s.stage = {StageKind::baseline, 0};
    t.record.setups.push_back(s);
    const std::size_t n = t.record.readings.size();
    for (std::size_t i = 0; i < n; ++i) {
      if (t.record.readings[i].setup != 0) continue;
      Reading copy = t.record.readings[i];
      copy.setup = t.record.setups.size() - 1;
      t.record.readings.push_back(copy);
    }
  }
  Assumptions a;
  CHECK(judge_power(t, after, a).obstacle == PowerObstacle::redone_not_stated);
}

// Found by review: a full battery in a later, dated stage made the main result undecided.
TEST_CASE("power: a battery that was full at another stage does not concern this one") {
  TestBuilder b;
  b.test.protocol.measure.maximum_power = MaximumPower::tracker_settled;
  Test t = b.build();
  for (Setup& s : t.record.setups)
    s.battery = percent(50);
  Setup later = t.record.setups[0];
  later.stage = {StageKind::later, 0};
  later.battery = percent(95);
  t.record.setups.push_back(later);
  Assumptions a;
  const PowerResult p = judge_power(t, after, a);
  CHECK(p.decides);
  CHECK_FALSE(has(p, PowerRemark::battery_not_stated));
}

// MEASUREMENT M9: outlying readings are flagged and kept, and the result without them is shown.
TEST_CASE("power: an outlying reading is flagged and kept") {
  TestBuilder b;
  b.rounds(12);
  Test t = b.build();
  int k = 0;
  for (Reading& r : t.record.readings) {  // readings that scatter by 0.1 %
    if (r.role == Role::struck) r.power = r.power * (1.0 + 0.001 * (k++ % 5 - 2));
  }
  CHECK(judged(t).outlying.empty());
  CHECK_FALSE(judged(t).without_outlying.has_value());
  Reading& off = t.record.readings.back().role == Role::struck
                     ? t.record.readings.back()
                     : t.record.readings[t.record.readings.size() - 2];
  off.power = off.power * 0.9;
  off.origin.line = 77;
  const PowerResult p = judged(t);
  REQUIRE(p.outlying.size() == 1);
  CHECK(&t.record.readings[p.outlying[0]] == &off);
  const PowerNote& note = note_of(p, PowerRemark::outlying_reading);
  CHECK(note.where.line == 77);
  CHECK(note.subject == "after 4");
  CHECK(note.numbers.at(0) > note.numbers.at(1));
  REQUIRE(p.without_outlying.has_value());
  // 10 % of one of 48 readings after.
  CHECK_THAT(p.estimate.lambda - p.without_outlying->lambda, WithinAbs(std::log(0.9) / 48.0, 2e-4));
  CHECK(p.decides);
}

// MEASUREMENT M2: three unstruck units decide, fewer do not.
TEST_CASE("power: siblings") {
  const auto result = [](int units, double loss) {
    return judged(TestBuilder().siblings(units, 0.004).loss(loss));
  };
  const PowerResult beyond = result(5, 0.15);
  REQUIRE(beyond.estimated());
  CHECK(beyond.is_beyond());
  CHECK_FALSE(beyond.before.has_value());
  CHECK_FALSE(has(beyond, PowerRemark::few_units));
  CHECK_FALSE(has(beyond, PowerRemark::tools_not_said));
  CHECK(result(3, 0.30).decides);  // two degrees of freedom, but three units
  const PowerResult two = result(2, 0.30);
  REQUIRE(two.estimated());
  CHECK_FALSE(two.decides);
  CHECK(note_of(two, PowerRemark::spread_not_measured).numbers == std::vector<double>{2});
  CHECK_FALSE(has(two, PowerRemark::few_units));
  const PowerResult open = result(4, 0.05);
  CHECK(open.answers.beyond == Answer::undecided);
  CHECK_FALSE(open.settling.has_value());
}

TEST_CASE("power: a baseline of the struck panel says nothing about siblings") {
  const Test t = TestBuilder().siblings(4, 0.004).build();
  const PowerResult p = judged(with_baseline(t, 4, 0.05));
  CHECK_FALSE(p.baseline.has_value());
  CHECK(p.valid);
  CHECK_THAT(p.estimate.u_lambda, WithinRel(judged(t).estimate.u_lambda, 1e-12));
}

TEST_CASE("power: a fitted line is told with what it costs") {
  TestBuilder b;
  b.same_panel().timed().setups(4, 4);
  b.test.protocol.measure.fitted_trend = true;
  const PowerResult p = judged(b);
  REQUIRE(p.estimated());
  const PowerNote& note = note_of(p, PowerRemark::trend_fitted);
  CHECK_THAT(note.numbers.at(0),
             WithinRel(combine(p.budget, Evaluation::type_a).standard_u, 1e-12));
  CHECK(note.numbers.at(0) > note.numbers.at(1));
}
