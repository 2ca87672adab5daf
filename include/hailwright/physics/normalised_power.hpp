#pragma once

#include <array>
#include <cmath>
#include <cstddef>

#include "hailwright/core/quantity.hpp"

namespace hailwright {

/// Where an error enters the normalisation of one reading. Several inputs may share a slot: their
/// errors add.
enum class ErrorSlot : std::size_t {
  meter_gain,       ///< relative error of the power
  meter_offset,     ///< [W]
  sun_gain,         ///< relative error of the irradiance
  sun_offset,       ///< [W/m2]
  temperature,      ///< error of the temperature as read [K]
  coefficient,      ///< of gamma [1/K]
  cell_above_back,  ///< of the difference at 1000 W/m2 [K]
  factor            ///< of ln P itself: alignment, contact, sky, drift
};
inline constexpr std::size_t error_slots = 8;

/// One reading with the panel's coefficient and the cell-to-back difference it is taken with.
struct NormalisedReading {
  Power power;
  Irradiance irradiance;
  TemperaturePoint back;
  TemperatureCoefficient gamma;
  TemperatureDifference cell_above_back;  ///< at 1000 W/m2; 0 when the sensor reads the cell
};

/// What a normalised power is made of: power / (suns * temperature).
template <class Number>
struct PowerFactors {
  Number power;        ///< [W]
  Number suns;         ///< irradiance over 1000 W/m2
  Number temperature;  ///< 1 + gamma (Tc - 25 degC)
};

/// The factors of one reading with its errors; ErrorSlot::factor is not in them. Random trials
/// multiply those of many readings before they take a logarithm; for that it is inlined always.
/// @param error  by slot, zero for the best estimate
template <class Number>
[[gnu::always_inline]] inline PowerFactors<Number>
power_factors(const NormalisedReading& r, const std::array<Number, error_slots>& error) {
  const auto at = [&](ErrorSlot slot) -> const Number& {
    return error[static_cast<std::size_t>(slot)];
  };
  const Number power =
      r.power.si() * (1.0 + at(ErrorSlot::meter_gain)) + at(ErrorSlot::meter_offset);
  const Number suns = r.irradiance.si() / 1000.0 * (1.0 + at(ErrorSlot::sun_gain)) +
                      at(ErrorSlot::sun_offset) * 0.001;
  const Number gamma = r.gamma.si() + at(ErrorSlot::coefficient);
  const Number cell_c = (r.back.celsius() + at(ErrorSlot::temperature)) +
                        (r.cell_above_back.si() + at(ErrorSlot::cell_above_back)) * suns;
  return {power, suns, 1.0 + gamma * (cell_c - 25.0)};
}

/// Logarithm of the power (in W) that a panel would give at 1000 W/m2 and 25 degC:
/// q = ln P - ln(G / 1000 W/m2) - ln(1 + gamma (Tc - 25 degC)), Tc = T_back + dT G / 1000 W/m2.
/// Linear in irradiance: keep G of the readings compared within some 10 % of each other.
/// One formula for any number type: double gives the estimate, Dual its sensitivities, and random
/// trials use its factors with drawn errors.
/// @param error  by slot, zero for the best estimate
/// Source: inverse of P = (G/1000) P0 (1 + gamma (Tc - 25)) and the back-to-cell relation of King
/// et al. 2004 (SAND2004-3535), both read in the documentation of an open PV modelling library;
/// facts checked by tests/reference/stc_correction_test.cpp.
template <class Number>
Number log_normalised_power(const NormalisedReading& r,
                            const std::array<Number, error_slots>& error) {
  using std::log;
  const PowerFactors<Number> f = power_factors(r, error);
  return log(f.power) - log(f.suns) - log(f.temperature) +
         error[static_cast<std::size_t>(ErrorSlot::factor)];
}

/// Power at 1000 W/m2 and 25 degC itself.
Power normalised_power(const NormalisedReading& reading);

}  // namespace hailwright
