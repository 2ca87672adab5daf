#pragma once

#include <string>

#include "hailwright/plan/measuring_forecast.hpp"

// Every sentence of a plan about what its measurement will be able to tell stands here
// (MEASUREMENT M18).

namespace hailwright {

/// Why the planned numbers can or cannot support the claim.
std::string claim_sentence(const MeasuringForecast& forecast);
/// What a forecast says beside its numbers.
std::string fact_sentence(ForecastFact fact, const MeasuringForecast& forecast, Ratio limit);
/// "a control panel beside it: 3.1 % instead of 5.2 %".
std::string advice_sentence(const MeasuringAdvice& advice);

}  // namespace hailwright
