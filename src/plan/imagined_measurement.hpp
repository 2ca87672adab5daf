#pragma once

#include <optional>

#include "hailwright/core/quantity.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/model/record.hpp"
#include "hailwright/plan/planned_units.hpp"

namespace hailwright {

/// A measurement that nobody has made yet.
struct ImaginedMeasurement {
  Protocol protocol;
  Panel panel;
  std::optional<Panel> control;  ///< when it is of another model than `panel`
  PlannedUnits units{3, 3, 0};
  int readings = 2;                      ///< of a set-up
  int days = 1;                          ///< of each stage; its set-ups go round them
  TemperatureDifference warmer_after{};  ///< of both panels, than before the shots
  bool other_instruments = false;        ///< after the shots
};

/// The test that such a measurement would give if every reading were exact and all of one stage
/// alike, at 900 W/m2 and 45 degC [ours: a clear day, a panel in the sun], before and after.
/// Set-ups follow each other by half an hour where a day has room for that, and the shots take two
/// hours between the stages [ours].
Test imagine(const ImaginedMeasurement& wanted);

/// What is compared with siblings compared with itself before instead: as many set-ups before as
/// after, and enough of them. Everything else stays.
ImaginedMeasurement compared_with_itself(ImaginedMeasurement measurement);

}  // namespace hailwright
