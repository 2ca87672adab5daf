#pragma once

#include <cstdint>

#include "hailwright/logs/log_block.hpp"

namespace hailwright::testing {

/// An invented day for two panels side by side: the sun by a sine from 06:00 to 18:00 UTC of
/// 2026-06-14, clouds that come and go at random (a random telegraph) and take some seconds to
/// pass the panels' edges. Everything that is to be found is stated here.
struct CloudyDay {
  std::uint64_t seed = 1;
  bool clouds = true;
  double hours = 12.0;                             ///< logged, around noon
  double step_s = 1.0;                             ///< from row to row
  double ratio = 0.97;                             ///< of the panels' powers: second over first
  double gain_first = 1.004, gain_second = 0.997;  ///< of their meters
  double noise = 0.002;                            ///< of a row, in proportion
  double noise_w = 0.02;                           ///< of a row, beside it [W]
  double resolution_w = 0.001;                     ///< of the meters
  /// To be added to the second log's stamps [s]; its clock is behind by so much.
  double offset_s = 0.0;
  /// When, in the seconds of its own clock, the second logger takes its readings; [0, step_s).
  double phase_s = 0.0;
  double edge_least_s = 2.0, edge_most_s = 20.0;  ///< to pass from sun to shade

  /// What the logs must show: the panels' ratio as their meters see it.
  [[nodiscard]] double logged_ratio() const { return ratio * gain_second / gain_first; }
};

struct TwoLogs {
  LogBlock first;   ///< power, irradiance, temperature
  LogBlock second;  ///< power, temperature; its own stamps
};

TwoLogs two_logs(const CloudyDay& day);

/// 2026-06-14T06:00:00Z.
inline constexpr std::int64_t morning_us = 1'781'416'800'000'000;

}  // namespace hailwright::testing
