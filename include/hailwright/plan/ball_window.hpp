#pragma once

#include "hailwright/core/quantity.hpp"
#include "hailwright/metrology/stated.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/physics/ice_ball.hpp"

namespace hailwright {

/// What the balls are measured with, and what happens to them until the impact.
struct BallMeasuring {
  Stated<Mass> scales;  ///< of one weighing; shares and constant parts each independent
  Mass scales_step;     ///< of the display; counts only where `scales` speaks of digits
  Stated<Length> calipers;
  Length calipers_step;
  Ratio
      largest_melt;  ///< between the weighing and the impact; judge takes none to this, the middle
};

/// Which weighed balls to throw: the ball table of a plan, in masses as the scales show them.
struct BallWindow {
  /// A ball between them, weighed alone, is shown by `judge` to be not weaker (95 %), and not
  /// stronger either when `both_sides`; without, `mass_high` has no room for the scales' error.
  Mass mass_low, mass_high;
  Mass mass_aim;                       ///< the middle of the two
  Length diameter_low, diameter_high;  ///< judged by its estimate, without such room (M10)
  Ratio roundness_max = largest_roundness;
  bool both_sides = true;
  /// Scales good enough for any window. False: no ball can be shown to be heavy enough without
  /// being over the tolerance; the masses are then no window.
  bool scales_suffice = true;
  /// The calipers' standard uncertainty is at most half the tolerance [M10, simple acceptance].
  bool calipers_suffice = true;

  [[nodiscard]] BallLimits limits() const {
    return {mass_low, mass_high, diameter_low, diameter_high, roundness_max};
  }
};

/// The window for a target. With melt l (half of the largest) and u of the mass at the impact as
/// `judge` has it, scales and rectangular melt, mass_low is the m with (1 - l) m - 1.645 u(m) =
/// 0.95 m0 and mass_high that with (1 - l) m + 1.645 u(m) = 1.05 m0; shares of u grow with m.
/// @param tolerance  of mass and diameter, above 0, below 1
BallWindow ball_window(const Target& target, Ratio tolerance, const BallMeasuring& measuring);

}  // namespace hailwright
