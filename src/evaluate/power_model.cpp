#include "hailwright/evaluate/power_model.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/power_inputs.hpp"
#include "evaluate/setup_units.hpp"
#include "evaluate/sibling_comparison.hpp"
#include "evaluate/stage_comparison.hpp"
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

bool PowerModel::drift_taken_out() const {
  const auto of = [](const std::vector<SetupValue>& block) {
    return std::any_of(block.begin(), block.end(),
                       [](const SetupValue& s) { return s.drift_per_hour.has_value(); });
  };
  return of(from) || of(to) || of(baseline);
}

PowerModelResult build_power_model(const Test& test, const PowerQuestion& question,
                                   ScatterSource source, Assumptions& assumptions) {
  return question.of == PowerQuestion::Of::siblings
             ? compare_siblings(test, question, source, assumptions)
             : compare_stages(test, question, source, assumptions);
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
