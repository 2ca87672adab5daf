#pragma once

#include <optional>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/model/protocol.hpp"

namespace hailwright {

/// Probability that N balls give at least so many hits, when of earlier balls `made.good` of
/// `made.tried` could be thrown and `tried.good` of `tried.tried` throws hit (MEASUREMENT M13):
/// beta-binomial, each share with Jeffreys' half, exact.
/// @param balls   that are frozen, good or not: those that cannot be thrown count among them; >= 0
/// @param wanted  hits, >= 0
/// @param tried, made  0 <= good <= tried. Nothing tried leaves Jeffreys' prior alone.
double chance_of_hits(int balls, int wanted, const Tally& tried, const Tally& made);

/// The smallest number of balls to freeze (not: to throw) whose chance is at least `chance`.
/// Nothing when that takes more than 10 000, or when either tally is empty: without trials there is
/// no number (M13).
/// @param wanted  hits, >= 1
/// @param chance  above 0, below 1
std::optional<int> balls_to_freeze(int wanted, const Tally& tried, const Tally& made,
                                   double chance = 0.9);

/// Nights that so many balls take in these moulds of their diameter, one filling a night; nothing
/// without a mould of that size. A mould is of that size when its ball of the same ice weighs
/// within 5 % of the one wanted, 1.6 % in diameter: 25.4 mm serves for 25 mm [ours; the usual
/// tolerance].
/// @param balls  >= 0
std::optional<int> nights_to_freeze(int balls, Length diameter, const std::vector<Mould>& moulds);

/// Time in which water of that size freezes through (Plank) in the freezer, both ends of the range
/// of the film coefficient 5 to 10 W/(m2 K).
struct FreezingTime {
  Time shortest, longest;
};
/// Plank's equation for a sphere whose water is at 0 degC already,
/// rho Lf / (0 degC - T) (d / (6 h) + d^2 / (24 k)): cooling the water down to 0 degC comes before
/// it, and reaching the freezer's temperature after it. Nothing at 0 degC and above.
/// @param diameter  > 0
std::optional<FreezingTime> freezing_time(Length diameter, TemperaturePoint freezer);

}  // namespace hailwright
