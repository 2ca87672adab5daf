#include "plan/measuring_advice.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/metrology/loss_decision.hpp"

namespace hailwright {

namespace {

/// A change below this share of L_D is not worth a line [ours].
constexpr double worth_telling = 0.02;
/// "Better" and "told" are tried with half the error [ours].
constexpr double half = 0.5;

/// A measurement with the scatter that is assumed for it.
struct Case {
  ImaginedMeasurement measurement;
  AssumedScatter scatter;
};

std::optional<Ratio> shown_by(const Case& c, const ForecastQuestion& question) {
  Assumptions unlisted;
  const Reckoned r = reckon(c.measurement, c.scatter, unlisted);
  if (r.obstacle != PowerObstacle::none || !r.decides) return std::nullopt;
  return smallest_shown_loss(r.all, r.observed, question.alpha, 1.0 - question.chance);
}

Case warmer(Case c) {
  c.measurement.warmer_after = forecast_apart;
  return c;
}

Case with_control(Case c) {
  MeasurementPlan& m = c.measurement.protocol.measure;
  m.compare = Comparison::control_panel;
  m.meters = 1;
  // What was stated is about the panel against itself.
  m.day.reset();
  m.control_stability.reset();
  // Two panels are mounted anew, each with its own slips [ours: independent, of one size].
  const double two_panels = std::sqrt(2.0);
  c.scatter.setup *= two_panels;
  for (SetupComponent& component : m.setup_scatter)
    component.standard_u = two_panels * component.standard_u;
  return c;
}

Case read_before_too(Case c) {
  c.measurement = compared_with_itself(c.measurement);
  return c;
}

Case without_trend(Case c) {
  c.measurement.protocol.measure.fitted_trend = false;
  return c;
}

Case with_one_meter(Case c) {
  c.measurement.protocol.measure.meters = 1;
  return c;
}

Case over_three_days(Case c) {
  constexpr int days = 3;  // the fewest whose own scatter decides (MEASUREMENT M2)
  c.measurement.days = days;
  PlannedUnits& units = c.measurement.units;
  units.before = std::max(units.before, days);
  units.after = std::max(units.after, days);
  return c;
}

/// Or enough of what decides; siblings stay as many.
Case twice_the_setups(Case c) {
  PlannedUnits& units = c.measurement.units;
  const PlannedUnits twice{2 * units.before, 2 * units.after, units.siblings};
  units = enough_units(c.measurement.protocol.measure, twice);
  return c;
}

Case twice_the_siblings(Case c) {
  PlannedUnits& units = c.measurement.units;
  units.siblings = std::max(2 * units.siblings, proposed_siblings);
  return c;
}

template <class Q>
void halve(std::optional<Stated<Q>>& error, const Stated<Q>& when_unknown) {
  Stated<Q> e = error.value_or(when_unknown);
  e.relative = half * e.relative;
  e.absolute = half * e.absolute;
  e.digits *= half;
  error = e;
}

void halve(std::optional<Ratio>& stated) {
  if (stated) stated = half * *stated;
}

Case with_better_meter(Case c) {
  Stated<Power> unknown;
  unknown.relative = defaults::meter_gain;
  unknown.digits = defaults::meter_digits;
  halve(c.measurement.protocol.tools.meter.error, unknown);
  halve(c.measurement.protocol.tools.meter.between_stages);
  return c;
}

Case with_better_sun_meter(Case c) {
  Stated<Irradiance> unknown;
  unknown.relative = defaults::sun_gain;
  halve(c.measurement.protocol.tools.sun.error, unknown);
  halve(c.measurement.protocol.tools.sun.between_stages);
  return c;
}

Case with_better_thermometer(Case c) {
  Thermometer& t = c.measurement.protocol.tools.thermometer;
  Stated<TemperatureDifference> unknown;
  unknown.absolute = defaults::thermometer;
  halve(t.error, unknown);
  unknown.absolute = defaults::thermometer_each_time;
  halve(t.each_time, unknown);
  return c;
}

Case coefficient_told(Case c) {
  // The value itself does not matter: what a data sheet tells is how far it can be wrong.
  const auto tell = [](Panel& p) {
    if (!p.power_coefficient) p.power_coefficient = defaults::coefficient;
  };
  tell(c.measurement.panel);
  if (c.measurement.control) tell(*c.measurement.control);
  return c;
}

bool lacks_coefficient(const Panel& panel) {
  return !panel.power_coefficient && !panel.power_coefficient_stated;
}

Case day_told(Case c) {
  const bool alone = c.measurement.protocol.measure.compare == Comparison::same_panel;
  c.measurement.protocol.measure.day =
      half * (alone ? defaults::day_same_panel_u : defaults::day_control_panel_u);
  return c;
}

Case drift_told(Case c) {
  MeasurementPlan& m = c.measurement.protocol.measure;
  if (m.compare == Comparison::control_panel) {
    m.control_stability = half * defaults::control_stability_u;
  } else {
    m.stage = half * defaults::stage_same_panel_u;
  }
  return c;
}

Case with_other_instruments(Case c) {
  c.measurement.other_instruments = true;
  return c;
}

class Changes {
public:
  Changes(Case now, const ForecastQuestion& question) : now_(std::move(now)), question_(question) {}

  void try_all() {
    if (now_.measurement.protocol.measure.compare == Comparison::sibling_panel) {
      try_help_for_siblings();
    } else {
      try_help_for_stages();
      try_spoils();
    }
    try_better_meters();
  }

  ChangeList sorted() {
    const auto ratio = [](const MeasuringAdvice& a) { return a.then.si() / a.now.si(); };
    std::stable_sort(list_.helps.begin(), list_.helps.end(),
                     [&](const auto& a, const auto& b) { return ratio(a) < ratio(b); });
    std::stable_sort(list_.spoils.begin(), list_.spoils.end(),
                     [&](const auto& a, const auto& b) { return ratio(a) > ratio(b); });
    return list_;
  }

private:
  void help(MeasuringChange change, const Case& from, const Case& to) {
    const auto a = reckon_both(change, from, to);
    if (a && a->then <= (1.0 - worth_telling) * a->now) list_.helps.push_back(*a);
  }
  void spoil(MeasuringChange change, const Case& from, const Case& to) {
    const auto a = reckon_both(change, from, to);
    if (a && a->then >= (1.0 + worth_telling) * a->now) list_.spoils.push_back(*a);
  }

  /// All siblings are read in one stage, under one sky and in one warmth.
  void try_help_for_siblings() {
    using enum MeasuringChange;
    help(read_before, now_, read_before_too(now_));
    help(read_before_beside, now_, with_control(read_before_too(now_)));
    help(more_siblings, now_, twice_the_siblings(now_));
    help(one_meter, now_, with_one_meter(now_));
    help(more_setups, now_, twice_the_setups(now_));
    if (!now_.measurement.protocol.measure.day) help(tell_day, now_, day_told(now_));
  }

  void try_help_for_stages() {
    using enum MeasuringChange;
    const ImaginedMeasurement& m = now_.measurement;
    const MeasurementPlan& plan = m.protocol.measure;
    const bool alone = plan.compare == Comparison::same_panel;
    if (alone) help(control_panel, now_, with_control(now_));
    if (plan.fitted_trend) help(no_trend, now_, without_trend(now_));
    help(three_days, now_, over_three_days(now_));
    help(more_setups, now_, twice_the_setups(now_));
    help(better_thermometer, warmer(now_), warmer(with_better_thermometer(now_)));
    if (lacks_coefficient(m.panel) || (m.control && lacks_coefficient(*m.control)))
      help(tell_coefficient, warmer(now_), warmer(coefficient_told(now_)));
    if (!plan.day) help(tell_day, now_, day_told(now_));
    const auto& drift = alone ? plan.stage : plan.control_stability;
    if (!drift) help(tell_drift, now_, drift_told(now_));
  }

  void try_better_meters() {
    using enum MeasuringChange;
    help(better_meter, now_, with_better_meter(now_));
    help(better_sun_meter, now_, with_better_sun_meter(now_));
  }

  void try_spoils() {
    using enum MeasuringChange;
    spoil(other_instruments, now_, with_other_instruments(now_));
    spoil(warmer_after, now_, warmer(now_));
  }

  [[nodiscard]] std::optional<MeasuringAdvice> reckon_both(MeasuringChange change, const Case& from,
                                                           const Case& to) const {
    const auto now = shown_by(from, question_);
    const auto then = shown_by(to, question_);
    if (!now || !then) return std::nullopt;
    return MeasuringAdvice{change, *now, *then};
  }

  Case now_;
  ForecastQuestion question_;
  ChangeList list_;
};

}  // namespace

ChangeList try_changes(const ImaginedMeasurement& measurement, const AssumedScatter& scatter,
                       const ForecastQuestion& question) {
  Changes changes({measurement, scatter}, question);
  changes.try_all();
  return changes.sorted();
}

}  // namespace hailwright
