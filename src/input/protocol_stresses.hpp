#pragma once

#include <vector>

#include "hailwright/model/record.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

/// Reads `stresses:` of a protocol. Names that a series has are an error.
std::vector<StressPlan> read_stresses(const MapReader& map, const std::vector<SeriesPlan>& series,
                                      Diagnostics& notes);

/// Each kind with its keys and its safety answers.
std::vector<KeyList> stress_plan_keys();

}  // namespace hailwright::input
