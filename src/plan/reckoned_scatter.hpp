#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/evaluate/power_model.hpp"
#include "hailwright/metrology/budget.hpp"
#include "plan/imagined_measurement.hpp"

namespace hailwright {

/// What a forecast asks of each set of numbers.
struct ForecastQuestion {
  double alpha = 0.0;   ///< of one look
  double chance = 0.0;  ///< 1 - beta
  double claim = 0.0;   ///< loss to be shown, as a share
  double limit = 0.0;   ///< loss above which the panel counts as damaged, as a share
};

/// The budget that `judge` would make of an imagined measurement, with an assumed scatter.
struct Reckoned {
  PowerObstacle obstacle = PowerObstacle::none;
  std::string obstacle_subject;
  // All below needs obstacle == none.
  bool decides = true;
  bool rests_on_stated = false;
  double observed_dof = 0.0;  ///< nu_A
  std::vector<BudgetRow> rows;
  Combined all;
  Combined observed;
};

/// Chooses between observed and stated scatter as `judge` does.
/// @param scatter  standard deviation of the set-ups, as a share of the power
Reckoned reckon(const ImaginedMeasurement& measurement, double scatter, Assumptions& assumptions);

/// Scatter of the set-ups that the stated components make together, as a share; the step that they
/// leave out when they are not whole. Neither when nothing is stated.
struct StatedScatter {
  std::optional<double> sd;
  std::string lacks;
};
StatedScatter stated_scatter(const ImaginedMeasurement& measurement);

/// What is left of a budget with endless set-ups, all on one day.
Combined endless(const Reckoned& reckoned);

/// Chance that a true loss is called real; the same two conditions as the smallest loss shown.
double chance_shown(const Combined& all, const Combined& observed, double alpha, double loss);

}  // namespace hailwright
