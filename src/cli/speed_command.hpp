#pragma once

#include <string>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/report/compose_speed.hpp"

namespace hailwright::cli {

/// Every option as text; empty where it was not given.
struct SpeedOptions {
  // Frames over a length, and positions in two pictures.
  std::string frames, video, length, length_accuracy, parallax, rate_accuracy;
  std::string moved, position_accuracy, scale_accuracy;
  std::string exposure, readout, readout_accuracy, field, flight;
  // Two gates.
  std::string gates, gates_accuracy, time, time_accuracy;
  // Radar.
  std::string radar, radar_accuracy, angle, angle_within;
  // Launch and impact on one track.
  std::string between, launch_sound, impact_sound, path, path_accuracy;
  std::string launcher_to_microphone, panel_to_microphone, microphone_accuracy;
  // A drop, and a launcher's setting.
  std::string drop, drop_accuracy, setting;
  // The ball and its way to the panel.
  std::string to_panel, diameter, mass, altitude, air;
  std::string format = "text";
};

/// The options as a question; every mistake is named.
Checked<SpeedQuestion> read_speed_options(const SpeedOptions& options);

/// Runs the command on standard output and gives the exit code.
int run_speed(const SpeedOptions& options);

}  // namespace hailwright::cli
