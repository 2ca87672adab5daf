#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/loss_pattern.hpp"

namespace hailwright {

/// A covariance of the four figures; rows and columns of figures that were not read are zero.
using CurveMatrix = std::array<CurveVector, curve_figures>;

/// What the readings say about each figure, before anything is fitted.
struct CurveChanges {
  std::vector<CurveFigure> read;            ///< before and after
  CurveVector change{};                     ///< of the logarithms
  CurveVector mean_before{}, mean_after{};  ///< logarithms
  std::array<int, curve_figures> before{}, after{};
  CurveMatrix scatter{};     ///< of the changes, from repeats
  CurveMatrix shared{};      ///< from all that readings share, and from the steps of displays
  double scatter_dof = 0.0;  ///< infinite where the scatter was assumed
  bool scatter_assumed = false;
  std::vector<CurveInput> inputs;
  std::vector<std::string> assumed;
};

/// Ratings as the panel file has them, else as these readings before the shots have them.
CurveRatings curve_ratings(const Test& test, const CurveReadings& readings);

/// Means, changes and their covariance. Readings are brought to 1000 W/m2 and 25 degC.
CurveChanges curve_changes(const Test& test, const CurveReadings& readings,
                           const AssumedPanel& panel);

}  // namespace hailwright
