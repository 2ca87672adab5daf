#pragma once

#include "hailwright/model/protocol.hpp"

namespace hailwright {

/// What a measurement repeats.
struct PlannedUnits {
  int before = 0, after = 0;  ///< set-ups of a stage
  int siblings = 0;           ///< unstruck units, where the struck panel is compared with those
};

/// The protocol's numbers, and the proposed ones where it leaves some out. Siblings stand for the
/// stage before the shots, so that with them it has no set-ups.
PlannedUnits planned_units(const MeasurementPlan& measure);

/// Set-ups a stage that a plan proposes: the fewest that decide by themselves (MEASUREMENT M6), or
/// that a line in time can be fitted to (M8).
int proposed_setups(const MeasurementPlan& measure);

/// Siblings that a plan proposes: the fewest that decide (M2).
inline constexpr int proposed_siblings = 3;

/// The same numbers, none below the proposed ones.
PlannedUnits enough_units(const MeasurementPlan& measure, PlannedUnits units);

}  // namespace hailwright
