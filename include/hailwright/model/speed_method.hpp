#pragma once

#include <optional>

#include "hailwright/core/quantity.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/metrology/stated.hpp"
#include "hailwright/physics/speed_methods.hpp"

namespace hailwright {

/// What the speed of a series rests on.
enum class SpeedSource {
  trial_shots,  ///< measured shots at the dummy
  each_shot,    ///< measured at every shot
  drop,         ///< computed from the height of the fall
  setting       ///< the launcher is taken to throw what the series asks for: no measurement
};

/// How the speed of one ball is measured.
enum class SpeedWay {
  typed,      ///< the tables hold speeds, of a meter or worked out by hand
  frames,     ///< video frames over a length
  positions,  ///< where the ball was in two pictures of a video
  gates,      ///< time between two gates
  radar,      ///< speed along the beam of a radar
  sounds      ///< time between the sounds of launch and impact
};

/// Statements about errors are absent when the protocol says `unknown` or nothing.
struct PositionsWay {
  SourceSpan origin;
  FrameRate video;
  std::optional<Stated<Length>> error;  ///< of one position
  std::optional<Stated<Ratio>> scale;   ///< of the picture's scale
};

struct GatesWay {
  SourceSpan origin;
  Length spacing;
  std::optional<Stated<Length>> spacing_error;
  std::optional<Stated<Time>> time_error;  ///< of the time between: clock and gates together
};

struct RadarWay {
  SourceSpan origin;
  std::optional<Stated<Speed>> error;
  std::optional<Angle> angle;         ///< between beam and flight
  std::optional<Angle> angle_within;  ///< half-width of that angle
};

struct SoundsWay {
  SourceSpan origin;
  Length path;  ///< of the ball, from where the launch is heard to the panel
  std::optional<Stated<Length>> path_error;
  Length launcher_to_microphone, panel_to_microphone;
  std::optional<Stated<Length>> microphone_error;  ///< of each of the two
  std::optional<TemperaturePoint> air;
  std::optional<Stated<Time>> time_error;  ///< of the time between the two sounds
};

/// A camera that reads its picture out row after row.
struct ShutterOfVideo {
  SourceSpan origin;
  Time readout;
  std::optional<Stated<Time>> error;
  Length field;  ///< of the picture along the read-out, in the plane of flight
  FlightInPicture flight = FlightInPicture::across;
};

/// How the speed of the balls is known.
struct SpeedMethod {
  SourceSpan origin;
  SpeedSource by = SpeedSource::trial_shots;
  std::optional<int> trials;  ///< planned trial shots of each series
  /// Video frames over a length: both given, or neither.
  std::optional<FrameRate> video;
  std::optional<Length> length;
  std::optional<Stated<Length>> length_error;
  std::optional<PositionsWay> positions;
  std::optional<GatesWay> gates;
  std::optional<RadarWay> radar;
  std::optional<SoundsWay> sounds;
  std::optional<ShutterOfVideo> shutter;
  std::optional<Ratio> parallax;               ///< half-width of the scale's error
  std::optional<Ratio> rate;                   ///< half-width of the video's frame rate
  std::optional<Stated<Speed>> error;          ///< of a speed typed as such: shared by all shots
  std::optional<Stated<Length>> height_error;  ///< of a drop's height
  std::optional<Length> to_panel;              ///< middle of the measuring base to the panel
  std::optional<Ratio> drift;  ///< half-width of the launcher's drift between trials and shots

  [[nodiscard]] SpeedWay way() const {
    if (positions) return SpeedWay::positions;
    if (gates) return SpeedWay::gates;
    if (radar) return SpeedWay::radar;
    if (sounds) return SpeedWay::sounds;
    return video ? SpeedWay::frames : SpeedWay::typed;
  }
  /// Whether balls are measured at all.
  [[nodiscard]] bool measures() const {
    return by == SpeedSource::trial_shots || by == SpeedSource::each_shot;
  }
};

}  // namespace hailwright
