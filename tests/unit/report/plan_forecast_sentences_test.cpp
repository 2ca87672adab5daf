#include "report/plan_forecast_sentences.hpp"

#include "support/catch.hpp"

using namespace hailwright;

namespace {

MeasuringForecast forecast() {
  MeasuringForecast f;
  f.scatter = percent(0.6);
  f.risk = 0.025;
  f.risk_if_added = 0.0125;
  f.claim = percent(5);
  f.claim_chance = 0.9;
  f.fewest_setups = 3;
  f.planned.units = {4, 4, 0};
  f.planned.half_width = percent(1.5);
  f.planned.smallest_shown = percent(2.4);
  f.planned.called_above_limit = percent(7.3);
  f.floor = percent(1.9);
  return f;
}

MeasuringForecast siblings() {
  MeasuringForecast f = forecast();
  f.spread = percent(1.7);
  f.planned.units = {0, 3, 4};
  return f;
}

std::string said(ForecastFact fact, const MeasuringForecast& f) {
  return fact_sentence(fact, f, percent(5));
}

constexpr ForecastFact all_facts[] = {ForecastFact::before_cannot_be_added,
                                      ForecastFact::no_reading_before,
                                      ForecastFact::added_at_less_risk,
                                      ForecastFact::setups_not_planned,
                                      ForecastFact::siblings_not_planned,
                                      ForecastFact::too_few_to_decide,
                                      ForecastFact::rests_on_stated,
                                      ForecastFact::claim_needs_more,
                                      ForecastFact::claim_out_of_reach,
                                      ForecastFact::limit_by_estimate,
                                      ForecastFact::scatter_tried,
                                      ForecastFact::scatter_taken,
                                      ForecastFact::spread_by_tolerance,
                                      ForecastFact::spread_tried,
                                      ForecastFact::components_incomplete,
                                      ForecastFact::redone_not_stated,
                                      ForecastFact::fixed_load};

}  // namespace

TEST_CASE("plan_forecast_sentences: what the planned numbers tell") {
  CHECK(claim_sentence(forecast()) ==
        "with 4 + 4 set-ups and 0.6 % scatter from set-up to set-up, the loss would be known to "
        "1.5 points each way, and a true loss of 2.4 % would show 9 times in 10; from 7.3 % on it "
        "would be called above the limit as often");
  CHECK_THAT(claim_sentence(siblings()),
             Contains("with 4 unstruck units, 3 set-ups of each panel after the shots, 1.7 % "
                      "spread from unit to unit and 0.6 % scatter from set-up to set-up"));
  MeasuringForecast few = siblings();
  few.planned.units.siblings = 1;
  few.planned.decides = false;
  CHECK_THAT(claim_sentence(few), Contains("with 1 unstruck unit,") &&
                                      Contains("too few to decide anything; if they did"));
}

TEST_CASE("plan_forecast_sentences: every fact has a sentence") {
  MeasuringForecast f = siblings();
  f.needed = 7;
  for (const ForecastFact fact : all_facts) {
    CAPTURE(static_cast<int>(fact));
    CHECK(said(fact, f).size() > 20);
  }
}

TEST_CASE("plan_forecast_sentences: what is repeated is named by its name") {
  MeasuringForecast f = forecast();
  f.needed = 6;
  CHECK(said(ForecastFact::claim_needs_more, f) ==
        "to show a loss of 5.0 % 9 times in 10, 6 + 6 set-ups are needed at this scatter");
  CHECK_THAT(said(ForecastFact::setups_not_planned, f), Contains("measure: {before: 4, after: 4}"));
  CHECK_THAT(said(ForecastFact::too_few_to_decide, f),
             Contains("4 + 4 set-ups decide nothing") && Contains("3 + 3 set-ups are the least"));
  f = siblings();
  f.needed = 6;
  CHECK(said(ForecastFact::claim_needs_more, f) ==
        "to show a loss of 5.0 % 9 times in 10, 6 unstruck units are needed at this spread");
  CHECK_THAT(said(ForecastFact::setups_not_planned, f),
             Contains("measure: {after: 3}") && !Contains("before"));
  f.planned.units.siblings = 2;
  CHECK(said(ForecastFact::too_few_to_decide, f) ==
        "2 unstruck units decide nothing: how far units differ is not measured by fewer than 3");
  f.planned.units.siblings = 1;
  CHECK_THAT(said(ForecastFact::too_few_to_decide, f), Contains("1 unstruck unit decides nothing"));
}

TEST_CASE("plan_forecast_sentences: a claim that is out of reach") {
  MeasuringForecast f = forecast();
  CHECK_THAT(said(ForecastFact::claim_out_of_reach, f), Contains("more than 100 set-ups a stage"));
  f.floor = percent(6);
  CHECK_THAT(said(ForecastFact::claim_out_of_reach, f),
             Contains("no number of set-ups") && Contains("endless ones would show 6.0 %"));
  f = siblings();
  CHECK_THAT(said(ForecastFact::claim_out_of_reach, f), Contains("more than 30 unstruck units"));
  f.floor = percent(6);
  CHECK_THAT(said(ForecastFact::claim_out_of_reach, f), Contains("no number of unstruck units"));
}

// MEASUREMENT M4: simple acceptance prints its risk.
TEST_CASE("plan_forecast_sentences: what simple acceptance risks") {
  CHECK(said(ForecastFact::limit_by_estimate, forecast()) ==
        "rule: simple answers the limit by the estimate alone: of true losses near 5 %, up to half "
        "are called the wrong way");
}

// MEASUREMENT M6.
TEST_CASE("plan_forecast_sentences: what an extension after seeing the result costs") {
  MeasuringForecast f = forecast();
  CHECK(said(ForecastFact::added_at_less_risk, f) ==
        "set-ups added after the result was seen are judged at a risk of 1.25 % instead of 2.50 %: "
        "plan enough of them, or two looks (decide: {looks: 2})");
  f.looks = 2;
  CHECK_THAT(said(ForecastFact::added_at_less_risk, f), !Contains("two looks"));
}

TEST_CASE("plan_forecast_sentences: a line in time takes four set-ups a stage") {
  MeasuringForecast f = forecast();
  f.fewest_setups = 4;
  f.planned.units = {3, 3, 0};
  f.planned.obstacle = PowerObstacle::trend_needs_setups;
  CHECK(said(ForecastFact::too_few_to_decide, f) ==
        "no line in time can be fitted to 3 + 3 set-ups. 4 + 4 set-ups are the least");
  CHECK_THAT(said(ForecastFact::before_cannot_be_added, f), Contains("4 + 4 or more"));
}

TEST_CASE("plan_forecast_sentences: advice with its number") {
  CHECK(advice_sentence({MeasuringChange::read_before, percent(9.3), percent(5.0)}) ==
        "the struck panel read before the shots too and compared with itself, which sees 1.9 times "
        "smaller losses: 5.0 % instead of 9.3 %");
  CHECK_THAT(advice_sentence({MeasuringChange::read_before_beside, percent(10), percent(2.5)}),
             Contains("4.0 times smaller"));
  CHECK(advice_sentence({MeasuringChange::more_siblings, percent(9.3), percent(6.8)}) ==
        "twice as many unstruck units: 6.8 % instead of 9.3 %");
  CHECK(advice_sentence({MeasuringChange::no_trend, percent(6), percent(4)}) ==
        "no line in time fitted: 4.0 % instead of 6.0 %");
}
