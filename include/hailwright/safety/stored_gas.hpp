#pragma once

#include "hailwright/core/quantity.hpp"

namespace hailwright {

/// Energy that a vessel of compressed gas can set free.
struct StoredGas {
  Energy lower;  ///< when the gas expands without heat to the pressure outside
  Energy upper;  ///< the bound after Brode
};

/// Lower: p V / (k - 1) (1 - (pa / p)^((k - 1) / k)), upper: (p - pa) V / (k - 1), with p the
/// absolute pressure inside, pa = 101325 Pa outside and k = 1.4, as for air and nitrogen.
/// @param gauge   pressure over that of the air outside, >= 0
/// @param volume  >= 0
/// Source: isentropic expansion, read at industrialmonitordirect.com, which quotes a manual of
/// LLNL and whose own worked example is wrong by a factor of six; Brode's bound and k from memory.
StoredGas stored_gas(Pressure gauge, Volume volume);

}  // namespace hailwright
