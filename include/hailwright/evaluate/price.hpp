#pragma once

#include <optional>
#include <string>

#include "hailwright/core/quantity.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

/// What a watt of a panel costs, by its measured power.
struct PricePerWatt {
  Money price;
  Power power;         ///< at 1000 W/m2 and 25 degC, before the shots
  Ratio relative_u;    ///< of the power, and so of the price per watt: standard uncertainty
  double value = 0.0;  ///< in the currency of `price` per watt
};

/// Nothing where the panel file gives no price or the untouched panel was not read.
std::optional<PricePerWatt> price_per_watt(const Test& test);

}  // namespace hailwright
