#include "report/plan_forecast_sentences.hpp"

#include <fmt/format.h>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/power_sentences.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string setups(int before, int after) {
  return fmt::format("{} + {} set-ups", before, after);
}

/// What a forecast rests on: "with 4 + 4 set-ups and 0.6 % scatter from set-up to set-up".
std::string basis(const MeasuringForecast& f, const PlannedUnits& units) {
  if (!f.spread) {
    return fmt::format("with {} and {} scatter from set-up to set-up",
                       setups(units.before, units.after), percent_text(f.scatter));
  }
  return fmt::format(
      "with {}, {} of each panel after the shots, {} spread from unit to unit and {} "
      "scatter from set-up to set-up",
      counted(units.siblings, "unstruck unit"), counted(units.after, "set-up"),
      percent_text(*f.spread), percent_text(f.scatter));
}

std::string too_few_sentence(const MeasuringForecast& f) {
  if (f.spread) {
    return fmt::format("{} unstruck {} nothing: how far units differ is not measured by fewer than "
                       "{}",
                       f.planned.units.siblings,
                       f.planned.units.siblings == 1 ? "unit decides" : "units decide",
                       proposed_siblings);
  }
  const std::string planned = setups(f.planned.units.before, f.planned.units.after);
  const std::string least = setups(f.fewest_setups, f.fewest_setups);
  if (f.planned.obstacle == PowerObstacle::trend_needs_setups) {
    return fmt::format("no line in time can be fitted to {}. {} are the least", planned, least);
  }
  return fmt::format("{} decide nothing: their scatter would rest on fewer than 4 degrees of "
                     "freedom. {} are the least",
                     planned, least);
}

/// What is repeated to see smaller losses.
std::string needed_text(const MeasuringForecast& f) {
  return f.spread ? fmt::format("{} unstruck units", *f.needed)
                  : fmt::format("{0} + {0} set-ups", *f.needed);
}

std::string out_of_reach_sentence(const MeasuringForecast& f) {
  const std::string claim = fmt::format("show a loss of {} {}", percent_text(f.claim),
                                        chance_text(Ratio::from_si(f.claim_chance)));
  constexpr const char* instead = "What follows helps more than repeating";
  const char* units = f.spread ? "unstruck units" : "set-ups";
  if (f.floor < f.claim) {
    return fmt::format("more than {} {} would be needed to {}. {}",
                       f.spread ? most_siblings : most_setups,
                       f.spread ? "unstruck units" : "set-ups a stage", claim, instead);
  }
  return fmt::format("no number of {} can {}: endless ones would show {}. {}", units, claim,
                     percent_text(f.floor), instead);
}

std::string not_planned_sentence(const MeasuringForecast& f) {
  const PlannedUnits& u = f.planned.units;
  if (f.spread) {
    return fmt::format("the protocol does not say how many set-ups: {0} are reckoned. Write "
                       "measure: {{after: {0}}}",
                       u.after);
  }
  return fmt::format("the protocol does not say how many set-ups: {0} before and {1} after are "
                     "reckoned. Write measure: {{before: {0}, after: {1}}}",
                     u.before, u.after);
}

std::string added_sentence(const MeasuringForecast& f) {
  return fmt::format(
      "set-ups added after the result was seen are judged at a risk of {} instead of "
      "{}: plan enough of them{}",
      percent_text(Ratio::from_si(f.risk_if_added), 2), percent_text(Ratio::from_si(f.risk), 2),
      f.looks < 2 ? ", or two looks (decide: {looks: 2})" : "");
}

}  // namespace

std::string claim_sentence(const MeasuringForecast& f) {
  const MeasuringOutlook& o = f.best();
  if (!o.estimated()) return obstacle_sentence(o.obstacle, o.obstacle_subject);
  const std::string with = basis(f, o.units);
  const std::string shows =
      fmt::format("the loss would be known to {} points each way, and a true loss of {} would show "
                  "{}; from {} on it would be called above the limit as often",
                  fixed(o.half_width.si() * 100.0, 1), percent_text(o.smallest_shown),
                  chance_text(Ratio::from_si(f.claim_chance)), percent_text(o.called_above_limit));
  if (!o.decides) {
    return fmt::format("{}: too few to decide anything; if they did, {}", with, shows);
  }
  return fmt::format("{}, {}", with, shows);
}

std::string fact_sentence(ForecastFact fact, const MeasuringForecast& f, Ratio limit) {
  switch (fact) {
  case ForecastFact::before_cannot_be_added:
    return fmt::format(
        "set-ups before cannot be added once anything is done to the panel: {0} + {0} "
        "or more",
        f.fewest_setups);
  case ForecastFact::no_reading_before:
    return "nothing is read before the shots: the unstruck units stand for what the struck one "
           "gave, and how far units of one model differ counts in full";
  case ForecastFact::added_at_less_risk:
    return added_sentence(f);
  case ForecastFact::setups_not_planned:
    return not_planned_sentence(f);
  case ForecastFact::siblings_not_planned:
    return fmt::format("the protocol does not say how many unstruck units: {0} are reckoned. Write "
                       "measure: {{siblings: {0}}}",
                       f.planned.units.siblings);
  case ForecastFact::too_few_to_decide:
    return too_few_sentence(f);
  case ForecastFact::rests_on_stated:
    return "the answer will rest on the scatter that the protocol states, not on repeats";
  case ForecastFact::claim_needs_more:
    return fmt::format("to show a loss of {} {}, {} are needed at this {}", percent_text(f.claim),
                       chance_text(Ratio::from_si(f.claim_chance)), needed_text(f),
                       f.spread ? "spread" : "scatter");
  case ForecastFact::claim_out_of_reach:
    return out_of_reach_sentence(f);
  case ForecastFact::line_fitted:
    return "a line in time is taken out, reckoned with set-ups half an hour apart and two hours "
           "for "
           "the shots: the longer the set-ups of a stage last, the better it is known. Write down "
           "the time of each reading, or none can be fitted";
  case ForecastFact::limit_by_estimate:
    return fmt::format("rule: simple answers the limit by the estimate alone: of true losses near "
                       "{}, up to half are called the wrong way",
                       limit_text(limit));
  case ForecastFact::scatter_tried:
    return "how far your set-ups scatter is not known; three set-ups of the untouched panel would "
           "tell. Then write measure: {expected_scatter: ...}";
  case ForecastFact::scatter_taken:
    return fmt::format("how far your set-ups scatter is not known: {} is taken. Write measure: "
                       "{{expected_scatter: ...}}",
                       percent_text(f.scatter));
  case ForecastFact::spread_by_tolerance:
    return fmt::format("the units are taken to differ by {} (standard deviation), as the stated "
                       "tolerance allows; `judge` goes by what they show",
                       percent_text(*f.spread));
  case ForecastFact::spread_tried:
    return "how far units of this model differ is not known. Where the maker states a tolerance of "
           "the power, write measure: {unit_tolerance: ...}";
  case ForecastFact::components_incomplete:
    return fmt::format("the stated set-up scatter leaves out '{}'", f.components_lack);
  case ForecastFact::redone_not_stated:
    return "say what each set-up takes down and builds again, or `judge` cannot count them: "
           "measure: {redone: [mount, aim, probe, leads]}";
  case ForecastFact::fixed_load:
    return "a fixed load does not seek the maximum power: `judge` will give no verdict on power";
  }
  fail_contract("unknown fact of a forecast");
}

std::string advice_sentence(const MeasuringAdvice& advice) {
  const auto what = [&]() -> std::string {
    const double apart = forecast_apart.si();
    switch (advice.change) {
    case MeasuringChange::control_panel:
      return "an unstruck control panel beside it";
    case MeasuringChange::read_before:
      return fmt::format("the struck panel read before the shots too and compared with itself, "
                         "which sees {} times smaller losses",
                         fixed(advice.now.si() / advice.then.si(), 1));
    case MeasuringChange::read_before_beside:
      return fmt::format("the struck panel read before the shots too, beside one unstruck unit as "
                         "its control panel, which sees {} times smaller losses",
                         fixed(advice.now.si() / advice.then.si(), 1));
    case MeasuringChange::no_trend:
      return "no line in time fitted";
    case MeasuringChange::more_siblings:
      return "twice as many unstruck units";
    case MeasuringChange::one_meter:
      return "one power meter for all panels, read in turn";
    case MeasuringChange::three_days:
      return "set-ups of each stage spread over three days";
    case MeasuringChange::more_setups:
      return "twice as many set-ups";
    case MeasuringChange::better_meter:
      return "a power meter with half the error";
    case MeasuringChange::better_sun_meter:
      return "a sun meter with half the error";
    case MeasuringChange::better_thermometer:
      return fmt::format("a thermometer with half the error (panels {} K apart)", apart);
    case MeasuringChange::tell_coefficient:
      return fmt::format("the temperature coefficient from the data sheet (panels {} K apart)",
                         apart);
    case MeasuringChange::tell_day:
      return "knowing that the sky of a day does half of what is assumed";
    case MeasuringChange::tell_drift:
      return "knowing that the drift is half of what is assumed";
    case MeasuringChange::other_instruments:
      return "other instruments after the shots";
    case MeasuringChange::warmer_after:
      return fmt::format("panels {} K warmer after the shots", apart);
    }
    fail_contract("unknown change of a measurement");
  };
  return fmt::format("{}: {} instead of {}", what(), percent_text(advice.then),
                     percent_text(advice.now));
}

}  // namespace hailwright
