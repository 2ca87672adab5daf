#pragma once

#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "hailwright/evaluate/power_model.hpp"

namespace hailwright {

/// Fewer degrees of freedom decide nothing by observed scatter alone (MEASUREMENT M2).
inline constexpr double deciding_dof = 4.0;

/// What a protocol compares from one stage to another; with siblings, in the later stage alone.
PowerQuestion stage_question(const Protocol& protocol, StageId from, StageId to);

/// A model with its budget.
struct ScatterCandidate {
  PowerModel model;
  std::vector<BudgetRow> budget;
  Combined all;
  Combined observed;
};

/// Whether the spread of unstruck units was observed, not taken from a tolerance.
bool spread_observed(const PowerModel& model);

/// Which scatter a comparison rests on.
struct ScatterChoice {
  std::optional<ScatterCandidate> chosen;
  PowerModelResult failed;  ///< why there is none
  bool rests_on_stated = false;
  bool too_few = false;  ///< observed, but by too few degrees of freedom
  std::optional<std::pair<double, double>> stated_below_observed;
};

/// The budget of a model whose scatter was observed; a forecast puts an assumed one in its place.
using ObservedBudget = std::function<std::vector<BudgetRow>(const PowerModel&, Assumptions&)>;

/// Observed scatter where it has degrees of freedom enough; else what the protocol states, or the
/// larger of the two; else the observed one, which then decides nothing (MEASUREMENT M2). Units
/// whose spread was observed decide from three on.
ScatterChoice choose_scatter(const Test& test, const PowerQuestion& question,
                             Assumptions& assumptions, const ObservedBudget& budget);
/// The same with the budget as it was observed.
ScatterChoice choose_scatter(const Test& test, const PowerQuestion& question,
                             Assumptions& assumptions);

}  // namespace hailwright
