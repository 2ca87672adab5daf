#include "hailwright/physics/normalised_power.hpp"

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/dual.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {
const NormalisedReading reading{
    Power::from_si(80), Irradiance::from_si(850), TemperaturePoint::from_celsius(46.0),
    TemperatureCoefficient::from_si(-0.0038), TemperatureDifference::from_si(3.0)};
}

// Exact sensitivities against central differences of the same formula.
TEST_CASE("sensitivities by differentiation agree with differences") {
  using D = Dual<error_slots>;
  std::array<D, error_slots> x;
  for (std::size_t i = 0; i < error_slots; ++i)
    x[i] = D::variable(0.0, i);
  const D q = log_normalised_power(reading, x);
  const double steps[] = {1e-4, 1e-3, 1e-4, 1e-2, 1e-3, 1e-7, 1e-3, 1e-3};
  for (std::size_t i = 0; i < error_slots; ++i) {
    CAPTURE(i);
    std::array<double, error_slots> up{};
    std::array<double, error_slots> down{};
    up[i] = steps[i];
    down[i] = -steps[i];
    const double difference =
        (log_normalised_power(reading, up) - log_normalised_power(reading, down)) / (2 * steps[i]);
    CHECK_THAT(q.slope[i], WithinRel(difference, 1e-6));
  }
}

TEST_CASE("hotter cells give less, more sun gives more") {
  NormalisedReading r = reading;
  const double base = normalised_power(r).si();
  r.back = TemperaturePoint::from_celsius(56.0);
  CHECK(normalised_power(r).si() > base);  // the same watts from a hotter panel mean a better panel
  r = reading;
  r.irradiance = Irradiance::from_si(950);
  CHECK(normalised_power(r).si() < base);
  r.power = Power{};
  CHECK_THROWS_AS(normalised_power(r), BugError);
}
