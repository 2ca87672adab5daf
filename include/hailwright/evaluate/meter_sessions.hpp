#pragma once

#include <optional>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/evaluate/log_results.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

/// What one session read off a meter came to (docs/methods/sessions-by-meter.md).
struct MeterSessionResult {
  std::size_t session = 0;  ///< index into Record::energy
  LogNumber<Energy> energy;
  LogNumber<Power> mean_power;
  /// At 1000 W/m2 and 25 degC, by the mean of the two ends. Nothing without irradiance and back
  /// temperature at both.
  std::optional<LogNumber<Power>> normalised;
  Irradiance mean_sun;         ///< of the two ends, with `normalised`
  TemperaturePoint mean_back;  ///< likewise
  std::optional<LogNumber<Energy>> energy_beside;
  /// Energy of the panel beside over that of this one, over the same time.
  std::optional<LogNumber<Ratio>> ratio;
  Assumptions assumptions;
};

/// As `Record::energy`.
std::vector<MeterSessionResult> weigh_meter_sessions(const Test& test);

}  // namespace hailwright
