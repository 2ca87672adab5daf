#include "hailwright/plan/planned_units.hpp"

#include <algorithm>

namespace hailwright {

namespace {

constexpr int fewest_that_decide = 3;
constexpr int fewest_for_a_line = 4;

bool with_siblings(const MeasurementPlan& measure) {
  return measure.compare == Comparison::sibling_panel;
}

}  // namespace

int proposed_setups(const MeasurementPlan& measure) {
  return measure.fitted_trend ? fewest_for_a_line : fewest_that_decide;
}

PlannedUnits planned_units(const MeasurementPlan& measure) {
  PlannedUnits units;
  const int proposed = proposed_setups(measure);
  units.after = measure.after.value_or(proposed);
  if (with_siblings(measure)) {
    units.siblings = measure.siblings.value_or(proposed_siblings);
  } else {
    units.before = measure.before.value_or(proposed);
  }
  return units;
}

PlannedUnits enough_units(const MeasurementPlan& measure, PlannedUnits units) {
  if (with_siblings(measure)) {
    units.siblings = std::max(units.siblings, proposed_siblings);
    return units;
  }
  units.before = std::max(units.before, proposed_setups(measure));
  units.after = std::max(units.after, proposed_setups(measure));
  return units;
}

}  // namespace hailwright
