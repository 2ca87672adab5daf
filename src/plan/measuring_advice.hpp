#pragma once

#include <vector>

#include "hailwright/plan/measuring_forecast.hpp"
#include "plan/reckoned_scatter.hpp"

namespace hailwright {

struct ChangeList {
  std::vector<MeasuringAdvice> helps;
  std::vector<MeasuringAdvice> spoils;
};

/// Reckons every change that the plan leaves room for, each by itself, through the whole model.
ChangeList try_changes(const ImaginedMeasurement& measurement, const AssumedScatter& scatter,
                       const ForecastQuestion& question);

}  // namespace hailwright
