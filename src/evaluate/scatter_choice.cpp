#include "evaluate/scatter_choice.hpp"

namespace hailwright {

namespace {

ScatterCandidate candidate(PowerModel model, std::vector<BudgetRow> budget) {
  const Combined all = combine(budget);
  const Combined observed = combine(budget, Evaluation::type_a);
  return {std::move(model), std::move(budget), all, observed};
}

}  // namespace

PowerQuestion stage_question(const Protocol& protocol, StageId from, StageId to) {
  return {from, to,
          protocol.measure.compare == Comparison::control_panel ? PowerQuestion::Of::both
                                                                : PowerQuestion::Of::struck,
          false};
}

ScatterChoice choose_scatter(const Test& test, const PowerQuestion& question,
                             Assumptions& assumptions, const ObservedBudget& budget) {
  ScatterChoice choice;
  const bool has_stated = !test.protocol.measure.setup_scatter.empty();
  Assumptions for_observed = assumptions;
  PowerModelResult observed =
      build_power_model(test, question, ScatterSource::observed, for_observed);
  const auto by_repeats = [&](Assumptions& listed) {
    std::vector<BudgetRow> rows = budget(*observed.model, listed);
    return candidate(std::move(*observed.model), std::move(rows));
  };
  if (observed.model && observed.model->observed_dof >= deciding_dof) {
    choice.chosen = by_repeats(for_observed);
    assumptions = for_observed;
    return choice;
  }
  if (has_stated) {
    Assumptions for_stated = assumptions;
    PowerModelResult stated = build_power_model(test, question, ScatterSource::stated, for_stated);
    if (stated.model) {
      std::vector<BudgetRow> rows = stated.model->budget();
      ScatterCandidate s = candidate(std::move(*stated.model), std::move(rows));
      choice.rests_on_stated = true;
      if (observed.model) {
        ScatterCandidate o = by_repeats(for_observed);
        if (o.all.standard_u > s.all.standard_u) {
          choice.stated_below_observed = std::pair(s.all.standard_u, o.all.standard_u);
          choice.chosen = std::move(o);
          assumptions = for_observed;
          return choice;
        }
      }
      choice.chosen = std::move(s);
      assumptions = for_stated;
      return choice;
    }
    if (!observed.model) {
      choice.failed = std::move(stated);
      return choice;
    }
  }
  if (observed.model) {
    choice.too_few = true;
    choice.chosen = by_repeats(for_observed);
    assumptions = for_observed;
    return choice;
  }
  choice.failed = std::move(observed);
  return choice;
}

ScatterChoice choose_scatter(const Test& test, const PowerQuestion& question,
                             Assumptions& assumptions) {
  return choose_scatter(test, question, assumptions,
                        [](const PowerModel& model, Assumptions&) { return model.budget(); });
}

}  // namespace hailwright
