#include "benchmark/sensitivities.hpp"
#include "hailwright/metrology/dual.hpp"

namespace hailwright::measured {

Sensitivities by_dual(const NormalisedReading& reading) {
  using D = Dual<error_slots>;
  std::array<D, error_slots> errors;
  for (std::size_t s = 0; s < error_slots; ++s)
    errors[s] = D::variable(0.0, s);
  return log_normalised_power(reading, errors).slope;
}

}  // namespace hailwright::measured
