#pragma once

#include <optional>

#include "hailwright/core/quantity.hpp"
#include "hailwright/physics/drag.hpp"

// The flight of a ball under its weight and quadratic drag: no lift, no buoyancy, air and wind the
// same all along. docs/flight.md has the formulas, what they were checked against, and when not to
// use them.

namespace hailwright {

/// A ball as it leaves the launcher. Speed 0 to 1e9 m/s, height 0 to 10 km (contract) [ours: so
/// wide that an absurd speed worked back from the panel gets a number and can be refused for it;
/// the drag law is for a fraction of the speed of sound].
struct LaunchState {
  Speed speed;
  Angle elevation;  ///< over the level, -90 to 90 deg (contract)
  Length height;    ///< over the ground that it may land on
};

/// Where a flight is, or ended.
struct FlightPoint {
  Time time;
  Length away;    ///< along the ground from the launcher
  Length height;  ///< over the ground
  Speed speed;    ///< over the ground, not through the air
  Angle down;     ///< of its direction below the level
};

struct FlightPath {
  FlyingBall ball;
  Air air;
  Drag drag;
  Speed tailwind;  ///< along the flight, -1e9 to 1e9 m/s (contract); below zero from ahead
};

/// Flight to a distance, by Runge-Kutta of fourth order in fixed steps of a clock that runs as fast
/// as drag and gravity change the flight (flight.cpp says why, and how the step was chosen).
/// Within 1e-6 of the solution, relative.
/// @param distance  0 to 10 km (contract)
/// @return the first arrival; nothing when the ball comes to the ground before (with
///         `stop_at_ground`) or never gets there
/// Checked in: tests/reference/flight_oracle_test.cpp, flight_closed_forms_test.cpp
std::optional<FlightPoint> fly_to_distance(const LaunchState& launch, const FlightPath& path,
                                           Length distance, bool stop_at_ground = true);
/// Flight until it first touches level ground; at once for a ball on it that does not rise.
FlightPoint fly_to_ground(const LaunchState& launch, const FlightPath& path);

/// How far below the aim line a ball arrives that was aimed level; nothing when it never gets
/// there. Without drag this is g x^2 / (2 v^2); drag makes it more.
std::optional<Length> sag(Speed speed, const FlightPath& path, Length distance);

/// Level flight with one drag length, gravity left out: v exp(-x/L), the speed after a way, and
/// v exp(x/L), the speed that is needed before it: infinite beyond some 700 drag lengths. Speed and
/// way >= 0, drag length > 0 (contract).
Speed speed_after(Speed speed, Length way, Length drag_length);
Speed speed_before(Speed speed, Length way, Length drag_length);

/// Speed of a fall from rest: v_t sqrt(1 - exp(-2 g h / v_t^2)). Height >= 0, terminal speed > 0
/// (contract).
Speed drop_speed(Length height, Speed terminal);
/// Height of the fall that gives a speed; nothing when no height does (the speed is not below the
/// terminal speed).
std::optional<Length> drop_height(Speed wanted, Speed terminal);
/// Time of the fall that ends with this speed; below the terminal speed (contract).
Time drop_time(Speed end, Speed terminal);

/// The elevation that carries farthest, and where the flight ends.
struct FarthestReach {
  Angle elevation;
  FlightPoint landing;
};
/// First contact with level ground over all elevations from -90 to 90 deg.
/// @param speed, height  as in LaunchState
FarthestReach farthest_reach(Speed speed, Length height, const FlightPath& path);

/// First contact with level ground without air: (v^2/g) sqrt(1 + 2 g h / v^2). No ball that air
/// only slows, and that neither wind nor lift carries, goes farther (MEASUREMENT M16).
Length no_air_reach(Speed speed, Length height);

}  // namespace hailwright
