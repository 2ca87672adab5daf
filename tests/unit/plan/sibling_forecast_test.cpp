// The forecast of a struck panel compared with unstruck units of its model (MEASUREMENT M2).
#include <cmath>

#include "hailwright/evaluate/power.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "hailwright/plan/measuring_forecast.hpp"
#include "plan/imagined_measurement.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

std::vector<MeasuringForecast> forecasts(const Protocol& p) {
  Assumptions unlisted;
  return forecast_measuring(p, Panel{}, unlisted);
}

Protocol of_siblings() {
  Protocol p = TestBuilder().build().protocol;
  p.measure.compare = Comparison::sibling_panel;
  p.measure.siblings = 4;
  p.measure.after = 3;
  p.measure.readings = 4;
  p.measure.expected_scatter = percent(0.4);
  p.measure.unit_tolerance = percent(3);
  return p;
}

}  // namespace

// The readings of the imagined test with units that differ: judge sees their spread, and with that
// figure the forecast is its result.
TEST_CASE("sibling_forecast: siblings, with the spread that judge saw") {
  ImaginedMeasurement m;
  m.protocol = of_siblings();
  m.protocol.tools.meter.step = Power::from_si(0.1);
  m.units = planned_units(m.protocol.measure);
  Test test = imagine(m);
  const std::vector<double> off{0.011, -0.004, 0.002, -0.009};
  for (Reading& r : test.record.readings) {
    if (r.role == Role::sibling) r.power = std::exp(off[r.unit]) * r.power;
  }
  Assumptions used;
  const PowerResult judged = judge_power(test, {StageKind::after, 0}, used);
  REQUIRE(judged.model);
  CHECK_THAT(*judged.model->pooled_sd, WithinAbs(*sample_sd(off), 1e-9));
  m.protocol.measure.expected_scatter = Ratio::from_si(1e-9);
  m.protocol.measure.unit_tolerance = Ratio::from_si(std::sqrt(3.0) * *sample_sd(off));
  const MeasuringForecast f = forecasts(m.protocol).at(0);
  // The digits of a display weigh a little differently on panels of other powers.
  CHECK_THAT(f.planned.smallest_shown.si(), WithinRel(judged.smallest_shown.si(), 1e-4));
  CHECK_THAT(f.planned.real_above.si(), WithinRel(judged.estimate.real_above().si(), 1e-4));
  CHECK(f.planned.observed_dof == judged.model->observed_dof);
  CHECK(f.planned.decides == judged.decides);
}

TEST_CASE("sibling_forecast: a maker's tolerance gives the spread of siblings") {
  const auto all = forecasts(of_siblings());
  REQUIRE(all.size() == 1);
  const MeasuringForecast& f = all[0];
  // GUM 4.3.7: half-width over the root of 3.
  CHECK_THAT(f.spread->si(), WithinRel(0.03 / std::sqrt(3.0), 1e-12));
  CHECK(f.scatter == percent(0.4));
  CHECK_FALSE(f.tried());
  CHECK(f.planned.usable());
  CHECK(f.planned.units.before == 0);
  CHECK(f.planned.units.after == 3);
  CHECK(f.planned.units.siblings == 4);
  CHECK(f.has(ForecastFact::no_reading_before));
  CHECK(f.has(ForecastFact::spread_by_tolerance));
  for (const ForecastFact fact :
       {ForecastFact::before_cannot_be_added, ForecastFact::setups_not_planned,
        ForecastFact::siblings_not_planned, ForecastFact::scatter_tried,
        ForecastFact::scatter_taken, ForecastFact::too_few_to_decide,
        ForecastFact::rests_on_stated})
    CHECK_FALSE(f.has(fact));
  // t_0.975 of 3 degrees of freedom, 3.182 (any table), about the whole of u: day 0.2 % (default).
  const double unit = std::sqrt(0.03 * 0.03 / 3.0 + 0.004 * 0.004 / 3.0);
  CHECK_THAT(f.planned.real_above.si(),
             WithinAbs(1.0 - std::exp(-3.182 * unit * std::sqrt(1.25)), 0.001));
}

TEST_CASE("sibling_forecast: the curve of siblings, and its floor") {
  const MeasuringForecast f = forecasts(of_siblings()).at(0);
  REQUIRE(f.curve.size() == 10);
  CHECK(f.curve.front().units.siblings == 3);
  CHECK(f.curve.front().decides);
  CHECK(f.curve.back().units.siblings == 12);
  CHECK(f.curve.back().units.after == 3);
  for (std::size_t i = 1; i < f.curve.size(); ++i) {
    CAPTURE(i);
    CHECK(f.curve[i].decides);
    CHECK(f.curve[i].smallest_shown < f.curve[i - 1].smallest_shown);
    CHECK(f.curve[i].smallest_shown > f.floor);
  }
  // 5 % lies below the floor of units that differ by 1.7 %: 3.241516 of the normal distribution.
  const double unit = std::sqrt(0.03 * 0.03 / 3.0 + 0.004 * 0.004 / 3.0 + 0.002 * 0.002);
  CHECK_THAT(f.floor.si(), WithinAbs(-std::expm1(-3.241516 * unit), 1e-6));
  CHECK(f.has(ForecastFact::claim_out_of_reach));
  Protocol alike = of_siblings();
  alike.measure.unit_tolerance = percent(2);
  const MeasuringForecast g = forecasts(alike).at(0);
  REQUIRE(g.needed);
  CHECK(g.has(ForecastFact::claim_needs_more));
  alike.measure.siblings = *g.needed;
  CHECK(forecasts(alike).at(0).planned.chance_at_claim >= 0.9);
  alike.measure.siblings = *g.needed - 1;
  CHECK(forecasts(alike).at(0).planned.chance_at_claim < 0.9);
}

TEST_CASE("sibling_forecast: too few siblings decide nothing, three are proposed") {
  Protocol p = of_siblings();
  for (const bool told : {true, false}) {
    if (!told) p.measure.unit_tolerance.reset();
    for (const int siblings : {1, 2}) {
      CAPTURE(told, siblings);
      p.measure.siblings = siblings;
      for (const MeasuringForecast& f : forecasts(p)) {
        CHECK_FALSE(f.planned.usable());
        CHECK(f.has(ForecastFact::too_few_to_decide));
        REQUIRE(f.proposed);
        CHECK(f.proposed->units.siblings == 3);
        CHECK(f.best().usable());
      }
    }
  }
}

TEST_CASE("sibling_forecast: a spread that nobody knows is tried at three sizes") {
  Protocol p = of_siblings();
  p.measure.unit_tolerance.reset();
  p.measure.siblings.reset();
  p.measure.after.reset();
  p.measure.expected_scatter.reset();
  p.measure.redone.reset();
  const auto tried = forecasts(p);
  REQUIRE(tried.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(tried[i].tried());
    CHECK(tried[i].spread == tried_spreads[i]);
    CHECK(tried[i].scatter == tried_scatters[1]);
    CHECK(tried[i].planned.units.siblings == proposed_siblings);
    for (const ForecastFact fact :
         {ForecastFact::spread_tried, ForecastFact::scatter_taken,
          ForecastFact::siblings_not_planned, ForecastFact::setups_not_planned})
      CHECK(tried[i].has(fact));
    // The spread holds what the set-ups do, whatever they redo.
    CHECK_FALSE(tried[i].has(ForecastFact::redone_not_stated));
  }
  CHECK(tried[0].planned.smallest_shown < tried[2].planned.smallest_shown);
}

TEST_CASE("sibling_forecast: no day of the panel alone is assumed for siblings") {
  Assumptions used;
  forecast_measuring(of_siblings(), Panel{}, used);
  CHECK_FALSE(used.uses(DefaultId::day_same_panel));
  CHECK_FALSE(used.uses(DefaultId::stage_same_panel));
  CHECK_FALSE(used.uses(DefaultId::control_stability));
}
