#pragma once

#include "hailwright/core/quantity.hpp"

namespace hailwright {

/// The air that a ball flies through: at rest or in a steady wind, dry, the same along the flight.
struct Air {
  Density density;      ///< > 0
  Viscosity viscosity;  ///< dynamic, > 0
};

/// Altitudes over the sea for which the standard atmosphere is offered: from the lowest shore on
/// land, that of the Dead Sea [from memory], to the top of the troposphere (ISO 2533). They are
/// taken as geopotential; the difference moves the density at 3000 m by 0.013 %.
struct AltitudeRange {
  static constexpr Length low = Length::from_si(-430.0);
  static constexpr Length high = Length::from_si(11000.0);
};

/// Pressure of the International Standard Atmosphere at an altitude within AltitudeRange
/// (contract). Weather moves the true one by some 3 % [common practice, no source].
/// Source: ISO 2533:1975, ICAO Doc 7488; see air.cpp for how it was read.
/// Checked in: tests/reference/flight_standard_atmosphere_test.cpp, as all of this file.
Pressure standard_pressure(Length altitude);
/// Temperature of the International Standard Atmosphere there: 15 degC less 6.5 K a kilometre.
TemperaturePoint standard_temperature(Length altitude);
/// Density of dry air as an ideal gas. Both above zero (contract). Moist air is lighter, at 30 degC
/// and 100 % by 1.6 % [computed: vapour of 4.25 kPa (from memory) at 0.622 of the weight of air].
Density air_density(Pressure pressure, TemperaturePoint temperature);
/// Dynamic viscosity after Sutherland, above 0 K (contract). Used from -50 to 60 degC.
Viscosity air_viscosity(TemperaturePoint temperature);
/// Standard pressure at the altitude, and the temperature there as measured.
Air air_at(Length altitude, TemperaturePoint temperature);
/// The standard atmosphere throughout.
Air standard_air(Length altitude);

}  // namespace hailwright
