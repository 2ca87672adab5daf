#include <boost/math/differentiation/autodiff.hpp>

#include "benchmark/sensitivities.hpp"

namespace hailwright::measured {

Sensitivities by_boost_each(const NormalisedReading& reading) {
  namespace ad = boost::math::differentiation;
  using Variable = ad::autodiff_fvar<double, 1>;
  Sensitivities result{};
  for (std::size_t s = 0; s < error_slots; ++s) {
    std::array<Variable, error_slots> errors;
    errors.fill(Variable(0.0));
    errors[s] = ad::make_fvar<double, 1>(0.0);
    result[s] = log_normalised_power(reading, errors).derivative(1);
  }
  return result;
}

}  // namespace hailwright::measured
