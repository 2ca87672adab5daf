#include "plan/reckoned_scatter.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "evaluate/scatter_choice.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

PowerQuestion question_of(const Protocol& protocol) {
  return stage_question(protocol, {StageKind::before, 0}, {StageKind::after, 0});
}

/// Standard uncertainty of one day's sky, which the repeated days will show by themselves.
double day_u(const MeasurementPlan& measure, Assumptions& assumptions) {
  if (measure.day) return measure.day->si();
  const bool control = measure.compare == Comparison::control_panel;
  assumptions.use(control ? DefaultId::day_control_panel : DefaultId::day_same_panel);
  return (control ? defaults::day_control_panel_u : defaults::day_same_panel_u).si();
}

/// Variance of the mean of one stage: its set-ups scatter, and so do its days where they are the
/// unit. `sky_u` is 0 where they are not.
double stage_variance(const Test& test, StageKind stage, bool by_day, double scatter,
                      double sky_u) {
  std::map<std::string, int> days;
  int setups = 0;
  for (const Setup& s : test.record.setups) {
    if (s.stage.kind != stage) continue;
    ++days[s.date];
    ++setups;
  }
  if (!by_day) return scatter * scatter / setups;
  double sum = 0.0;
  for (const auto& [day, count] : days)
    sum += sky_u * sky_u + scatter * scatter / count;
  const auto n = static_cast<double>(days.size());
  return sum / (n * n);
}

/// The rows of the model with the scatter that is assumed, where exact readings have none.
std::vector<BudgetRow> assumed_rows(const PowerModel& model, const Test& test, double scatter,
                                    Assumptions& assumptions) {
  const double sky_u = model.unit_is_day ? day_u(test.protocol.measure, assumptions) : 0.0;
  std::vector<BudgetRow> rows = model.budget();
  for (BudgetRow& row : rows) {
    if (row.input.id != "scatter") continue;
    row.input.label =
        model.unit_is_day ? "scatter of the days, assumed" : "scatter of the set-ups, assumed";
    row.input.standard_u =
        std::sqrt(stage_variance(test, StageKind::before, model.unit_is_day, scatter, sky_u) +
                  stage_variance(test, StageKind::after, model.unit_is_day, scatter, sky_u));
  }
  return rows;
}

bool of_the_setups(const BudgetRow& row) {
  return row.input.scope == Scope::setup || row.input.scope == Scope::reading;
}

}  // namespace

Reckoned reckon(const ImaginedMeasurement& measurement, double scatter, Assumptions& assumptions) {
  const Test test = imagine(measurement);
  const ScatterChoice choice = choose_scatter(test, question_of(test.protocol), assumptions,
                                              [&](const PowerModel& model, Assumptions& listed) {
                                                return assumed_rows(model, test, scatter, listed);
                                              });
  Reckoned r;
  r.rests_on_stated = choice.rests_on_stated;
  if (!choice.chosen) {
    r.obstacle = choice.failed.obstacle;
    r.obstacle_subject = choice.failed.subject;
    r.decides = false;
    return r;
  }
  r.decides = !choice.too_few;
  r.observed_dof = choice.chosen->model.observed_dof;
  r.rows = choice.chosen->budget;
  r.all = choice.chosen->all;
  r.observed = choice.chosen->observed;
  return r;
}

StatedScatter stated_scatter(const ImaginedMeasurement& measurement) {
  if (measurement.protocol.measure.setup_scatter.empty()) return {};
  const Test test = imagine(measurement);
  Assumptions unlisted;
  const PowerModelResult stated =
      build_power_model(test, question_of(test.protocol), ScatterSource::stated, unlisted);
  if (!stated.model) return {std::nullopt, stated.subject};
  double variance = 0.0;
  for (const BudgetRow& row : stated.model->budget()) {
    if (row.input.scope == Scope::setup) variance += row.contribution() * row.contribution();
  }
  if (variance == 0.0) return {};
  return {std::sqrt(variance / (1.0 / measurement.before + 1.0 / measurement.after)), {}};
}

Combined endless(const Reckoned& reckoned) {
  std::vector<BudgetRow> rows = reckoned.rows;
  std::erase_if(rows, of_the_setups);
  return combine(rows);
}

double chance_shown(const Combined& all, const Combined& observed, double alpha, double loss) {
  const double delta = -std::log1p(-loss);
  const auto chance = [&](const Combined& c) {
    if (c.standard_u == 0.0) return delta > 0.0 ? 1.0 : 0.0;
    // The non-central t is known to be right up to a noncentrality of 1000 (distributions.cpp);
    // there the chance is 1 in all digits for every scatter that decides.
    const double noncentrality = std::min(delta / c.standard_u, 1000.0);
    const double threshold = t_quantile(1.0 - alpha, c.degrees_of_freedom);
    return 1.0 - noncentral_t_cdf(threshold, c.degrees_of_freedom, noncentrality);
  };
  return observed.standard_u > 0.0 ? std::min(chance(all), chance(observed)) : chance(all);
}

}  // namespace hailwright
