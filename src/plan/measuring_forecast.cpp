#include "hailwright/plan/measuring_forecast.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/loss_decision.hpp"
#include "plan/imagined_measurement.hpp"
#include "plan/measuring_advice.hpp"
#include "plan/reckoned_scatter.hpp"

namespace hailwright {

namespace {

/// Readings of a set-up where the protocol plans none [ours]: exact readings make no difference,
/// but one alone has no spread.
constexpr int unplanned_readings = 2;
constexpr int curve_from = 2;  // set-ups; of siblings, those that decide
constexpr int curve_to = 12;

bool with_siblings(const Protocol& protocol) {
  return protocol.measure.compare == Comparison::sibling_panel;
}

/// The protocol's risk for all its looks together.
double whole_risk(const DecisionRule& decide) {
  return decide.risk.value_or(defaults::risk).si();
}

ForecastQuestion question_of(const DecisionRule& decide, Assumptions& assumptions) {
  if (!decide.risk) assumptions.use(DefaultId::risk);
  if (!decide.see_chance) assumptions.use(DefaultId::see_chance);
  ForecastQuestion q;
  q.alpha = whole_risk(decide) / decide.looks;
  q.chance = decide.see_chance.value_or(defaults::see_chance).si();
  q.claim = decide.see.value_or(decide.limit).si();
  q.limit = decide.limit.si();
  q.simple = decide.simple;
  return q;
}

ImaginedMeasurement planned_measurement(const Protocol& protocol, const Panel& panel,
                                        const Panel* control) {
  ImaginedMeasurement m;
  m.protocol = protocol;
  m.panel = panel;
  if (control != nullptr) m.control = *control;
  m.units = planned_units(protocol.measure);
  m.readings = protocol.measure.readings.value_or(unplanned_readings);
  return m;
}

MeasuringOutlook outlook_of(const Reckoned& r, const ImaginedMeasurement& m,
                            const ForecastQuestion& q) {
  MeasuringOutlook o;
  o.units = m.units;
  o.obstacle = r.obstacle;
  o.obstacle_subject = r.obstacle_subject;
  o.decides = r.decides;
  if (!o.estimated()) return o;
  o.rests_on_stated = r.rests_on_stated;
  o.observed_dof = r.observed_dof;
  const LossEstimate none = estimate_loss(0.0, r.all, r.observed, q.alpha);
  o.standard_u = none.u_loss();
  o.half_width = (none.high() - none.low()) / 2.0;
  o.real_above = none.real_above();
  o.smallest_shown = smallest_shown_loss(r.all, r.observed, q.alpha, 1.0 - q.chance);
  o.called_above_limit = called_above_limit(r, q);
  if (!r.decides) return o;
  o.chance_at_claim = chance_shown(r.all, r.observed, q.alpha, q.claim);
  o.chance_within = chance_within(r, q);
  return o;
}

/// Makes the forecast for one scatter.
class Forecaster {
public:
  Forecaster(ImaginedMeasurement planned, const AssumedScatter& scatter,
             const ForecastQuestion& question)
      : planned_(std::move(planned)), siblings_(with_siblings(planned_.protocol)),
        scatter_(scatter), question_(question) {}

  MeasuringForecast make(Assumptions& assumptions) {
    MeasuringForecast f = asked();
    ImaginedMeasurement best = planned_;
    f.planned = look(best);
    if (!f.planned.usable()) {
      best.units = enough_units(best.protocol.measure, best.units);
      f.proposed = look(best);
    }
    if (!f.best().estimated()) return f;
    const Reckoned r = reckon(best, scatter_, assumptions);
    f.budget = summarise(r.rows);
    // What cancels leaves the rounding of its sum.
    std::erase_if(f.budget, [](const BudgetLine& line) { return line.share.si() < 1e-12; });
    f.floor = smallest_shown_loss(endless(r), {0.0}, question_.alpha, 1.0 - question_.chance);
    for (int k = siblings_ ? proposed_siblings : curve_from; k <= curve_to; ++k)
      f.curve.push_back(look(k));
    f.needed = needed(f.floor);
    const ChangeList changes = try_changes(best, scatter_, question_);
    f.helps = changes.helps;
    f.spoils = changes.spoils;
    return f;
  }

private:
  [[nodiscard]] MeasuringForecast asked() const {
    const DecisionRule& decide = planned_.protocol.decide;
    MeasuringForecast f;
    f.scatter = Ratio::from_si(scatter_.setup);
    if (siblings_) f.spread = Ratio::from_si(scatter_.unit);
    f.looks = decide.looks;
    f.risk = question_.alpha;
    f.risk_if_added = whole_risk(decide) / (decide.looks + 1);
    f.limit_by_estimate = question_.simple;
    f.claim = Ratio::from_si(question_.claim);
    f.claim_chance = question_.chance;
    f.fewest_setups = proposed_setups(planned_.protocol.measure);
    return f;
  }
  [[nodiscard]] MeasuringOutlook look(const ImaginedMeasurement& m) const {
    Assumptions unlisted;
    return outlook_of(reckon(m, scatter_, unlisted), m, question_);
  }
  /// With so many set-ups a stage, or siblings.
  [[nodiscard]] MeasuringOutlook look(int count) const {
    ImaginedMeasurement m = planned_;
    if (siblings_) {
      m.units.siblings = count;
    } else {
      m.units.before = count;
      m.units.after = count;
    }
    // Readings are exact here: more of them change nothing but the time it takes.
    m.readings = unplanned_readings;
    return look(m);
  }
  [[nodiscard]] std::optional<int> needed(Ratio floor) const {
    if (floor.si() >= question_.claim) return std::nullopt;
    // One by one: stated components may do with fewer than repeats, so the chance need not rise.
    for (int k = 1; k <= (siblings_ ? most_siblings : most_setups); ++k) {
      if (look(k).chance_at_claim >= question_.chance) return k;
    }
    return std::nullopt;
  }

  ImaginedMeasurement planned_;
  bool siblings_;
  AssumedScatter scatter_;
  ForecastQuestion question_;
};

/// What the forecasts of one panel rest on: one entry where the protocol says so.
struct ScatterList {
  std::vector<AssumedScatter> entries;
  bool setup_stated = true;
  bool unit_stated = true;
};

ScatterList setup_scatters(const MeasurementPlan& measure, const StatedScatter& components) {
  ScatterList list;
  if (measure.expected_scatter) {
    list.entries = {{measure.expected_scatter->si(), 0.0}};
  } else if (components.sd) {
    list.entries = {{*components.sd, 0.0}};
  } else {
    list.setup_stated = false;
    for (const Ratio tried : tried_scatters)
      list.entries.push_back({tried.si(), 0.0});
  }
  return list;
}

/// Units differ by more than set-ups, so that one figure for those is enough.
ScatterList unit_scatters(const MeasurementPlan& measure, const ScatterList& setups) {
  const double setup = setups.entries[setups.entries.size() / 2].setup;
  ScatterList list;
  list.setup_stated = setups.setup_stated;
  if (measure.unit_tolerance) {
    const double sd = measure.unit_tolerance->si() / half_width_divisor(Shape::rectangular);
    list.entries = {{setup, sd}};
    return list;
  }
  list.unit_stated = false;
  for (const Ratio tried : tried_spreads)
    list.entries.push_back({setup, tried.si()});
  return list;
}

/// Too little repeated for any decision, whatever else there is.
bool too_few(const MeasuringOutlook& planned) {
  return planned.obstacle == PowerObstacle::no_replication ||
         planned.obstacle == PowerObstacle::siblings_set_up_once ||
         planned.obstacle == PowerObstacle::trend_needs_setups ||
         planned.obstacle == PowerObstacle::one_sibling_set ||
         (planned.estimated() && !planned.decides);
}

void add_facts(MeasuringForecast& f, const Protocol& protocol) {
  using enum ForecastFact;
  const MeasurementPlan& m = protocol.measure;
  const bool siblings = with_siblings(protocol);
  const auto add = [&f](ForecastFact fact, bool holds) {
    if (holds) f.facts.push_back(fact);
  };
  add(no_reading_before, siblings);
  add(before_cannot_be_added, !siblings);
  add(setups_not_planned, !m.after || (!m.before && !siblings));
  add(siblings_not_planned, siblings && !m.siblings);
  add(too_few_to_decide, too_few(f.planned));
  add(rests_on_stated, f.planned.rests_on_stated && f.planned.decides);
  const bool shown = f.planned.chance_at_claim >= f.claim_chance;
  add(claim_needs_more, !shown && f.needed);
  add(claim_out_of_reach, !shown && !f.needed && f.best().estimated());
  add(line_fitted, m.fitted_trend && !siblings);
  add(limit_by_estimate, protocol.decide.simple);
  add(added_at_less_risk, true);
  add(spread_by_tolerance, siblings && f.spread_stated);
  add(spread_tried, siblings && !f.spread_stated);
  add(scatter_tried, !siblings && !f.scatter_stated);
  add(scatter_taken, siblings && !f.scatter_stated);
  add(components_incomplete, !f.components_lack.empty());
  // The spread of units holds what their set-ups do, whatever they redo.
  add(redone_not_stated, !m.redone && !siblings);
  add(fixed_load, m.maximum_power == MaximumPower::fixed_load);
}

}  // namespace

bool MeasuringForecast::has(ForecastFact fact) const {
  return std::find(facts.begin(), facts.end(), fact) != facts.end();
}

std::vector<MeasuringForecast> forecast_measuring(const Protocol& protocol, const Panel& panel,
                                                  Assumptions& assumptions, const Panel* control) {
  if (!protocol.decide.judges_power) return {};
  const ImaginedMeasurement planned = planned_measurement(protocol, panel, control);
  const ForecastQuestion question = question_of(protocol.decide, assumptions);
  const StatedScatter components = stated_scatter(planned);
  ScatterList scatters = setup_scatters(protocol.measure, components);
  if (with_siblings(protocol)) scatters = unit_scatters(protocol.measure, scatters);
  std::vector<MeasuringForecast> forecasts;
  for (const AssumedScatter& scatter : scatters.entries) {
    MeasuringForecast f = Forecaster(planned, scatter, question).make(assumptions);
    f.scatter_stated = scatters.setup_stated;
    f.spread_stated = f.spread && scatters.unit_stated;
    f.components_lack = components.lacks;
    add_facts(f, protocol);
    forecasts.push_back(std::move(f));
  }
  return forecasts;
}

int setups_needed(double effect, double alpha, double chance) {
  expects(effect >= 0.001, "setups_needed: effect of 0.001 or more");
  expects(alpha > 0.0 && alpha < 0.5, "setups_needed: 0 < alpha < 0.5");
  expects(chance > 0.0 && chance < 1.0, "setups_needed: 0 < chance < 1");
  const auto enough = [&](int n) {
    const double dof = 2.0 * n - 2.0;
    return 1.0 - noncentral_t_cdf(t_quantile(1.0 - alpha, dof), dof, effect * std::sqrt(n / 2.0)) >=
           chance;
  };
  int high = 2;
  while (!enough(high))
    high *= 2;
  int low = std::max(2, high / 2);
  while (low < high) {
    const int middle = low + (high - low) / 2;
    if (enough(middle)) {
      high = middle;
    } else {
      low = middle + 1;
    }
  }
  return high;
}

}  // namespace hailwright
