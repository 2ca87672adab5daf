#pragma once

#include "evaluate/power_inputs.hpp"

namespace hailwright {

/// Links the readings of one panel in a set-up to the errors of what they were read with
/// (MEASUREMENT M3), power meter, sun meter and thermometer, and to those of the panel's
/// coefficient and of its cell above the back. Gain, constant offset and digits of an instrument
/// are an error each.
/// @param first  one of the readings
void link_instruments(InputLinks& links, const InputPlan& plan, const UnitSetup& unit,
                      const Reading& first);

// What an instrument that nobody describes is taken to be wrong by (docs/defaults.md).
Stated<Power> default_meter_error();
Stated<Irradiance> default_sun_error();
Stated<TemperatureDifference> default_thermometer_error();
Stated<TemperatureDifference> default_error_each_time();

}  // namespace hailwright
