#pragma once

#include <optional>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/metrology/estimate.hpp"
#include "hailwright/physics/drag.hpp"

// How the speed of a ball is measured, one function a way. Estimates carry standard uncertainties;
// a half-width is divided by its caller (metrology/stated.hpp). Every result says what it can be
// wrong by, term by term, as shares of the speed.

namespace hailwright {

/// What a measured speed can be wrong by.
enum class SpeedError {
  counting,    ///< whole frames between two marks
  position,    ///< reading a place in a picture
  length,      ///< of the base: between the marks, between the gates, of the path
  scale,       ///< of the picture
  parallax,    ///< the scale is not in the plane of flight
  frame_rate,  ///< of the video
  shutter,     ///< how long a picture takes to be read out
  timing,      ///< of a clock, an edge, the beginning of a sound
  display,     ///< last digit of a display
  meter,       ///< of a speed meter
  angle,       ///< between the radar's beam and the flight
  sound,       ///< of the way of the sounds to the microphone
  height,      ///< of a fall
  drag,        ///< of the ball in the air
  air,         ///< density of the air
  ball,        ///< density of a ball that was not weighed
  setting      ///< a launcher's setting is no measurement
};

/// One term of the uncertainty.
struct SpeedTerm {
  SpeedError from = SpeedError::meter;
  double u = 0.0;      ///< standard uncertainty, as a share of the speed
  bool shared = true;  ///< the same error in all shots measured so; false: anew each time
};

/// A speed where it was measured, with what it can be wrong by.
struct MeasuredSpeed {
  Speed value;
  std::vector<SpeedTerm> terms;
  bool supports_grade = true;  ///< false: good for an interval, never for a claim (M10)
  /// Root of the sum of squares of the shared terms, of the others, and of all; as shares.
  [[nodiscard]] double shared_u() const;
  [[nodiscard]] double own_u() const;
  [[nodiscard]] double standard_u() const;
  /// One term; 0 when there is none.
  [[nodiscard]] double term(SpeedError from) const;
};

/// Frames counted between two marks: v = L f / N. The count has the standard uncertainty
/// `frame_count_u` of its own; length, parallax and frame rate are shared.
/// @param frames      > 0, whole or half
/// @param parallax_u  standard uncertainty of the scale's factor, as a share
MeasuredSpeed speed_by_frames(double frames, const Estimate<FrameRate>& rate,
                              const Estimate<Length>& length, double parallax_u);

/// Where the ball was in two pictures so many frames apart: v = dx f / n. Both positions are read,
/// so that the u of one counts sqrt(2) times [JCGM 100:2008, 5.1.2].
/// @param position_u  standard uncertainty of one position
/// @param scale_u     of the picture's scale, as a share
MeasuredSpeed speed_by_positions(Length moved, Length position_u, double frames,
                                 const Estimate<FrameRate>& rate, double scale_u,
                                 double parallax_u);

/// Two gates: v = L / t.
/// @param clock_u    shared: clock, and how differently the two gates answer
/// @param display_u  of one reading
MeasuredSpeed speed_by_gates(const Estimate<Length>& spacing, Time between, Time clock_u,
                             Time display_u);

/// A radar reads v cos(angle) and is never high by it; the reading is divided by the cosine. The
/// angle is rectangular about its value: u = tan(angle) u_angle, and beside it the root mean square
/// of what the square of the angle's error leaves, w^2 / (2 cos^2(angle)) over sqrt(5), which alone
/// counts straight ahead (derivation; JCGM 100:2008, 5.1.2 note).
/// @param angle   between beam and flight, 0 to below 90 deg
/// @param within  half-width of that angle
MeasuredSpeed speed_by_radar(Speed reading, Speed meter_u, Speed display_u, Angle angle,
                             Angle within);

/// Speed of sound in dry air, sqrt(1.4 R T) with R = 287.05287 J/(kg K) [constants of the US
/// Standard Atmosphere 1976 and ISO 2533, from memory; 340.294 m/s at 15 degC as printed there].
/// Damp air is up to 0.5 % faster [from memory].
Speed speed_of_sound(TemperaturePoint air);

/// Launch and impact on one audio track. Each sound is late by its own way to the microphone, so
/// the flight took between - (panel to microphone - launcher to microphone) / c.
struct TwoSounds {
  Estimate<Length> path;  ///< of the ball, from where the launch is heard to the panel
  Length launcher_to_microphone, panel_to_microphone;
  Length microphone_u;       ///< standard uncertainty of each of the two
  Estimate<Speed> sound;     ///< its speed
  Time between;              ///< of the two beginnings on the track
  Time timing_u, display_u;  ///< shared, and of one reading
};
/// Time of the flight; zero or below when the sounds are closer together than their ways allow.
Time flight_time(const TwoSounds& sounds);
/// Mean speed over the path. Contract: the flight takes time.
MeasuredSpeed speed_by_sounds(const TwoSounds& sounds);

/// A ball that falls from rest.
struct Fall {
  Estimate<Length> height;
  std::optional<FlyingBall> ball;  ///< unknown: any ice ball of 12.5 mm or more
  Density air, air_half_width;
};
/// Speed at the end of a fall, between that with the least and the most drag (`drag_range`), as the
/// middle with a rectangular half-width. A ball that is not known falls between a 12.5 mm ice ball
/// with the most drag, the smallest of the published hail tests [IEC 61215 as in tables/], and no
/// air at all. Height > 0.
MeasuredSpeed speed_by_fall(const Fall& fall);

/// Half-width of the error of a launcher's nominal setting, as a share [ours].
inline constexpr double setting_half_width = 0.25;
/// A launcher's setting taken for a speed: rectangular, shared by all its shots, and never good for
/// a grade (M10).
MeasuredSpeed speed_by_setting(Speed nominal);

/// How the flight lies to the direction in which a camera reads its picture out, row after row.
enum class FlightInPicture { along, against, across };

/// What a picture read out row by row makes of a speed: apparent over true, 1/(1 - v t/H) along the
/// read-out, 1/(1 + v t/H) against it, 1 across (derivation). H is the height of the whole picture
/// in the plane of flight. Contract: along, the ball is slower than the read-out.
double rolling_shutter_factor(Speed speed, Time readout, Length field, FlightInPicture flight);
/// Takes it out of an apparent speed and adds the term of the read-out time.
MeasuredSpeed without_rolling_shutter(MeasuredSpeed apparent, const Estimate<Time>& readout,
                                      Length field, FlightInPicture flight);
/// Whether an apparent speed can be that of a flight along or against the read-out.
bool rolling_shutter_fits(Speed apparent, Time readout, Length field, FlightInPicture flight);

/// Factor by which a scale at this distance from the camera lets a ball nearer by so much look too
/// fast: D / (D - d). Contract: D > d, D > 0.
double parallax_factor(Length to_scale, Length ball_nearer);

/// Factor by which a flight out of the picture's plane looks too slow: cos(angle).
double out_of_plane_factor(Angle angle);

/// Way of the ball during one exposure: how long its picture is blurred.
Length motion_blur(Speed speed, Time exposure);

}  // namespace hailwright
