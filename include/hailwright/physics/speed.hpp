#pragma once

#include <optional>
#include <span>

#include "hailwright/core/quantity.hpp"
#include "hailwright/metrology/estimate.hpp"

namespace hailwright {

/// Standard uncertainty of a count of video frames between two marks, in frames: start and stop are
/// each known to half a frame, together triangular, 1/sqrt(6) (JCGM 100:2008, 4.3.9).
inline constexpr double frame_count_u = 0.408248290463863;

/// Mean speed of a ball that needed this many frames for a length. frames > 0.
Speed speed_from_frames(double frames, FrameRate rate, Length length);

/// Fewest trial shots that support a grade (MEASUREMENT M13).
inline constexpr int trials_for_grade = 5;

/// What trial shots at one setting say about an unmeasured shot at it (MEASUREMENT M13), in shares
/// of the mean speed. The error that all of them share is kept apart: it is added once.
struct TrialSpeeds {
  int n = 0;
  Speed mean;
  double scatter = 0.0;  ///< standard deviation of single shots, as a share; never below the step
  bool step_limited = false;  ///< the trials agreed better than their own counting allows
  /// Trials enough to support a grade (n >= 5); 3 and 4 give an interval only, fewer nothing.
  [[nodiscard]] bool supports_grade() const { return n >= trials_for_grade; }
  [[nodiscard]] bool gives_interval() const { return n >= 3; }
  [[nodiscard]] double degrees_of_freedom() const { return n - 1.0; }
  /// s sqrt(1 + 1/n): standard uncertainty of one unmeasured shot by scatter alone, as a share.
  [[nodiscard]] double unmeasured_u() const;
};

/// Pools trial speeds. `step` is the standard uncertainty of one trial from its counting or display
/// alone, as a share of the mean; scatter below it is taken as the step, since whole-frame counts
/// agree by chance. Two or more speeds, all > 0.
TrialSpeeds pool_trials(std::span<const Speed> speeds, double step);

/// How a ball slows between the place where its speed is known and the panel.
struct Slowing {
  Ratio remaining;          ///< speed at the panel over speed as measured
  double relative_u = 0.0;  ///< standard uncertainty of that share, as a share
};

/// Level flight with quadratic drag: v = v0 exp(-x/L), L = 2 m / (rho_air Cd A) (derivation).
/// Cd is rectangular over 0.45 to 0.60, a sphere to a rough stone [common practice, no source],
/// and never a curve with a drag crisis; the air density has a half-width of its own.
/// @param distance  from the middle of the measuring base to the panel, >= 0, with its half-width
Slowing slowing_to_panel(Length distance, Length distance_half_width, Mass mass, Length diameter,
                         Density air, Density air_half_width);

}  // namespace hailwright
