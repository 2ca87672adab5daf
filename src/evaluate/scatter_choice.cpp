#include "evaluate/scatter_choice.hpp"

#include "evaluate/sibling_comparison.hpp"
#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

ScatterCandidate candidate(PowerModel model, std::vector<BudgetRow> budget) {
  const Combined all = combine(budget);
  const Combined observed = combine(budget, Evaluation::type_a);
  return {std::move(model), std::move(budget), all, observed};
}

}  // namespace

PowerQuestion stage_question(const Protocol& protocol, StageId from, StageId to) {
  switch (protocol.measure.compare) {
  case Comparison::same_panel:
    return {from, to, PowerQuestion::Of::struck};
  case Comparison::control_panel:
    return {from, to, PowerQuestion::Of::both};
  case Comparison::sibling_panel:
    return {to, to, PowerQuestion::Of::siblings};
  }
  fail_contract("unknown comparison");
}

bool spread_observed(const PowerModel& model) {
  return model.siblings && !model.siblings->assumed;
}

namespace {

/// Whether repeats decide by themselves: the spread of three units, or four degrees of freedom.
bool repeats_decide(const PowerModel& model) {
  return spread_observed(model) ? model.siblings->units.size() >= deciding_siblings
                                : model.observed_dof >= deciding_dof;
}

/// Tries the two sources of scatter and keeps the assumptions of the one that is chosen.
class Chooser {
public:
  Chooser(const Test& test, const PowerQuestion& question, Assumptions& assumptions,
          const ObservedBudget& budget)
      : test_(test), question_(question), assumptions_(assumptions), budget_(budget),
        for_observed_(assumptions), for_stated_(assumptions) {}

  ScatterChoice choose() {
    observed_ = build_power_model(test_, question_, ScatterSource::observed, for_observed_);
    ScatterChoice choice;
    if (observed_.model && repeats_decide(*observed_.model)) {
      take_observed(choice);
      return choice;
    }
    // How units differ is observed or not: what is stated of set-ups does not bear on it.
    const bool spread = observed_.model && spread_observed(*observed_.model);
    if (!test_.protocol.measure.setup_scatter.empty() && !spread) {
      PowerModelResult stated =
          build_power_model(test_, question_, ScatterSource::stated, for_stated_);
      if (stated.model) {
        take_larger(choice, std::move(*stated.model));
        return choice;
      }
      if (!observed_.model) {
        choice.failed = std::move(stated);
        return choice;
      }
    }
    if (observed_.model) {
      choice.too_few = true;
      take_observed(choice);
    } else {
      choice.failed = std::move(observed_);
    }
    return choice;
  }

private:
  void take_observed(ScatterChoice& choice) {
    std::vector<BudgetRow> rows = budget_(*observed_.model, for_observed_);
    choice.chosen = candidate(std::move(*observed_.model), std::move(rows));
    assumptions_ = for_observed_;
  }

  /// What is stated; or repeats that scatter more, which are too few to decide by themselves: a
  /// tiny figure stated beside them must not make them enough.
  void take_larger(ScatterChoice& choice, PowerModel stated_model) {
    std::vector<BudgetRow> rows = stated_model.budget();
    ScatterCandidate stated = candidate(std::move(stated_model), std::move(rows));
    if (observed_.model) {
      take_observed(choice);
      const double observed_u = choice.chosen->all.standard_u;
      if (observed_u > stated.all.standard_u) {
        choice.stated_below_observed = std::pair(stated.all.standard_u, observed_u);
        choice.too_few = true;
        return;
      }
    }
    choice.rests_on_stated = true;
    choice.chosen = std::move(stated);
    assumptions_ = for_stated_;
  }

  const Test& test_;
  const PowerQuestion& question_;
  Assumptions& assumptions_;
  const ObservedBudget& budget_;
  Assumptions for_observed_, for_stated_;
  PowerModelResult observed_;
};

}  // namespace

ScatterChoice choose_scatter(const Test& test, const PowerQuestion& question,
                             Assumptions& assumptions, const ObservedBudget& budget) {
  return Chooser(test, question, assumptions, budget).choose();
}

ScatterChoice choose_scatter(const Test& test, const PowerQuestion& question,
                             Assumptions& assumptions) {
  return choose_scatter(test, question, assumptions,
                        [](const PowerModel& model, Assumptions&) { return model.budget(); });
}

}  // namespace hailwright
