#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/speed_errors.hpp"
#include "hailwright/report/document.hpp"
#include "hailwright/safety/cautions.hpp"

namespace hailwright {

/// One speed from the command line.
struct SpeedQuestion {
  SpeedMethod method;            ///< with its way; `by` is each shot, drop or setting
  SpeedReading reading;          ///< where it is measured
  std::optional<Length> fall;    ///< height of a drop
  std::optional<Speed> nominal;  ///< of a launcher's setting
  std::optional<Time> exposure;  ///< of one picture
  std::optional<Length> diameter;
  std::optional<Mass> mass;  ///< weighed; else from the diameter
  std::optional<Length> altitude;
  std::optional<TemperaturePoint> air;
};

/// What a reader of the number should know first.
enum class SpeedWarning {
  few_frames,         ///< fewer than 20
  shutter_not_known,  ///< a video, and nothing said about its read-out
  blurred,            ///< the picture of the ball is longer than half the ball
  weak_drop,          ///< a drop is no hail
  not_measured        ///< a setting
};

struct SpeedAnswer {
  SpeedQuestion question;
  MeasuredSpeed measured;
  std::optional<Estimate<Speed>> at_panel;
  std::optional<Mass> mass;  ///< of the ball that the way to the panel and the cautions reckon with
  std::optional<Length> blur;
  /// Least and most terminal speed of the ball that was dropped (`drag_range`).
  std::optional<Speed> slowest_terminal, fastest_terminal;
  std::vector<SpeedWarning> warnings;
  Assumptions assumptions;
  std::vector<const Caution*> cautions;
};

/// Computes a speed. Nothing when no flight fits the reading (`speed_of`). All amounts above zero,
/// errors, angles and the altitude excepted; the question has all that its way needs.
std::optional<SpeedAnswer> answer_speed(const SpeedQuestion& question);

Document compose_speed(const SpeedAnswer& answer);
std::string speed_json(const SpeedAnswer& answer);

/// "counting whole frames": a term of the uncertainty for a reader, and for machines "counting".
std::string_view text(SpeedError error);
std::string_view id(SpeedError error);

}  // namespace hailwright
