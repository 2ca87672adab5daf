#include "evaluate/sibling_comparison.hpp"

#include <cmath>
#include <limits>

#include "evaluate/power_inputs.hpp"
#include "evaluate/sibling_units.hpp"

namespace hailwright {

namespace {

/// Builds the model step by step.
class Siblings {
public:
  Siblings(const Test& test, const PowerQuestion& question, ScatterSource source,
           Assumptions& assumptions)
      : test_(test), question_(question), source_(source), assumptions_(assumptions),
        blocks_(collect_sibling_blocks(test, question)) {}

  PowerModelResult build() {
    if (blocks_.struck.empty()) return fail(PowerObstacle::no_reading_after);
    if (blocks_.unstruck.empty()) return fail(PowerObstacle::no_sibling);
    describe();
    const auto& tolerance = test_.protocol.measure.unit_tolerance;
    const std::size_t units = blocks_.unstruck.size();
    if (units >= deciding_siblings || (units > 1 && !tolerance)) return by_spread();
    if (!tolerance) return fail(PowerObstacle::one_sibling_set);
    return by_tolerance(*tolerance);
  }

private:
  static PowerModelResult fail(PowerObstacle obstacle, std::string subject = {}) {
    return {std::nullopt, obstacle, std::move(subject)};
  }

  void describe() {
    model_.siblings = spread_of(blocks_);
    model_.to = blocks_.struck.front().setups;
    for (const PanelSetups& unit : blocks_.unstruck)
      model_.from.insert(model_.from.end(), unit.setups.begin(), unit.setups.end());
    model_.units_to = static_cast<int>(model_.to.size());
    model_.units_from = static_cast<int>(blocks_.unstruck.size());
  }

  std::optional<std::string> add_readings(const SiblingInputs& siblings,
                                          const std::optional<std::vector<Redone>>& redone) {
    const InputPlan plan{test_,
                         question_,
                         source_,
                         false,
                         redone,
                         typed_power_step(test_.record),
                         typed_sun_step(test_.record),
                         assumptions_,
                         siblings};
    return add_terms(model_, plan, blocks_.setups, std::vector<double>(blocks_.setups.size(), 1.0),
                     +1.0);
  }

  PowerModelResult by_spread() {
    SiblingInputs inputs;
    inputs.spread_observed = true;
    inputs.days_in_spread = days_differ(blocks_);
    inputs.skies = uneven_dates(blocks_);
    add_readings(inputs, std::nullopt);
    const auto m = static_cast<double>(blocks_.unstruck.size());
    const double sd = *model_.siblings->sd;
    model_.observed_dof = m - 1.0;
    model_.pooled_sd = sd;
    model_.scatter.push_back({{"spread", "spread of the unstruck units, observed", Scope::record,
                               Evaluation::type_a, sd * std::sqrt(1.0 + 1.0 / m), m - 1.0},
                              1.0});
    if (auto row = fewer_struck_setups(blocks_)) model_.scatter.push_back(std::move(*row));
    return {std::move(model_), PowerObstacle::none, {}};
  }

  PowerModelResult by_tolerance(Ratio tolerance) {
    model_.siblings->assumed = true;
    const bool observed = source_ == ScatterSource::observed;
    if (!observed) {
      const auto part = unstated_part(test_.protocol.measure.setup_scatter);
      if (part) return fail(PowerObstacle::part_not_stated, *part);
    }
    StageBlocks all;
    all.to = blocks_.setups;
    const auto redone = redone_in_all(test_, all);
    SiblingInputs inputs;
    inputs.tolerance = tolerance;
    inputs.skies = uneven_dates(blocks_);
    const auto missing = add_readings(inputs, redone);
    if (missing) return fail(PowerObstacle::part_not_redone, *missing);
    const PowerObstacle obstacle =
        observed ? add_setup_scatter(redone.has_value()) : add_reading_scatter();
    if (obstacle != PowerObstacle::none) return fail(obstacle);
    return {std::move(model_), PowerObstacle::none, {}};
  }

  PowerObstacle add_setup_scatter(bool redone_known) {
    model_.scatter = repeated_setups(blocks_);
    if (model_.scatter.empty()) return PowerObstacle::siblings_set_up_once;
    if (!redone_known) return PowerObstacle::redone_not_stated;
    for (const BudgetRow& row : model_.scatter)
      model_.observed_dof += row.input.degrees_of_freedom;
    return PowerObstacle::none;
  }

  /// Scatter of the readings of panels read together, or of one alone, in each set-up (M2).
  PowerObstacle add_reading_scatter() {
    const bool independent = !test_.protocol.measure.readings_independent.empty();
    for (const UnitSetup& s : blocks_.setups) {
      if (!s.reading_sd) return PowerObstacle::one_reading;
      const std::string own = s.panels.front().role == Role::sibling
                                  ? "/" + panel_name(test_.record, s.panels.front())
                                  : "";
      model_.scatter.push_back(
          {{"readings/" + s.name + own, "scatter of the readings in a set-up", Scope::reading,
            Evaluation::type_a, reading_u(s, independent), s.reading_dof},
           1.0});
    }
    return PowerObstacle::none;
  }

  const Test& test_;
  const PowerQuestion& question_;
  ScatterSource source_;
  Assumptions& assumptions_;
  SiblingBlocks blocks_;
  PowerModel model_;
};

}  // namespace

PowerModelResult compare_siblings(const Test& test, const PowerQuestion& question,
                                  ScatterSource source, Assumptions& assumptions) {
  return Siblings(test, question, source, assumptions).build();
}

}  // namespace hailwright
