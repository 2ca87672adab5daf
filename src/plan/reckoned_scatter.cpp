#include "plan/reckoned_scatter.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "evaluate/scatter_choice.hpp"
#include "evaluate/setup_units.hpp"
#include "evaluate/trend_fit.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/loss_decision.hpp"

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

/// Standard uncertainty of the struck unit less the mean of its siblings (MEASUREMENT M2), each of
/// them over the set-ups. Where a tolerance stands for the spread, the set-ups alone scatter.
double siblings_u(const PowerModel& model, const Test& test, const AssumedScatter& scatter) {
  const auto setups = static_cast<double>(test.record.setups.size());
  const double of_one =
      std::hypot(spread_observed(model) ? scatter.unit : 0.0, scatter.setup / std::sqrt(setups));
  return of_one * std::sqrt(1.0 + 1.0 / static_cast<double>(model.siblings->units.size()));
}

/// The step at the shots beside a line in time scatters more than the difference of two means (M8).
double trend_u(const Test& test, const AssumedScatter& scatter) {
  const StageBlocks blocks = collect_stage_blocks(test, question_of(test.protocol));
  const std::optional<TrendFit> fit = fit_trend(test, blocks.from, blocks.to);
  expects(fit.has_value(), "a model with a line has one to fit");
  return fit->step_share * scatter.setup;
}

double stages_u(const PowerModel& model, const Test& test, const AssumedScatter& scatter,
                Assumptions& assumptions) {
  const double sky_u = model.unit_is_day ? day_u(test.protocol.measure, assumptions) : 0.0;
  return std::sqrt(
      stage_variance(test, StageKind::before, model.unit_is_day, scatter.setup, sky_u) +
      stage_variance(test, StageKind::after, model.unit_is_day, scatter.setup, sky_u));
}

std::string assumed_label(const PowerModel& model) {
  if (model.siblings && spread_observed(model)) return "spread of the unstruck units, assumed";
  if (model.trend) return "scatter of the set-ups about the line, assumed";
  return model.unit_is_day ? "scatter of the days, assumed" : "scatter of the set-ups, assumed";
}

/// The rows of the model with the scatter that is assumed, where exact readings have none.
std::vector<BudgetRow> assumed_rows(const PowerModel& model, const Test& test,
                                    const AssumedScatter& scatter, Assumptions& assumptions) {
  std::vector<BudgetRow> rows = model.budget();
  for (BudgetRow& row : rows) {
    if (row.input.evaluation != Evaluation::type_a) continue;
    row.input.label = assumed_label(model);
    row.input.standard_u = model.siblings ? siblings_u(model, test, scatter)
                           : model.trend  ? trend_u(test, scatter)
                                          : stages_u(model, test, scatter, assumptions);
  }
  return rows;
}

bool of_the_setups(const BudgetRow& row) {
  return row.input.scope == Scope::setup || row.input.scope == Scope::reading;
}

}  // namespace

Reckoned reckon(const ImaginedMeasurement& measurement, const AssumedScatter& scatter,
                Assumptions& assumptions) {
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
  const PowerModel& model = choice.chosen->model;
  r.decides = !choice.too_few && !(model.siblings && model.siblings->assumed);
  r.observed_dof = model.observed_dof;
  r.siblings = model.siblings ? static_cast<int>(model.siblings->units.size()) : 0;
  r.rows = choice.chosen->budget;
  r.all = choice.chosen->all;
  r.observed = choice.chosen->observed;
  return r;
}

StatedScatter stated_scatter(const ImaginedMeasurement& measurement) {
  if (measurement.protocol.measure.setup_scatter.empty()) return {};
  // A step of a set-up scatters alike whatever the panel is compared with.
  const ImaginedMeasurement alone = compared_with_itself(measurement);
  const Test test = imagine(alone);
  Assumptions unlisted;
  const PowerModelResult stated =
      build_power_model(test, question_of(test.protocol), ScatterSource::stated, unlisted);
  if (!stated.model) return {std::nullopt, stated.subject};
  double variance = 0.0;
  for (const BudgetRow& row : stated.model->budget()) {
    if (row.input.scope == Scope::setup) variance += row.contribution() * row.contribution();
  }
  if (variance == 0.0) return {};
  return {std::sqrt(variance / (1.0 / alone.units.before + 1.0 / alone.units.after)), {}};
}

Combined endless(const Reckoned& reckoned) {
  std::vector<BudgetRow> rows = reckoned.rows;
  if (reckoned.siblings == 0) {
    std::erase_if(rows, of_the_setups);
    return combine(rows);
  }
  const double one_unit = std::sqrt(reckoned.siblings / (reckoned.siblings + 1.0));
  for (BudgetRow& row : rows) {
    if (row.input.evaluation != Evaluation::type_a) continue;
    row.input.standard_u *= one_unit;
    row.input.degrees_of_freedom = std::numeric_limits<double>::infinity();
  }
  return combine(rows);
}

double chance_within(const Reckoned& reckoned, const ForecastQuestion& question) {
  const Combined& all = reckoned.all;
  double chance = 0.0;
  if (!question.simple) {
    chance = chance_shown(all, reckoned.observed, question.alpha, question.limit);
  } else if (all.standard_u > 0.0) {
    chance = normal_cdf(-std::log1p(-question.limit) / all.standard_u);
  } else {
    chance = 1.0;
  }
  // A result that rose by more than its uncertainty, which happens with the risk alpha when nothing
  // changed, is not valid (M5).
  return std::max(0.0, chance - question.alpha);
}

Ratio called_above_limit(const Reckoned& reckoned, const ForecastQuestion& question) {
  const double limit = -std::log1p(-question.limit);
  if (question.simple) {
    const double above = normal_quantile(question.chance) * reckoned.all.standard_u;
    return Ratio::from_si(-std::expm1(-limit - above));
  }
  const Ratio shown =
      smallest_shown_loss(reckoned.all, reckoned.observed, question.alpha, 1.0 - question.chance);
  return Ratio::from_si(-std::expm1(-limit + std::log1p(-shown.si())));
}

}  // namespace hailwright
