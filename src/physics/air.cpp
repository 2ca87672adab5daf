#include "hailwright/physics/air.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/physics/drag.hpp"

namespace hailwright {

namespace {

// International Standard Atmosphere. The standards themselves (ISO 2533:1975, ICAO Doc 7488) were
// not read; the constants were read on a page that names the latter (crnslab.org/util/atmo.php).
constexpr double sea_level_pa = 101325.0;
constexpr double sea_level_k = 288.15;
constexpr double lapse_k_per_m = 0.0065;
constexpr double gas_constant_j_per_kgk = 8314.32 / 28.9644;  // 287.05287

// Sutherland's law as the U.S. Standard Atmosphere 1976 has it, equation 51: read in public code
// that names it.
constexpr double sutherland_pas_per_sqrt_k = 1.458e-6;
constexpr double sutherland_k = 110.4;

}  // namespace

TemperaturePoint standard_temperature(Length altitude) {
  expects(altitude >= AltitudeRange::low && altitude <= AltitudeRange::high,
          "standard atmosphere: -430 m to 11 km");
  return TemperaturePoint::from_kelvin(sea_level_k - lapse_k_per_m * altitude.si());
}

Pressure standard_pressure(Length altitude) {
  // Weight of the air above in a layer whose temperature falls linearly.
  const double exponent = standard_gravity.si() / (gas_constant_j_per_kgk * lapse_k_per_m);
  return Pressure::from_si(
      sea_level_pa * std::pow(standard_temperature(altitude).kelvin() / sea_level_k, exponent));
}

Density air_density(Pressure pressure, TemperaturePoint temperature) {
  expects(pressure.si() > 0.0 && temperature.kelvin() > 0.0, "air_density: positive");
  return Density::from_si(pressure.si() / (gas_constant_j_per_kgk * temperature.kelvin()));
}

Viscosity air_viscosity(TemperaturePoint temperature) {
  const double t_k = temperature.kelvin();
  expects(t_k > 0.0, "air_viscosity: positive");
  return Viscosity::from_si(sutherland_pas_per_sqrt_k * t_k * std::sqrt(t_k) /
                            (t_k + sutherland_k));
}

Air air_at(Length altitude, TemperaturePoint temperature) {
  return {air_density(standard_pressure(altitude), temperature), air_viscosity(temperature)};
}

Air standard_air(Length altitude) {
  return air_at(altitude, standard_temperature(altitude));
}

}  // namespace hailwright
