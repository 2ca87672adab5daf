#pragma once

#include <optional>
#include <vector>

#include "evaluate/setup_units.hpp"

namespace hailwright {

/// Set-ups of a stage that a fitted line needs (MEASUREMENT M8).
inline constexpr std::size_t trend_setups = 4;

/// When the readings of a set-up were taken on the average, in days since 1970-01-01; nothing when
/// its date is none or no reading has a time.
std::optional<double> middle_day(const Test& test, const UnitSetup& unit);

/// A step at the shots beside one straight line in time through the set-ups of both stages.
struct TrendFit {
  std::vector<double> from, to;  ///< weight of each set-up in the mean of its stage
  double per_day = 0.0;
  double sd = 0.0;  ///< of the set-ups about the line
  double dof = 0.0;
  double step_share = 0.0;  ///< standard deviation of the step over that of one set-up
  double line_share = 0.0;  ///< of the slope, likewise [1/day]
  std::vector<double> from_rest, to_rest;  ///< values without the line
};

/// Least squares over the set-ups as units. Nothing when a stage has fewer than `trend_setups`
/// whose time is known, or a set-up has none, or no stage has two different times.
std::optional<TrendFit> fit_trend(const Test& test, const std::vector<UnitSetup>& from,
                                  const std::vector<UnitSetup>& to);

}  // namespace hailwright
