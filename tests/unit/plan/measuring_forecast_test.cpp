#include "hailwright/plan/measuring_forecast.hpp"

#include <cmath>

#include "hailwright/evaluate/power.hpp"
#include "hailwright/metrology/loss_decision.hpp"
#include "plan/imagined_measurement.hpp"
#include "support/catch.hpp"
#include "support/real_files.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::read_record;
using hailwright::testing::TestBuilder;

namespace {

constexpr StageId after{StageKind::after, 0};

/// The protocol of a finished test with the scatter that `judge` saw in it.
Protocol plan_of(const Test& test, const PowerResult& judged) {
  Protocol p = test.protocol;
  p.measure.before = judged.model->units_from;
  p.measure.after = judged.model->units_to;
  p.measure.expected_scatter = Ratio::from_si(*judged.model->pooled_sd);
  return p;
}

std::vector<MeasuringForecast> forecasts(const Protocol& p, const Panel& panel = {}) {
  Assumptions unlisted;
  return forecast_measuring(p, panel, unlisted);
}

/// Control panel, and nothing but scatter in it.
Protocol scatter_alone(double see, double scatter) {
  Protocol p = TestBuilder().build().protocol;
  p.decide.see = Ratio::from_si(see);
  p.measure.expected_scatter = Ratio::from_si(scatter);
  p.measure.day = percent(0.0);
  p.measure.control_stability = percent(0.0);
  return p;
}

}  // namespace

TEST_CASE("measuring_forecast: what judge finds with the scatter that judge saw") {
  for (const bool alone : {false, true}) {
    for (const int setups : {3, 4, 7}) {
      CAPTURE(alone, setups);
      TestBuilder b;
      b.setup_scatter(0.006).setups(setups, setups);
      if (alone) b.same_panel();
      Test test = b.build();
      // At the irradiance of the forecast: cells warm with it, and so does what a gain of the sun
      // meter does to a panel that is compared with itself.
      for (Reading& r : test.record.readings)
        r.irradiance = Irradiance::from_si(900.0);
      Assumptions used;
      const PowerResult judged = judge_power(test, after, used);
      const MeasuringOutlook planned =
          forecasts(plan_of(test, judged), test.record.panel).at(0).planned;
      CHECK_THAT(planned.smallest_shown.si(), WithinAbs(judged.smallest_shown.si(), 1e-9));
      CHECK_THAT(planned.real_above.si(), WithinAbs(judged.estimate.real_above().si(), 1e-9));
      CHECK_THAT(planned.standard_u.si(), WithinAbs(judged.estimate.u_lambda, 1e-9));
      CHECK(planned.observed_dof == judged.model->observed_dof);
      CHECK(planned.decides);
    }
  }
}

// The demo record's readings are neither exact nor alike, so that gains, digits and temperatures do
// not cancel to the last digit in it. Without those rows its budget is the forecast's.
TEST_CASE("measuring_forecast: the demo protocol and its record") {
  const Test test = read_record("protocols/demo/rigid-withstood.yaml");
  Assumptions used;
  const PowerResult judged = judge_power(test, after, used);
  const MeasuringForecast f = forecasts(plan_of(test, judged), test.record.panel).at(0);
  std::vector<BudgetRow> rows = judged.budget;
  std::erase_if(rows, [](const BudgetRow& r) {
    return !r.input.id.starts_with("scatter") && !r.input.id.starts_with("day") &&
           !r.input.id.starts_with("stage");
  });
  CHECK_THAT(
      f.planned.smallest_shown.si(),
      WithinAbs(
          smallest_shown_loss(combine(rows), combine(rows, Evaluation::type_a), 0.025, 0.1).si(),
          1e-9));
  // What they add is below what is printed: 2.4 % in both.
  CHECK_THAT(f.planned.smallest_shown.si(), WithinAbs(judged.smallest_shown.si(), 1e-6));
}

// One set-up a stage with stated components, as in the worked design A: what rests on them is the
// same; readings are exact here, and the temperatures of both stages alike.
TEST_CASE("measuring_forecast: stated components and one set-up a stage") {
  const Test test = read_record("tests/reference/designs/design-a.yaml");
  Protocol p = test.protocol;
  p.measure.before = 1;
  p.measure.after = 1;
  p.measure.readings = 12;
  const auto all = forecasts(p, test.record.panel);
  REQUIRE(all.size() == 1);
  const MeasuringForecast& f = all[0];
  CHECK(f.scatter_stated);
  CHECK(f.planned.usable());
  CHECK(f.planned.rests_on_stated);
  CHECK_FALSE(f.proposed);
  CHECK(f.has(ForecastFact::rests_on_stated));
  CHECK_FALSE(f.has(ForecastFact::too_few_to_decide));
  // facts design_A: alignment 0.3 %, contact 0.1 %, day 0.4 %, stage 0.2 %, one draw of the first
  // three in each stage; the probe adds 0.24 % a stage, by 48 degC in the cells and 1 K half-width.
  const double probe = 0.0038 / (1.0 - 0.0038 * (45.0 + 3.0 * 0.9 - 25.0)) / std::sqrt(3.0);
  CHECK_THAT(f.planned.standard_u.si(), WithinRel(std::sqrt(2 * (0.003 * 0.003 + 0.001 * 0.001 +
                                                                 0.004 * 0.004 + probe * probe) +
                                                            0.002 * 0.002),
                                                  1e-6));
  CHECK_THAT(f.scatter.si(),
             WithinRel(std::sqrt(0.003 * 0.003 + 0.001 * 0.001 + probe * probe), 1e-6));
  // A reading alone has no spread, here as in judge.
  p.measure.readings = 1;
  CHECK(forecasts(p, test.record.panel).at(0).planned.obstacle == PowerObstacle::one_reading);
}

TEST_CASE("measuring_forecast: scatter alone needs what a two-sample t needs") {
  for (const double see : {0.005, 0.01, 0.015}) {
    for (const double scatter : {0.004, 0.006}) {
      CAPTURE(see, scatter);
      const MeasuringForecast f = forecasts(scatter_alone(see, scatter)).at(0);
      REQUIRE(f.needed);
      CHECK(*f.needed == std::max(3, setups_needed(-std::log1p(-see) / scatter, 0.025, 0.9)));
      CHECK_THAT(f.floor.si(), WithinAbs(0.0, 1e-9));
    }
  }
}

TEST_CASE("measuring_forecast: the loss that is shown nine times in ten") {
  Protocol p = scatter_alone(0.02, 0.006);
  p.measure.control_stability = percent(0.4);
  p.decide.see = forecasts(p).at(0).planned.smallest_shown;
  const MeasuringOutlook o = forecasts(p).at(0).planned;
  CHECK_THAT(o.chance_at_claim, WithinAbs(0.9, 1e-9));
  // The interval about zero: sinh of its half-width in the logarithm, from L_C.
  CHECK_THAT(o.half_width.si(), WithinRel(std::sinh(-std::log1p(-o.real_above.si())), 1e-12));
}

TEST_CASE("measuring_forecast: the limit stands in for a claim that nobody made") {
  Protocol p = scatter_alone(0.02, 0.006);
  CHECK(forecasts(p).at(0).claim == percent(2));
  p.decide.see.reset();
  CHECK(forecasts(p).at(0).claim == p.decide.limit);
}

TEST_CASE("measuring_forecast: the curve, and its floor") {
  Protocol p = TestBuilder().build().protocol;
  p.measure.expected_scatter = percent(0.6);
  const MeasuringForecast f = forecasts(p).at(0);
  REQUIRE(f.curve.size() == 11);
  CHECK(f.curve.front().units.before == 2);
  CHECK(f.curve.back().units.after == 12);
  CHECK_FALSE(f.curve.front().decides);
  CHECK(f.curve.front().chance_at_claim == 0.0);
  CHECK(f.curve.front().chance_within == 0.0);
  for (std::size_t i = 1; i < f.curve.size(); ++i) {
    CAPTURE(i);
    CHECK(f.curve[i].decides);
    CHECK(f.curve[i].smallest_shown < f.curve[i - 1].smallest_shown);
    CHECK(f.curve[i].smallest_shown > f.floor);
    CHECK(f.curve[i].chance_at_claim >= f.curve[i - 1].chance_at_claim);
  }
  // Day 0.2 % in each stage and stability 0.5 %, both defaults, and 1.959964 + 1.281552 of the
  // normal distribution.
  const double u = std::sqrt(2 * 0.002 * 0.002 + 0.005 * 0.005);
  CHECK_THAT(f.floor.si(), WithinAbs(-std::expm1(-3.241516 * u), 1e-7));
  REQUIRE_FALSE(f.budget.empty());
  for (std::size_t i = 1; i < f.budget.size(); ++i)
    CHECK(f.budget[i].standard_u <= f.budget[i - 1].standard_u);
}

TEST_CASE("measuring_forecast: a claim below the floor is out of reach") {
  Protocol p = TestBuilder().build().protocol;
  p.measure.before = 4;
  p.measure.after = 4;
  p.measure.expected_scatter = percent(0.6);
  p.decide.see = percent(1.5);
  const MeasuringForecast f = forecasts(p).at(0);
  CHECK(percent(1.5) < f.floor);
  CHECK_FALSE(f.needed);
  CHECK(f.has(ForecastFact::claim_out_of_reach));
  p.decide.see = percent(2.2);
  const MeasuringForecast more = forecasts(p).at(0);
  REQUIRE(more.needed);
  CHECK(*more.needed > 4);
  CHECK(more.has(ForecastFact::claim_needs_more));
  CHECK_FALSE(more.has(ForecastFact::claim_out_of_reach));
  p.measure.before = *more.needed;
  p.measure.after = *more.needed;
  const MeasuringForecast enough = forecasts(p).at(0);
  CHECK(enough.planned.chance_at_claim >= 0.9);
  CHECK_FALSE(enough.has(ForecastFact::claim_needs_more));
  p.measure.after = *more.needed - 1;
  p.measure.before = *more.needed - 1;
  CHECK(forecasts(p).at(0).planned.chance_at_claim < 0.9);
}

TEST_CASE("measuring_forecast: too few set-ups decide nothing, three and three are proposed") {
  Protocol p = TestBuilder().build().protocol;
  p.measure.expected_scatter = percent(0.6);
  for (const auto& [before, later] : {std::pair(1, 1), std::pair(2, 2), std::pair(1, 4)}) {
    CAPTURE(before, later);
    p.measure.before = before;
    p.measure.after = later;
    const MeasuringForecast f = forecasts(p).at(0);
    CHECK_FALSE(f.planned.usable());
    CHECK(f.has(ForecastFact::too_few_to_decide));
    CHECK(f.planned.chance_at_claim == 0.0);
    REQUIRE(f.proposed);
    CHECK(f.proposed->units.before == 3);
    CHECK(f.proposed->units.after == std::max(3, later));
    CHECK(f.best().usable());
  }
  p.measure.before = 1;
  p.measure.after = 1;
  CHECK(forecasts(p).at(0).planned.obstacle == PowerObstacle::no_replication);
  // Four degrees of freedom decide, however they are shared (M2).
  p.measure.before = 2;
  p.measure.after = 4;
  CHECK(forecasts(p).at(0).planned.usable());
}

TEST_CASE("measuring_forecast: a scatter that nobody knows is tried at three sizes") {
  Protocol p = TestBuilder().build().protocol;
  const auto tried = forecasts(p);
  REQUIRE(tried.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(tried[i].scatter == tried_scatters[i]);
    CHECK_FALSE(tried[i].scatter_stated);
    CHECK(tried[i].has(ForecastFact::scatter_tried));
    CHECK(tried[i].has(ForecastFact::setups_not_planned));
    CHECK(tried[i].has(ForecastFact::before_cannot_be_added));
    CHECK(tried[i].planned.units.before == proposed_setups(p.measure));
  }
  CHECK(tried[0].planned.smallest_shown < tried[2].planned.smallest_shown);
  SetupComponent mount;
  mount.name = "mount";
  mount.standard_u = percent(0.3);
  p.measure.setup_scatter = {mount};
  CHECK(forecasts(p).size() == 3);
  CHECK(forecasts(p).at(0).has(ForecastFact::components_incomplete));
  CHECK(forecasts(p).at(0).components_lack == "aim");
  p.measure.expected_scatter = percent(0.6);
  const auto stated = forecasts(p);
  REQUIRE(stated.size() == 1);
  CHECK(stated[0].scatter_stated);
  CHECK_FALSE(stated[0].has(ForecastFact::scatter_tried));
  CHECK(stated[0].has(ForecastFact::before_cannot_be_added));
}

// The expected scatter is a figure of the plan: the record decides by what it shows.
TEST_CASE("measuring_forecast: judge never uses the expected scatter") {
  TestBuilder b;
  Assumptions used;
  const PowerResult without = judge_power(b.build(), after, used);
  b.test.protocol.measure.expected_scatter = percent(5);
  const PowerResult with = judge_power(b.build(), after, used);
  CHECK(with.estimate.u_lambda == without.estimate.u_lambda);
  CHECK(with.smallest_shown == without.smallest_shown);
  b.setups(1, 1);
  CHECK(judge_power(b.build(), after, used).obstacle == PowerObstacle::no_replication);
}

// MEASUREMENT M6: each planned look has its share of the risk, in the plan as in the judgement.
TEST_CASE("measuring_forecast: planned looks share the risk") {
  Protocol p = TestBuilder().build().protocol;
  p.measure.expected_scatter = percent(0.6);
  const MeasuringForecast one = forecasts(p).at(0);
  CHECK(one.risk == 0.025);
  p.decide.looks = 2;
  const MeasuringForecast two = forecasts(p).at(0);
  CHECK(two.looks == 2);
  CHECK(two.risk == 0.0125);
  CHECK(two.planned.smallest_shown > one.planned.smallest_shown);
  p.decide.looks = 1;
  p.decide.risk = percent(1.25);
  CHECK(forecasts(p).at(0).planned.smallest_shown == two.planned.smallest_shown);
}

TEST_CASE("measuring_forecast: what judge would ask for is asked for before") {
  Protocol p = TestBuilder().build().protocol;
  p.measure.redone.reset();
  p.measure.maximum_power = MaximumPower::fixed_load;
  MeasuringForecast f = forecasts(p).at(0);
  CHECK(f.has(ForecastFact::redone_not_stated));
  CHECK(f.has(ForecastFact::fixed_load));
  CHECK(f.planned.usable());
  p.measure.redone = std::vector<Redone>{Redone::aim, Redone::probe, Redone::leads};
  f = forecasts(p).at(0);
  CHECK(f.best().obstacle == PowerObstacle::part_not_redone);
  CHECK(f.best().obstacle_subject == "mount");
  CHECK(f.curve.empty());
  CHECK(f.budget.empty());
  CHECK_FALSE(f.has(ForecastFact::claim_out_of_reach));
}

TEST_CASE("measuring_forecast: no forecast where looks alone decide") {
  Protocol p = TestBuilder().build().protocol;
  p.decide.judges_power = false;
  CHECK(forecasts(p).empty());
}

TEST_CASE("measuring_forecast: defaults are listed") {
  Protocol p = TestBuilder().build().protocol;
  Assumptions used;
  forecast_measuring(p, Panel{}, used);
  for (const DefaultId id : {DefaultId::risk, DefaultId::see_chance, DefaultId::day_control_panel,
                             DefaultId::control_stability, DefaultId::coefficient_unknown})
    CHECK(used.uses(id));
  CHECK_FALSE(used.uses(DefaultId::day_same_panel));
  p.measure.day = percent(0.1);
  p.decide.risk = percent(1);
  Assumptions fewer;
  forecast_measuring(p, Panel{}, fewer);
  CHECK_FALSE(fewer.uses(DefaultId::day_control_panel));
  CHECK_FALSE(fewer.uses(DefaultId::risk));
}

// A control of another model has a coefficient of its own: nothing of it shows while both stages
// are as warm, and it does where they are not.
TEST_CASE("measuring_forecast: a control of another model") {
  Protocol p = scatter_alone(0.02, 0.001);
  const Panel other;
  Assumptions unlisted;
  const auto spoils = [](const MeasuringForecast& f) {
    for (const MeasuringAdvice& a : f.spoils) {
      if (a.change == MeasuringChange::warmer_after) return true;
    }
    return false;
  };
  CHECK_FALSE(spoils(forecast_measuring(p, Panel{}, unlisted).at(0)));
  CHECK(spoils(forecast_measuring(p, Panel{}, unlisted, &other).at(0)));
}

TEST_CASE("measuring_forecast: the strictest risks and the fewest set-ups end in numbers") {
  Protocol p = TestBuilder().build().protocol;
  p.decide.risk = percent(0.1);
  p.decide.see_chance = percent(99.9);
  p.decide.looks = 3;
  p.measure.expected_scatter = percent(40);
  p.measure.before = 1;
  p.measure.after = 2;
  const MeasuringForecast f = forecasts(p).at(0);
  CHECK(f.planned.observed_dof == 1.0);
  CHECK(std::isfinite(f.planned.smallest_shown.si()));
  CHECK(f.planned.smallest_shown <= percent(100));
  CHECK_FALSE(f.needed);
}

// MEASUREMENT M4: near the limit the estimate alone is wrong in up to half of the tests.
TEST_CASE("measuring_forecast: simple acceptance answers more, and the plan says what that risks") {
  Protocol p = TestBuilder().build().protocol;
  p.measure.expected_scatter = percent(0.6);
  const MeasuringForecast guarded = forecasts(p).at(0);
  CHECK_FALSE(guarded.has(ForecastFact::limit_by_estimate));
  CHECK_FALSE(guarded.limit_by_estimate);
  // By the interval: the limit and the least difference that shows, in logarithms.
  CHECK_THAT(
      1.0 - guarded.planned.called_above_limit.si(),
      WithinRel((1.0 - p.decide.limit.si()) * (1.0 - guarded.planned.smallest_shown.si()), 1e-12));
  p.decide.simple = true;
  const MeasuringForecast simple = forecasts(p).at(0);
  CHECK(simple.has(ForecastFact::limit_by_estimate));
  CHECK(simple.limit_by_estimate);
  CHECK(simple.planned.called_above_limit < guarded.planned.called_above_limit);
  CHECK(simple.planned.called_above_limit > p.decide.limit);
  CHECK(simple.planned.chance_within > guarded.planned.chance_within);
  // Whether there is a drop at all is still the interval's to say.
  CHECK(simple.planned.smallest_shown == guarded.planned.smallest_shown);
  CHECK(simple.planned.chance_at_claim == guarded.planned.chance_at_claim);
}

// MEASUREMENT M6: judged at alpha / (looks + 1).
TEST_CASE("measuring_forecast: set-ups added after seeing the result have a smaller risk") {
  Protocol p = TestBuilder().build().protocol;
  p.measure.expected_scatter = percent(0.6);
  for (const int looks : {1, 2, 3}) {
    p.decide.looks = looks;
    const MeasuringForecast f = forecasts(p).at(0);
    CHECK_THAT(f.risk_if_added, WithinRel(0.025 / (looks + 1), 1e-12));
    CHECK(f.has(ForecastFact::added_at_less_risk));
  }
}

TEST_CASE("measuring_forecast: a line in time takes four set-ups a stage and widens the interval") {
  Protocol p = TestBuilder().build().protocol;
  p.measure.expected_scatter = percent(0.6);
  p.measure.fitted_trend = true;
  p.measure.before = 3;
  p.measure.after = 3;
  const MeasuringForecast f = forecasts(p).at(0);
  CHECK(f.planned.obstacle == PowerObstacle::trend_needs_setups);
  CHECK(f.has(ForecastFact::too_few_to_decide));
  REQUIRE(f.proposed);
  CHECK(f.proposed->units.before == 4);
  CHECK(f.fewest_setups == 4);
  CHECK(f.has(ForecastFact::line_fitted));
  p.measure.fitted_trend = false;
  p.measure.before = 4;
  p.measure.after = 4;
  CHECK(forecasts(p).at(0).planned.smallest_shown < f.proposed->smallest_shown);
}

// Readings with times and a scatter that no line can take for itself: judge fits one, and so does
// the forecast.
TEST_CASE("measuring_forecast: a line in time as judge fits it") {
  ImaginedMeasurement m;
  m.protocol = TestBuilder().same_panel().build().protocol;
  m.protocol.measure.fitted_trend = true;
  m.protocol.tools.meter.step = Power::from_si(0.1);
  m.units = {5, 4, 0};
  Test test = imagine(m);
  const std::vector<double> off{0.003, -0.005, 0.004, 0.001, -0.002, 0.005, -0.001, -0.006, 0.002};
  for (Reading& r : test.record.readings)
    r.power = std::exp(off[r.setup]) * r.power;
  Assumptions used;
  const PowerResult judged = judge_power(test, after, used);
  REQUIRE(judged.model);
  REQUIRE(judged.model->trend);
  const MeasuringForecast f = forecasts(plan_of(test, judged)).at(0);
  CHECK_THAT(f.planned.smallest_shown.si(), WithinRel(judged.smallest_shown.si(), 1e-4));
  CHECK(f.planned.observed_dof == 6.0);
}
