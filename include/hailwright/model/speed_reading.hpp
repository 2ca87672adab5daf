#pragma once

#include <optional>

#include "hailwright/model/record.hpp"
#include "hailwright/model/speed_method.hpp"

namespace hailwright {

/// What was read of one ball's speed: the columns that its way needs, and how finely it was typed.
struct SpeedReading {
  std::optional<Speed> speed, speed_step;  ///< of a meter or a radar
  std::optional<double> frames;
  std::optional<Length> moved;          ///< between two pictures so many frames apart
  std::optional<Time> time, time_step;  ///< between gates, or between sounds
};

SpeedReading speed_reading(const Trial& trial);
SpeedReading speed_reading(const Shot& shot);

/// Taken where the protocol is silent; docs/defaults.md gives the reasons [all ours].
namespace speed_unstated {
inline constexpr Angle radar_angle = Angle::from_si(0.08726646259971647);  ///< 5 deg
inline constexpr Angle radar_angle_within = Angle::from_si(0.08726646259971647);
inline constexpr TemperaturePoint sound_air = TemperaturePoint::from_celsius(17.5);
}  // namespace speed_unstated

/// The ways of two sounds with this time between them; without uncertainties.
TwoSounds two_sounds(const SoundsWay& way, Time between);

/// The speed that a reading makes by the way of the method, where it was measured. A speed typed
/// as such is taken where the way is `typed` or `frames`. Nothing when the reading lacks what the
/// way needs, or when no flight fits it: sounds closer together than their ways allow, a picture
/// faster than its own read-out.
std::optional<Speed> speed_of(const SpeedMethod& method, const SpeedReading& reading);

}  // namespace hailwright
