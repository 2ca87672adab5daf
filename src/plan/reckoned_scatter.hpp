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
  bool simple = false;  ///< the estimate alone is held against the limit
};

/// What exact readings do not show: standard deviations, as shares of the power.
struct AssumedScatter {
  double setup = 0.0;  ///< from set-up to set-up of one panel
  double unit = 0.0;   ///< from unit to unit of one model
};

/// The budget that `judge` would make of an imagined measurement, with an assumed scatter.
struct Reckoned {
  PowerObstacle obstacle = PowerObstacle::none;
  std::string obstacle_subject;
  // All below needs obstacle == none.
  bool decides = true;
  bool rests_on_stated = false;
  double observed_dof = 0.0;  ///< nu_A
  int siblings = 0;           ///< whose spread is among the rows
  std::vector<BudgetRow> rows;
  Combined all;
  Combined observed;
};

/// Chooses between observed and stated scatter as `judge` does.
Reckoned reckon(const ImaginedMeasurement& measurement, const AssumedScatter& scatter,
                Assumptions& assumptions);

/// Scatter of the set-ups that the stated components make together, as a share; the step that they
/// leave out when they are not whole. Neither when nothing is stated.
struct StatedScatter {
  std::optional<double> sd;
  std::string lacks;
};
StatedScatter stated_scatter(const ImaginedMeasurement& measurement);

/// What is left of a budget with endless set-ups, all on one day; or with endless siblings, which
/// leave the doubt about the struck unit itself.
Combined endless(const Reckoned& reckoned);

/// Chance that the limit is answered with "no loss greater" when there is none.
double chance_within(const Reckoned& reckoned, const ForecastQuestion& question);

/// The true loss that is called above the limit with the chance of the question.
Ratio called_above_limit(const Reckoned& reckoned, const ForecastQuestion& question);

}  // namespace hailwright
