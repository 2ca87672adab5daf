#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "hailwright/model/place_layout.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

/// What a place is: "lower left corner of the glass", or why it has no position.
std::string what_it_is(const PlacedTarget& place);

/// The same of all places of a series; empty words where they cannot be laid out on the panel.
std::vector<std::string> what_places_are(const Test& test, std::size_t series);

}  // namespace hailwright
