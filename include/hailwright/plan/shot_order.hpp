#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "hailwright/model/place_layout.hpp"

namespace hailwright {

/// The order in which the places of a series are struck, as indices into them: each the farthest
/// from the one before of those left, so that a drift of the aim or of the launcher does not pile
/// up on one part of the panel. Places without a position come last, in their own order.
std::vector<std::size_t> spread_order(const std::vector<PlacedTarget>& places);

/// The same places in an order drawn from a seed; every order is as likely as any other.
std::vector<std::size_t> random_order(std::size_t places, std::uint64_t seed);

}  // namespace hailwright
