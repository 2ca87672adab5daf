#pragma once

#include <optional>

#include "hailwright/core/quantity.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

/// A measurement that nobody has made yet.
struct ImaginedMeasurement {
  Protocol protocol;
  Panel panel;
  std::optional<Panel> control;          ///< when it is of another model than `panel`
  int before = 3, after = 3;             ///< set-ups
  int readings = 2;                      ///< of a set-up
  int days = 1;                          ///< of each stage; its set-ups go round them
  TemperatureDifference warmer_after{};  ///< of both panels, than before the shots
  bool other_instruments = false;        ///< after the shots
};

/// The test that such a measurement would give if every reading were exact and all of one stage
/// alike, at 900 W/m2 and 45 degC [ours: a clear day, a panel in the sun], before and after.
Test imagine(const ImaginedMeasurement& wanted);

}  // namespace hailwright
