#include <boost/math/differentiation/autodiff.hpp>
#include <tuple>

#include "benchmark/sensitivities.hpp"

namespace hailwright::measured {

Sensitivities by_boost_joint(const NormalisedReading& reading) {
  namespace ad = boost::math::differentiation;
  using Variables = ad::autodiff_fvar<double, 1, 1, 1, 1, 1, 1, 1, 1>;
  const auto made = ad::make_ftuple<double, 1, 1, 1, 1, 1, 1, 1, 1>(0., 0., 0., 0., 0., 0., 0., 0.);
  const auto errors = std::apply(
      [](const auto&... e) { return std::array<Variables, error_slots>{Variables(e)...}; }, made);
  const Variables q = log_normalised_power(reading, errors);
  return {q.derivative(1, 0, 0, 0, 0, 0, 0, 0), q.derivative(0, 1, 0, 0, 0, 0, 0, 0),
          q.derivative(0, 0, 1, 0, 0, 0, 0, 0), q.derivative(0, 0, 0, 1, 0, 0, 0, 0),
          q.derivative(0, 0, 0, 0, 1, 0, 0, 0), q.derivative(0, 0, 0, 0, 0, 1, 0, 0),
          q.derivative(0, 0, 0, 0, 0, 0, 1, 0), q.derivative(0, 0, 0, 0, 0, 0, 0, 1)};
}

}  // namespace hailwright::measured
