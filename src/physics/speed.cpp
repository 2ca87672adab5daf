#include "hailwright/physics/speed.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

// Drag coefficient from a sphere to a rough stone: common practice, no source.
constexpr double drag_low = 0.45;
constexpr double drag_high = 0.60;

}  // namespace

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
  expects(mass.si() > 0.0 && diameter.si() > 0.0 && air.si() > 0.0, "slowing: positive");
  const double drag = 0.5 * (drag_low + drag_high);
  const double area_m2 = std::numbers::pi / 4.0 * diameter.si() * diameter.si();
  const double drag_length_m = 2.0 * mass.si() / (air.si() * drag * area_m2);
  const double exponent = distance.si() / drag_length_m;
  const double u_drag = 0.5 * (drag_high - drag_low) / drag / std::sqrt(3.0);
  const double u_air = air_half_width.si() / air.si() / std::sqrt(3.0);
  const double u_distance = distance_half_width.si() / drag_length_m / std::sqrt(3.0);
  return {Ratio::from_si(std::exp(-exponent)),
          std::hypot(exponent * std::hypot(u_drag, u_air), u_distance)};
}

}  // namespace hailwright
