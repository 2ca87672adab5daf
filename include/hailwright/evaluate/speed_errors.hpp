#pragma once

#include "hailwright/core/quantity.hpp"
#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/model/speed_reading.hpp"
#include "hailwright/physics/speed_methods.hpp"

namespace hailwright {

/// What a way of measuring a speed can be wrong by, at a speed, as shares of it.
struct SpeedErrors {
  double shared_u = 0.0;       ///< scale, rate, parallax, a meter's constant error: all shots alike
  double own_u = 0.0;          ///< counting, reading a display: anew each time
  bool supports_grade = true;  ///< false: a nominal setting
};

/// The errors of the protocol's method for a speed where it is measured (not at the panel).
/// Defaults used are noted. Positions are taken ten frames apart [ours]; a display is taken as
/// endlessly fine, since its step is known from its readings alone. A drop is taken as in
/// `speed_by_fall` for a ball that is not known, from the height that this speed needs without air.
SpeedErrors speed_errors(const SpeedMethod& method, Speed speed, Assumptions& assumptions);

/// What the method would read of a ball of this speed; the display endlessly fine, positions ten
/// frames apart. Nothing when no reading could be: a ball that outruns the read-out of the picture.
std::optional<SpeedReading> imagined_reading(const SpeedMethod& method, Speed speed);

/// The speed of one reading, where it was measured, with all that it can be wrong by; defaults used
/// are noted with what they add to the energy. A speed typed where the way is another (worked out
/// by hand) has the shared errors of that way. Nothing as `speed_of`.
std::optional<MeasuredSpeed> measure_speed(const SpeedMethod& method, const SpeedReading& reading,
                                           Assumptions& assumptions);

/// Density of the air that a ball flies through, with its half-width.
struct FlightAir {
  Density density, half_width;
  bool assumed = false;  ///< the default
};
/// As stated; else from the altitude: within 4 % for the weather's pressure, or 8 % with the
/// standard atmosphere's temperature where nobody measured it [both ours]; else the default.
/// Neither noted.
FlightAir flight_air(std::optional<Density> stated, std::optional<Length> altitude,
                     std::optional<TemperaturePoint> air);

/// The speed at the end of a drop. Notes what it takes for granted.
MeasuredSpeed measure_drop(const SpeedMethod& method, Length height,
                           const std::optional<FlyingBall>& ball, const FlightAir& air,
                           Assumptions& assumptions);
/// A launcher's setting, taken for the speed at the panel.
MeasuredSpeed take_setting(Speed nominal, Assumptions& assumptions);

/// Half of the base over which the method measures a mean speed: from there to the panel at least.
Length half_base(const SpeedMethod& method);

}  // namespace hailwright
