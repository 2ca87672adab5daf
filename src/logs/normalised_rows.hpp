#pragma once

#include <cstddef>
#include <vector>

#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_stretch.hpp"

namespace hailwright::detail {

/// Which columns a normalised power is made of.
struct NormalisedColumns {
  LogRole power = LogRole::power;
  LogRole temperature = LogRole::temperature;
};

/// Whether the block has power, irradiance and temperature.
bool can_normalise(const LogBlock& block, NormalisedColumns columns);

/// Fills rows `begin` to `end` of `into`, which is as long as the block, with powers at 1000 W/m2
/// and 25 degC [W]. NaN where a cell is blank, where irradiance is below the least, or where the
/// panel is not under load. Contract: `can_normalise`.
void fill_normalised(std::vector<double>& into, const LogBlock& block, NormalisedColumns columns,
                     const LogNormalisation& how, Power load_on, std::size_t begin,
                     std::size_t end);

}  // namespace hailwright::detail
