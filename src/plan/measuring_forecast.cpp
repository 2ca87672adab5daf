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
constexpr int curve_from = 2;
constexpr int curve_to = 12;

ForecastQuestion question_of(const DecisionRule& decide, Assumptions& assumptions) {
  if (!decide.risk) assumptions.use(DefaultId::risk);
  if (!decide.see_chance) assumptions.use(DefaultId::see_chance);
  ForecastQuestion q;
  q.alpha = decide.risk.value_or(defaults::risk).si() / decide.looks;
  q.chance = decide.see_chance.value_or(defaults::see_chance).si();
  q.claim = decide.see.value_or(decide.limit).si();
  q.limit = decide.limit.si();
  return q;
}

ImaginedMeasurement planned_measurement(const Protocol& protocol, const Panel& panel,
                                        const Panel* control) {
  ImaginedMeasurement m;
  m.protocol = protocol;
  m.panel = panel;
  if (control != nullptr) m.control = *control;
  m.before = protocol.measure.before.value_or(proposed_setups);
  m.after = protocol.measure.after.value_or(proposed_setups);
  m.readings = protocol.measure.readings.value_or(unplanned_readings);
  return m;
}

MeasuringOutlook outlook_of(const Reckoned& r, const ImaginedMeasurement& m,
                            const ForecastQuestion& q) {
  MeasuringOutlook o;
  o.before = m.before;
  o.after = m.after;
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
  if (!r.decides) return o;
  o.chance_at_claim = chance_shown(r.all, r.observed, q.alpha, q.claim);
  // Within needs high <= limit, but a result that rose by more than its uncertainty, which happens
  // with the risk alpha when nothing changed, is not valid (M5).
  o.chance_within = std::max(0.0, chance_shown(r.all, r.observed, q.alpha, q.limit) - q.alpha);
  return o;
}

/// Makes the forecast for one scatter.
class Forecaster {
public:
  Forecaster(ImaginedMeasurement planned, double scatter, const ForecastQuestion& question)
      : planned_(std::move(planned)), scatter_(scatter), question_(question) {}

  MeasuringForecast make(Assumptions& assumptions) {
    MeasuringForecast f;
    f.scatter = Ratio::from_si(scatter_);
    f.looks = planned_.protocol.decide.looks;
    f.risk = question_.alpha;
    f.claim = Ratio::from_si(question_.claim);
    f.claim_chance = question_.chance;
    ImaginedMeasurement best = planned_;
    f.planned = look(best);
    if (!f.planned.usable()) {
      best.before = std::max(best.before, proposed_setups);
      best.after = std::max(best.after, proposed_setups);
      f.proposed = look(best);
    }
    if (!f.best().estimated()) return f;
    const Reckoned r = reckon(best, scatter_, assumptions);
    f.budget = summarise(r.rows);
    // What cancels leaves the rounding of its sum.
    std::erase_if(f.budget, [](const BudgetLine& line) { return line.share.si() < 1e-12; });
    f.floor = smallest_shown_loss(endless(r), {0.0}, question_.alpha, 1.0 - question_.chance);
    for (int k = curve_from; k <= curve_to; ++k)
      f.by_setups.push_back(look(k));
    f.needed = needed(f.floor);
    const ChangeList changes = try_changes(best, scatter_, question_);
    f.helps = changes.helps;
    f.spoils = changes.spoils;
    return f;
  }

private:
  [[nodiscard]] MeasuringOutlook look(const ImaginedMeasurement& m) const {
    Assumptions unlisted;
    return outlook_of(reckon(m, scatter_, unlisted), m, question_);
  }
  [[nodiscard]] MeasuringOutlook look(int setups) const {
    ImaginedMeasurement m = planned_;
    m.before = setups;
    m.after = setups;
    // Readings are exact here: more of them change nothing but the time it takes.
    m.readings = unplanned_readings;
    return look(m);
  }
  [[nodiscard]] std::optional<int> needed(Ratio floor) const {
    if (floor.si() >= question_.claim) return std::nullopt;
    // One by one: stated components may do with fewer than repeats, so the chance need not rise.
    for (int k = 1; k <= most_setups; ++k) {
      if (look(k).chance_at_claim >= question_.chance) return k;
    }
    return std::nullopt;
  }

  ImaginedMeasurement planned_;
  double scatter_;
  ForecastQuestion question_;
};

void add_facts(MeasuringForecast& f, const Protocol& protocol) {
  using enum ForecastFact;
  const MeasurementPlan& m = protocol.measure;
  const auto add = [&f](ForecastFact fact, bool holds) {
    if (holds) f.facts.push_back(fact);
  };
  add(before_cannot_be_added, true);
  add(setups_not_planned, !m.before || !m.after);
  add(too_few_to_decide, f.planned.obstacle == PowerObstacle::no_replication ||
                             (f.planned.estimated() && !f.planned.decides));
  add(rests_on_stated, f.planned.rests_on_stated);
  const bool shown = f.planned.chance_at_claim >= f.claim_chance;
  add(claim_needs_more, !shown && f.needed);
  add(claim_out_of_reach, !shown && !f.needed && f.best().estimated());
  add(scatter_tried, !f.scatter_stated);
  add(components_incomplete, !f.components_lack.empty());
  add(redone_not_stated, !m.redone);
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
  std::vector<double> scatters;
  bool stated = true;
  if (protocol.measure.expected_scatter) {
    scatters = {protocol.measure.expected_scatter->si()};
  } else if (components.sd) {
    scatters = {*components.sd};
  } else {
    stated = false;
    for (const Ratio tried : tried_scatters)
      scatters.push_back(tried.si());
  }
  std::vector<MeasuringForecast> forecasts;
  for (const double scatter : scatters) {
    MeasuringForecast f = Forecaster(planned, scatter, question).make(assumptions);
    f.scatter_stated = stated;
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
