// MEASUREMENT M2: replication, and M8: the line in time that a protocol may ask for.
#include "evaluate/stage_comparison.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

const PowerQuestion both{{StageKind::before, 0}, {StageKind::after, 0}, PowerQuestion::Of::both};

PowerModelResult compared(const Test& t, ScatterSource source = ScatterSource::observed,
                          const PowerQuestion& question = both) {
  Assumptions unlisted;
  return compare_stages(t, question, source, unlisted);
}

double u_of(const PowerModel& m, const std::string& begin) {
  double variance = 0.0;
  for (const BudgetRow& row : m.budget()) {
    if (row.input.id.starts_with(begin)) variance += row.contribution() * row.contribution();
  }
  return std::sqrt(variance);
}

void add_baseline(Test& t, int setups) {
  for (int k = 0; k < setups; ++k) {
    Setup s = t.record.setups[0];
    s.stage = {StageKind::baseline, 0};
    s.name = "baseline " + std::to_string(k + 1);
    t.record.setups.push_back(s);
    for (Reading r : std::vector<Reading>(t.record.readings)) {
      if (r.setup != 0) continue;
      r.setup = t.record.setups.size() - 1;
      if (r.role == Role::struck) r.power = r.power * std::exp(k % 2 == 0 ? 0.004 : -0.004);
      t.record.readings.push_back(r);
    }
  }
}

}  // namespace

TEST_CASE("stages: one set-up each and no baseline rest on readings and stated components") {
  TestBuilder b;
  b.setups(1, 1);
  b.test.protocol.measure.setup_scatter = {{{}, "remounting", std::nullopt, percent(0.2)}};
  Test t = b.build();
  CHECK(compared(t).obstacle == PowerObstacle::no_replication);
  for (Reading& r : t.record.readings) {
    if (r.role == Role::struck) r.power = r.power * std::exp(0.001 * (*r.round - 2));
  }
  const auto stated = compared(t, ScatterSource::stated);
  REQUIRE(stated.model.has_value());
  CHECK_FALSE(stated.model->pooled_sd.has_value());
  CHECK_THAT(u_of(*stated.model, "setup/"), WithinRel(0.002 * std::sqrt(2.0), 1e-9));
  // -0.1 %, 0, +0.1 % in each: s = 0.1 %, worth one reading where nobody says that they are more.
  CHECK_THAT(u_of(*stated.model, "readings/"), WithinRel(0.001 * std::sqrt(2.0), 1e-9));
  t.protocol.measure.readings_independent = "triggered anew each time";
  CHECK_THAT(u_of(*compared(t, ScatterSource::stated).model, "readings/"),
             WithinRel(0.001 * std::sqrt(2.0 / 3.0), 1e-9));
}

TEST_CASE("stages: a baseline pools into the scatter of one set-up a stage") {
  Test t = TestBuilder().setups(1, 1).build();
  const double plain = compared(TestBuilder().setups(2, 2).build()).model->lambda();
  add_baseline(t, 4);
  const auto pooled = compared(t);
  REQUIRE(pooled.model.has_value());
  CHECK(pooled.model->observed_dof == 3.0);
  CHECK(pooled.model->units_baseline == 4);
  CHECK_THAT(*pooled.model->pooled_sd, WithinRel(0.004 * std::sqrt(4.0 / 3.0), 1e-9));
  CHECK_THAT(u_of(*pooled.model, "scatter"),
             WithinRel(*pooled.model->pooled_sd * std::sqrt(2.0), 1e-9));
  CHECK_THAT(pooled.model->lambda(), WithinAbs(plain, 1e-12));
}

// Pooled over unequal numbers: 5 and 3 set-ups, nu = 6.
TEST_CASE("stages: unequal numbers of set-ups") {
  const auto built = compared(TestBuilder().setups(5, 3).build());
  REQUIRE(built.model.has_value());
  CHECK(built.model->observed_dof == 6.0);
  CHECK_THAT(u_of(*built.model, "scatter"),
             WithinRel(*built.model->pooled_sd * std::sqrt(1.0 / 5.0 + 1.0 / 3.0), 1e-12));
}

TEST_CASE("stages: a fitted line takes a steady drift across the shots out") {
  TestBuilder b;
  b.setups(5, 5).loss(0.03).setup_scatter(0.002).timed();
  Test t = b.build();
  for (Reading& r : t.record.readings) {
    if (r.role == Role::struck) r.power = r.power * std::exp(-0.1 * *r.minute / 1440.0);
  }
  const double drifted = compared(t).model->lambda();
  t.protocol.measure.fitted_trend = true;
  const auto built = compared(t);
  REQUIRE(built.model.has_value());
  const PowerModel& m = *built.model;
  REQUIRE(m.trend.has_value());
  CHECK(m.observed_dof == 7.0);
  CHECK(m.trend->u_per_day > 0.0);
  CHECK(std::abs(m.trend->per_day + 0.1) < 3.0 * m.trend->u_per_day);
  CHECK(std::abs(drifted - std::log(0.97)) > 0.02);
  CHECK(std::abs(m.lambda() - std::log(0.97)) < 2.0 * u_of(m, "scatter"));
  // What it costs: the step scatters more than without the line, though drift makes that larger.
  CHECK(u_of(m, "scatter") > 2.0 * m.trend->u_without);
  CHECK(u_of(m, "stage") > 0.0);  // what is not steady is still to be reckoned with
  double weights = 0.0;
  for (const auto& term : m.terms)
    weights += term.weight;
  CHECK_THAT(weights, WithinAbs(0.0, 1e-12));
}

TEST_CASE("stages: a fitted line needs four timed set-ups a stage") {
  TestBuilder b;
  b.test.protocol.measure.fitted_trend = true;
  b.test.protocol.measure.setup_scatter = {{{}, "remounting", std::nullopt, percent(0.2)}};
  CHECK(compared(b.build()).obstacle == PowerObstacle::trend_needs_setups);
  CHECK(compared(b.build(), ScatterSource::stated).obstacle == PowerObstacle::trend_needs_setups);
  b.timed();
  CHECK(compared(b.build()).model.has_value());
  b.setups(3, 4);
  CHECK(compared(b.build()).obstacle == PowerObstacle::trend_needs_setups);
}

TEST_CASE("stages: a fitted line goes through set-ups, not through days") {
  TestBuilder b;
  b.test.protocol.measure.fitted_trend = true;
  Test t = b.timed().build();
  for (std::size_t i = 0; i < t.record.setups.size(); ++i)
    t.record.setups[i].date = "2026-06-1" + std::to_string(i / 2);
  const auto built = compared(t);
  REQUIRE(built.model.has_value());
  CHECK_FALSE(built.model->unit_is_day);
  CHECK(built.model->observed_dof == 5.0);
  CHECK(u_of(*built.model, "day/") > 0.0);  // set-ups of a day share its sky
  t.protocol.measure.fitted_trend = false;
  CHECK(compared(t).model->unit_is_day);
}

TEST_CASE("stages: no line where untouched panels are checked") {
  TestBuilder b;
  b.test.protocol.measure.fitted_trend = true;
  Test t = b.timed().build();
  const PowerQuestion control{
      {StageKind::before, 0}, {StageKind::after, 0}, PowerQuestion::Of::control};
  CHECK_FALSE(compared(t, ScatterSource::observed, control).model->trend.has_value());
  add_baseline(t, 2);
  const PowerQuestion baseline{
      {StageKind::baseline, 0}, {StageKind::before, 0}, PowerQuestion::Of::both};
  CHECK_FALSE(compared(t, ScatterSource::observed, baseline).model->trend.has_value());
}
