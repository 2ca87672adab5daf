#include "report/shown_energy.hpp"

#include <algorithm>
#include <cmath>

namespace hailwright {

EnergyEnds two_sided_interval(const Estimate<Energy>& energy) {
  constexpr double each_side = 0.975;  // so that both leave 95 % between them
  return {std::max(Energy{}, lower_bound(energy, each_side)), upper_bound(energy, each_side)};
}

EnergyEnds corners_of_tolerance(Energy nominal, Ratio tolerance) {
  // Once by the mass and twice by the speed.
  const double t = tolerance.si();
  return {nominal * std::pow(1.0 - t, 3), nominal * std::pow(1.0 + t, 3)};
}

}  // namespace hailwright
