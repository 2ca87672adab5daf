#include "evaluate/reference_budget.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/power_inputs.hpp"
#include "evaluate/scatter_choice.hpp"
#include "evaluate/setup_units.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

/// The struck panel in one stage, with nothing to come after it.
PowerQuestion question_of(StageId stage) {
  return {stage, {StageKind::later, 0}, PowerQuestion::Of::struck};
}

/// The set-ups of the struck panel, stage by stage, in the order in which stages first stand.
std::vector<std::vector<UnitSetup>> blocks_by_stage(const Test& test) {
  std::vector<StageId> stages;
  std::vector<std::vector<UnitSetup>> blocks;
  for (const Setup& setup : test.record.setups) {
    if (std::find(stages.begin(), stages.end(), setup.stage) != stages.end()) continue;
    stages.push_back(setup.stage);
    blocks.push_back(collect_stage_blocks(test, question_of(setup.stage)).from);
  }
  return blocks;
}

class ReferenceBuilder {
public:
  explicit ReferenceBuilder(const Test& test)
      : test_(test), question_(question_of({StageKind::before, 0})),
        blocks_(collect_stage_blocks(test, question_)) {}

  std::optional<ReferenceBudget> build() {
    if (blocks_.from.empty()) return std::nullopt;
    by_day_ = unit_values(blocks_.from, true).size() > 1;
    for (const std::vector<UnitSetup>& block : blocks_by_stage(test_))
      pooled_.add(unit_values(block, by_day_));
    redone_ = redone_in_all(test_, blocks_);
    auto observed = by_observed();
    if (observed && pooled_.dof >= deciding_dof) return observed;
    return larger(std::move(observed), by_stated());
  }

private:
  static std::optional<ReferenceBudget> larger(std::optional<ReferenceBudget> a,
                                               std::optional<ReferenceBudget> b) {
    if (!a || !b) return a ? a : b;
    return combine(a->rows).standard_u > combine(b->rows).standard_u ? a : b;
  }

  std::optional<ReferenceBudget> by_observed() {
    if (pooled_.dof < 1.0 || !redone_) return std::nullopt;
    auto budget = instruments(ScatterSource::observed);
    if (!budget) return std::nullopt;
    const auto units = static_cast<double>(unit_values(blocks_.from, by_day_).size());
    budget->rows.push_back(
        {{"scatter", "scatter of the set-ups, observed", by_day_ ? Scope::day : Scope::setup,
          Evaluation::type_a, pooled_.sd() / std::sqrt(units), pooled_.dof},
         1.0});
    if (!by_day_) add_day(*budget);
    return budget;
  }

  std::optional<ReferenceBudget> by_stated() {
    const auto& stated = test_.protocol.measure.setup_scatter;
    if (stated.empty() || unstated_part(stated)) return std::nullopt;
    auto budget = instruments(ScatterSource::stated);
    if (!budget) return std::nullopt;
    const bool independent = !test_.protocol.measure.readings_independent.empty();
    const std::vector<double> weights = stage_weights(blocks_.from, by_day_);
    for (std::size_t i = 0; i < blocks_.from.size(); ++i) {
      const UnitSetup& s = blocks_.from[i];
      if (!s.reading_sd) return std::nullopt;
      budget->rows.push_back(
          {{"readings/" + s.name, "scatter of the readings in a set-up", Scope::reading,
            Evaluation::type_a, reading_u(s, independent), s.reading_dof},
           weights[i]});
    }
    // Stated components are those of a set-up: the sky of each day comes on top.
    add_day(*budget);
    return budget;
  }

  /// The readings with their instruments, and what the source of the scatter makes of the set-ups.
  std::optional<ReferenceBudget> instruments(ScatterSource source) {
    Assumptions unlisted;  // the comparison that uses them lists them
    PowerModel model;
    // The day is added here: the protocol's figure may be that of panels read together.
    const bool day_elsewhere = true;
    const InputPlan plan{test_,
                         question_,
                         source,
                         day_elsewhere,
                         redone_,
                         typed_power_step(test_.record),
                         typed_sun_step(test_.record),
                         unlisted};
    const auto weights = stage_weights(blocks_.from, by_day_);
    if (add_terms(model, plan, blocks_.from, weights, 1.0)) return std::nullopt;
    return ReferenceBudget{model.lambda(), model.budget()};
  }

  void add_day(ReferenceBudget& budget) const {
    const MeasurementPlan& measure = test_.protocol.measure;
    const bool of_one_panel = measure.compare == Comparison::same_panel && measure.day;
    const double u = of_one_panel ? measure.day->si() : defaults::day_same_panel_u.si();
    const auto days = static_cast<double>(unit_values(blocks_.from, true).size());
    budget.rows.push_back({type_b("day/before", "sky of a day", Scope::day, u, Shape::normal),
                           1.0 / std::sqrt(days)});
  }

  const Test& test_;
  PowerQuestion question_;
  StageBlocks blocks_;
  bool by_day_ = false;
  PooledScatter pooled_;
  std::optional<std::vector<Redone>> redone_;
};

}  // namespace

std::optional<ReferenceBudget> reference_budget(const Test& test) {
  return ReferenceBuilder(test).build();
}

}  // namespace hailwright
