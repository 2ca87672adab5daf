#include "hailwright/physics/normalised_power.hpp"

#include "hailwright/core/contract.hpp"

namespace hailwright {

Power normalised_power(const NormalisedReading& reading) {
  expects(reading.power.si() > 0.0 && reading.irradiance.si() > 0.0, "a reading above zero");
  return Power::from_si(std::exp(log_normalised_power(reading, std::array<double, error_slots>{})));
}

}  // namespace hailwright
