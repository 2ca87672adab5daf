#include "hailwright/safety/stored_gas.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"

namespace hailwright {

StoredGas stored_gas(Pressure gauge, Volume volume) {
  expects(gauge.si() >= 0.0 && volume.si() >= 0.0, "a pressure or a volume below zero");
  constexpr double outside_Pa = 101325.0;  // standard atmosphere, exact by definition
  constexpr double heat_capacities = 1.4;  // of diatomic gases at room temperature [from memory]
  constexpr double excess = heat_capacities - 1.0;
  const double inside_Pa = gauge.si() + outside_Pa;
  const double left = std::pow(outside_Pa / inside_Pa, excess / heat_capacities);
  return {Energy::from_si(inside_Pa * volume.si() / excess * (1.0 - left)),
          Energy::from_si(gauge.si() * volume.si() / excess)};
}

}  // namespace hailwright
