#include "hailwright/logs/log_stretch.hpp"

#include <algorithm>
#include <cmath>

namespace hailwright {

Time usual_longest_gap(double usual_step_s) {
  constexpr double steps = 5.0;
  constexpr double least_s = 10.0;
  constexpr double most_s = 900.0;  // clouds and mornings change more in longer [ours]
  return Time::from_si(std::clamp(steps * usual_step_s, least_s, most_s));
}

std::optional<double> SeriesMean::standard_u() const {
  constexpr std::int64_t least = 20;  // M2
  if (count < least || !(effective > 0.0)) return std::nullopt;
  return sd / std::sqrt(effective);
}

}  // namespace hailwright
