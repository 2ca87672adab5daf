#include "hailwright/physics/speed.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "hailwright/physics/drag.hpp"

namespace hailwright {

Speed speed_from_frames(double frames, FrameRate rate, Length length) {
  expects(frames > 0.0 && rate.si() > 0.0 && length.si() > 0.0, "speed_from_frames: positive");
  return Speed::from_si(length.si() * rate.si() / frames);
}

double TrialSpeeds::unmeasured_u() const {
  return scatter * std::sqrt(1.0 + 1.0 / n);
}

TrialSpeeds pool_trials(std::span<const Speed> speeds, double step) {
  expects(speeds.size() >= 2, "pool_trials: two or more");
  std::vector<double> mps;
  mps.reserve(speeds.size());
  for (const Speed s : speeds) {
    expects(s.si() > 0.0, "pool_trials: positive speeds");
    mps.push_back(s.si());
  }
  TrialSpeeds pooled;
  pooled.n = static_cast<int>(speeds.size());
  const double m = mean(mps);
  pooled.mean = Speed::from_si(m);
  const double observed = sample_sd(mps).value_or(0.0) / m;
  pooled.scatter = std::max(observed, step);
  pooled.step_limited = observed < step;
  return pooled;
}

Slowing slowing_to_panel(Length distance, Length distance_half_width, Mass mass, Length diameter,
                         Density air, Density air_half_width) {
  expects(distance.si() >= 0.0 && distance_half_width.si() >= 0.0, "slowing: distance");
  const double drag = 0.5 * (drag_range::low + drag_range::high);
  const double drag_length_m = drag_length({mass, diameter}, air, drag).si();
  const double exponent = distance.si() / drag_length_m;
  const double u_drag = 0.5 * (drag_range::high - drag_range::low) / drag / std::sqrt(3.0);
  const double u_air = air_half_width.si() / air.si() / std::sqrt(3.0);
  const double u_distance = distance_half_width.si() / drag_length_m / std::sqrt(3.0);
  return {Ratio::from_si(std::exp(-exponent)),
          std::hypot(exponent * std::hypot(u_drag, u_air), u_distance)};
}

}  // namespace hailwright
