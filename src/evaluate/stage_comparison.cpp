#include "evaluate/stage_comparison.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "evaluate/power_inputs.hpp"
#include "evaluate/setup_units.hpp"
#include "evaluate/trend_fit.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

int count_days(const std::vector<UnitSetup>& setups) {
  std::set<std::string> days;
  for (const UnitSetup& s : setups)
    days.insert(s.date);
  return static_cast<int>(days.size());
}

PooledScatter pool(const StageBlocks& blocks, bool by_day) {
  PooledScatter pooled;
  for (const auto* block : {&blocks.from, &blocks.to, &blocks.baseline})
    pooled.add(unit_values(*block, by_day));
  return pooled;
}

std::vector<SetupValue> summaries(const std::vector<UnitSetup>& setups) {
  std::vector<SetupValue> out;
  std::transform(setups.begin(), setups.end(), std::back_inserter(out), summary_of);
  return out;
}

/// Whether the line in time is to be taken out: between the stages before and after the shots,
/// never where an untouched panel is checked against itself.
bool wants_trend(const Test& test, const PowerQuestion& question) {
  return test.protocol.measure.fitted_trend && question.from.kind == StageKind::before &&
         question.of != PowerQuestion::Of::control;
}

/// Builds the model step by step.
class StageComparison {
public:
  StageComparison(const Test& test, const PowerQuestion& question, ScatterSource source,
                  Assumptions& assumptions)
      : test_(test), question_(question), source_(source), assumptions_(assumptions),
        blocks_(collect_stage_blocks(test, question)) {}

  PowerModelResult build() {
    if (blocks_.unpaired) return fail(PowerObstacle::no_control_pair, *blocks_.unpaired);
    if (blocks_.from.empty()) return fail(PowerObstacle::no_reading_before);
    if (blocks_.to.empty()) return fail(PowerObstacle::no_reading_after);
    if (!observed()) {
      const auto part = unstated_part(test_.protocol.measure.setup_scatter);
      if (part) return fail(PowerObstacle::part_not_stated, *part);
    }
    if (wants_trend(test_, question_)) {
      trend_ = fit_trend(test_, blocks_.from, blocks_.to);
      if (!trend_) return fail(PowerObstacle::trend_needs_setups);
    }
    count_units();
    if (const auto missing = add_readings()) return fail(PowerObstacle::part_not_redone, *missing);
    if (observed()) {
      add_observed_scatter();
    } else if (!add_reading_scatter()) {
      return fail(PowerObstacle::one_reading);
    }
    if (const auto obstacle = replication_obstacle(); obstacle != PowerObstacle::none) {
      return fail(obstacle);
    }
    if (trend_) describe_trend();
    model_.variance_ratio_p = trend_ ? variance_ratio(trend_->from_rest, trend_->to_rest)
                                     : variance_ratio(unit_values(blocks_.from, model_.unit_is_day),
                                                      unit_values(blocks_.to, model_.unit_is_day));
    return {std::move(model_), PowerObstacle::none, {}};
  }

private:
  static PowerModelResult fail(PowerObstacle obstacle, std::string subject = {}) {
    return {std::nullopt, obstacle, std::move(subject)};
  }
  [[nodiscard]] bool observed() const { return source_ == ScatterSource::observed; }

  void count_units() {
    // A line goes through set-ups: then they are the units, however many days there are.
    model_.unit_is_day =
        observed() && !trend_ && count_days(blocks_.from) >= 2 && count_days(blocks_.to) >= 2;
    const auto units = [&](const std::vector<UnitSetup>& s) {
      return model_.unit_is_day ? count_days(s) : static_cast<int>(s.size());
    };
    model_.units_from = units(blocks_.from);
    model_.units_to = units(blocks_.to);
    model_.units_baseline = units(blocks_.baseline);
    model_.from = summaries(blocks_.from);
    model_.to = summaries(blocks_.to);
    model_.baseline = summaries(blocks_.baseline);
    weights_from_ = trend_ ? trend_->from : stage_weights(blocks_.from, model_.unit_is_day);
    weights_to_ = trend_ ? trend_->to : stage_weights(blocks_.to, model_.unit_is_day);
  }

  std::optional<std::string> add_readings() {
    redone_ = redone_in_all(test_, blocks_);
    const InputPlan plan{test_,
                         question_,
                         source_,
                         model_.unit_is_day,
                         redone_,
                         typed_power_step(test_.record),
                         typed_sun_step(test_.record),
                         assumptions_};
    if (auto missing = add_terms(model_, plan, blocks_.from, weights_from_, -1.0)) return missing;
    return add_terms(model_, plan, blocks_.to, weights_to_, +1.0);
  }

  /// PooledScatter scatter of the units over before, after and baseline (M2), or about the line
  /// (M8).
  void add_observed_scatter() {
    const PooledScatter pooled =
        trend_ ? PooledScatter{trend_->sd * trend_->sd * trend_->dof, trend_->dof}
               : pool(blocks_, model_.unit_is_day);
    if (pooled.dof < 1.0) return;
    model_.observed_dof = pooled.dof;
    model_.pooled_sd = pooled.sd();
    const double share = trend_ ? trend_->step_share : unfitted_share();
    const char* label = trend_               ? "scatter of the set-ups about the line, observed"
                        : model_.unit_is_day ? "scatter of the days, observed"
                                             : "scatter of the set-ups, observed";
    model_.scatter.push_back({{"scatter", label, model_.unit_is_day ? Scope::day : Scope::setup,
                               Evaluation::type_a, pooled.sd() * share, pooled.dof},
                              1.0});
  }

  [[nodiscard]] double unfitted_share() const {
    return std::sqrt(1.0 / model_.units_from + 1.0 / model_.units_to);
  }

  /// Scatter of the readings inside each set-up, where set-ups were not repeated (M2, last
  /// paragraph but one). False when a set-up has a single reading.
  bool add_reading_scatter() {
    const bool independent = !test_.protocol.measure.readings_independent.empty();
    const auto add = [&](const std::vector<UnitSetup>& setups, const std::vector<double>& weights) {
      for (std::size_t i = 0; i < setups.size(); ++i) {
        const UnitSetup& s = setups[i];
        if (!s.reading_sd) return false;
        model_.scatter.push_back(
            {{"readings/" + s.name, "scatter of the readings in a set-up", Scope::reading,
              Evaluation::type_a, reading_u(s, independent), s.reading_dof},
             weights[i]});
      }
      return true;
    };
    return add(blocks_.from, weights_from_) && add(blocks_.to, weights_to_);
  }

  /// Set-ups count as repeats, three at least, only when it is known what each of them redid.
  [[nodiscard]] PowerObstacle replication_obstacle() const {
    if (!observed()) return PowerObstacle::none;
    if (model_.observed_dof < 1.0) return PowerObstacle::no_replication;
    return redone_ ? PowerObstacle::none : PowerObstacle::redone_not_stated;
  }

  void describe_trend() {
    const PooledScatter unfitted = pool(blocks_, false);
    model_.trend = FittedTrend{trend_->per_day, trend_->sd * trend_->line_share,
                               unfitted.sd() * unfitted_share()};
  }

  const Test& test_;
  const PowerQuestion& question_;
  ScatterSource source_;
  Assumptions& assumptions_;
  StageBlocks blocks_;
  PowerModel model_;
  std::optional<TrendFit> trend_;
  std::vector<double> weights_from_, weights_to_;
  std::optional<std::vector<Redone>> redone_;
};

}  // namespace

PowerModelResult compare_stages(const Test& test, const PowerQuestion& question,
                                ScatterSource source, Assumptions& assumptions) {
  return StageComparison(test, question, source, assumptions).build();
}

}  // namespace hailwright
