#include "hailwright/evaluate/power_model.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "evaluate/power_inputs.hpp"
#include "evaluate/setup_units.hpp"
#include "hailwright/metrology/dual.hpp"

namespace hailwright {

double PowerModel::lambda() const {
  double sum = 0.0;
  for (const Term& t : terms) {
    sum += t.weight * log_normalised_power(t.reading, std::array<double, error_slots>{});
  }
  return sum;
}

std::vector<BudgetRow> PowerModel::budget() const {
  using D = Dual<error_slots>;
  std::array<D, error_slots> errors;
  for (std::size_t s = 0; s < error_slots; ++s)
    errors[s] = D::variable(0.0, s);
  std::vector<double> sensitivity(inputs.size(), 0.0);
  for (const Term& t : terms) {
    const D q = log_normalised_power(t.reading, errors);
    for (const Link& link : t.links) {
      sensitivity[link.input] += t.weight * q.slope[static_cast<std::size_t>(link.slot)];
    }
  }
  std::vector<BudgetRow> rows;
  for (std::size_t i = 0; i < inputs.size(); ++i)
    rows.push_back({inputs[i], sensitivity[i]});
  rows.insert(rows.end(), scatter.begin(), scatter.end());
  return rows;
}

namespace {

/// Weight of one set-up in the mean of its stage: unweighted over days, then over the set-ups of a
/// day, or over the set-ups at once.
std::vector<double> stage_weights(const std::vector<UnitSetup>& setups, bool by_day) {
  std::map<std::string, int> per_day;
  for (const UnitSetup& s : setups)
    ++per_day[s.date];
  std::vector<double> weights;
  for (const UnitSetup& s : setups) {
    weights.push_back(by_day ? 1.0 / static_cast<double>(per_day.size()) / per_day[s.date]
                             : 1.0 / static_cast<double>(setups.size()));
  }
  return weights;
}

int count_days(const std::vector<UnitSetup>& setups) {
  std::set<std::string> days;
  for (const UnitSetup& s : setups)
    days.insert(s.date);
  return static_cast<int>(days.size());
}

/// Values of the units of one block: set-up means, or means of the day's set-ups.
std::vector<double> unit_values(const std::vector<UnitSetup>& setups, bool by_day) {
  std::map<std::string, std::vector<double>> by_unit;
  for (std::size_t i = 0; i < setups.size(); ++i) {
    by_unit[by_day ? setups[i].date : std::to_string(i)].push_back(setups[i].value);
  }
  std::vector<double> values;
  for (const auto& [unit, q] : by_unit) {
    values.push_back(std::accumulate(q.begin(), q.end(), 0.0) / static_cast<double>(q.size()));
  }
  return values;
}

double sum_of_squares(const std::vector<double>& values) {
  const double m =
      std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
  return std::accumulate(values.begin(), values.end(), 0.0,
                         [m](double s, double v) { return s + (v - m) * (v - m); });
}

/// Pooled scatter of the units over before, after and baseline (MEASUREMENT M2).
void pool_scatter(PowerModel& model, const StageBlocks& blocks) {
  double squares = 0.0;
  double dof = 0.0;
  for (const auto* block : {&blocks.from, &blocks.to, &blocks.baseline}) {
    const std::vector<double> values = unit_values(*block, model.unit_is_day);
    if (values.size() < 2) continue;
    squares += sum_of_squares(values);
    dof += static_cast<double>(values.size()) - 1.0;
  }
  if (dof < 1.0) return;
  model.observed_dof = dof;
  model.pooled_sd = std::sqrt(squares / dof);
  const double u = *model.pooled_sd * std::sqrt(1.0 / model.units_from + 1.0 / model.units_to);
  model.scatter.push_back(
      {{"scatter",
        model.unit_is_day ? "scatter of the days, observed" : "scatter of the set-ups, observed",
        model.unit_is_day ? Scope::day : Scope::setup, Evaluation::type_a, u, dof},
       1.0});
}

/// Scatter of the readings inside each set-up, where set-ups were not repeated (M2, last paragraph
/// but one). False when a set-up has a single reading.
bool add_reading_scatter(PowerModel& model, const StageBlocks& blocks,
                         const std::vector<double>& w_from, const std::vector<double>& w_to,
                         bool independent) {
  const auto add = [&](const std::vector<UnitSetup>& setups, const std::vector<double>& weights) {
    for (std::size_t i = 0; i < setups.size(); ++i) {
      const UnitSetup& s = setups[i];
      if (!s.reading_sd) return false;
      const auto n = static_cast<double>(s.values.size());
      const double effective = effective_readings(s.values, independent);
      model.scatter.push_back(
          {{"readings/" + s.name, "scatter of the readings in a set-up", Scope::reading,
            Evaluation::type_a, *s.reading_sd / std::sqrt(effective), n - 1.0},
           weights[i]});
    }
    return true;
  };
  return add(blocks.from, w_from) && add(blocks.to, w_to);
}

std::vector<SetupValue> summaries(const std::vector<UnitSetup>& setups) {
  std::vector<SetupValue> out;
  for (const UnitSetup& s : setups) {
    out.push_back({s.setup, s.value, static_cast<int>(s.values.size()), s.reading_sd});
  }
  return out;
}

/// Several set-ups a stage count as repeats only when it is known what each of them redid.
PowerObstacle replication_obstacle(const StageBlocks& blocks, ScatterSource source,
                                   bool redone_known, double dof) {
  if (source == ScatterSource::stated) return PowerObstacle::none;
  if (dof < 1.0) return PowerObstacle::no_replication;
  if (!redone_known && blocks.from.size() + blocks.to.size() + blocks.baseline.size() > 2) {
    return PowerObstacle::redone_not_stated;
  }
  return PowerObstacle::none;
}

}  // namespace

PowerModelResult build_power_model(const Test& test, const PowerQuestion& question,
                                   ScatterSource source, Assumptions& assumptions) {
  const StageBlocks blocks = collect_stage_blocks(test, question);
  if (blocks.unpaired) return {std::nullopt, PowerObstacle::no_control_pair, *blocks.unpaired};
  if (blocks.from.empty()) return {std::nullopt, PowerObstacle::no_reading_before, {}};
  if (blocks.to.empty()) return {std::nullopt, PowerObstacle::no_reading_after, {}};

  PowerModel model;
  const bool observed = source == ScatterSource::observed;
  if (!observed) {
    if (const auto part = unstated_part(test.protocol.measure.setup_scatter)) {
      return {std::nullopt, PowerObstacle::part_not_stated, *part};
    }
  }
  model.unit_is_day = observed && count_days(blocks.from) >= 2 && count_days(blocks.to) >= 2;
  const auto units = [&](const std::vector<UnitSetup>& s) {
    return model.unit_is_day ? count_days(s) : static_cast<int>(s.size());
  };
  model.units_from = units(blocks.from);
  model.units_to = units(blocks.to);
  model.units_baseline = units(blocks.baseline);
  model.from = summaries(blocks.from);
  model.to = summaries(blocks.to);
  model.baseline = summaries(blocks.baseline);

  const std::vector<double> w_from = stage_weights(blocks.from, model.unit_is_day);
  const std::vector<double> w_to = stage_weights(blocks.to, model.unit_is_day);
  InputPlan plan{test,
                 question,
                 source,
                 model.unit_is_day,
                 redone_in_all(test, blocks),
                 typed_power_step(test.record),
                 typed_sun_step(test.record),
                 assumptions};
  if (const auto missing = add_terms(model, plan, blocks.from, w_from, -1.0)) {
    return {std::nullopt, PowerObstacle::part_not_redone, *missing};
  }
  if (const auto missing = add_terms(model, plan, blocks.to, w_to, +1.0)) {
    return {std::nullopt, PowerObstacle::part_not_redone, *missing};
  }
  if (observed) {
    pool_scatter(model, blocks);
  } else if (!add_reading_scatter(model, blocks, w_from, w_to,
                                  !test.protocol.measure.readings_independent.empty())) {
    return {std::nullopt, PowerObstacle::one_reading, {}};
  }
  const PowerObstacle obstacle =
      replication_obstacle(blocks, source, plan.redone.has_value(), model.observed_dof);
  if (obstacle != PowerObstacle::none) return {std::nullopt, obstacle, {}};
  model.variance_ratio_p = variance_ratio(unit_values(blocks.from, model.unit_is_day),
                                          unit_values(blocks.to, model.unit_is_day));
  return {std::move(model), PowerObstacle::none, {}};
}

std::optional<ReferencePower> reference_power(const Test& test, StageId stage) {
  // No stage to come: nothing drifts, and the readings alone count.
  const PowerQuestion question{stage, {StageKind::later, 0}, PowerQuestion::Of::struck, false};
  const StageBlocks blocks = collect_stage_blocks(test, question);
  if (blocks.from.empty()) return std::nullopt;
  Assumptions unlisted;  // they are listed by the comparison that uses them too
  PowerModel model;
  InputPlan plan{test,
                 question,
                 ScatterSource::observed,
                 true,
                 std::vector<Redone>(all_redone.begin(), all_redone.end()),
                 typed_power_step(test.record),
                 typed_sun_step(test.record),
                 unlisted};
  add_terms(model, plan, blocks.from, stage_weights(blocks.from, false), 1.0);
  const double u = combine(model.budget()).standard_u;
  return ReferencePower{Power::from_si(std::exp(model.lambda())), Ratio::from_si(u)};
}

}  // namespace hailwright
