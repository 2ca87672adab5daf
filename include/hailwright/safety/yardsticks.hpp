#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "hailwright/core/citation.hpp"
#include "hailwright/core/quantity.hpp"

namespace hailwright {

/// What a published energy was made for.
enum class YardstickKind {
  toy,     ///< what a toy may carry
  law,     ///< from where a launcher counts as a weapon somewhere
  injury,  ///< what a hit can do
  eyewear  ///< what eye or face protection is proved with
};

/// A published energy to hold a ball against. None was made for ice.
struct Yardstick {
  YardstickKind kind;
  std::string_view name;      ///< "goggles, EN 166 B"
  Energy energy;              ///< computed from the printed figures, not rounded
  std::string_view printed;   ///< what the source prints: "0.86 g at 120 m/s"
  std::string_view citation;  ///< id of a Citation of yardstick_sources()
  ReadStatus status;          ///< of the energy
  std::string_view note = {};
};

/// All yardsticks, each kind together, weakest first within it.
std::span<const Yardstick> yardsticks();

/// Eye and face protection only, weakest first.
std::span<const Yardstick> eyewear();

/// One kind of eyewear beside a ball.
struct EyewearAgainstBall {
  const Yardstick* eyewear;
  /// The ball carries as much as the eyewear is proved with, or more.
  bool outdone;
};

/// What all eye protection is proved with against a ball of this energy, weakest first. Eyewear
/// that is not outdone still is no leave to be hit: its test uses a small steel ball.
/// @param ball  upper value of the ball's energy, 0 or more
std::vector<EyewearAgainstBall> eyewear_against(Energy ball);

/// The strongest eyewear that this ball outdoes; nullptr when it outdoes none.
const Yardstick* strongest_eyewear_below(Energy ball);

/// The weakest eyewear that is proved with more than this ball carries; nullptr when none is.
const Yardstick* weakest_eyewear_above(Energy ball);

std::span<const Citation> yardstick_sources();

}  // namespace hailwright
