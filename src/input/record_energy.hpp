#pragma once

#include <vector>

#include "hailwright/model/record.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList energy_keys{"this session by meter",
                                     "name when date lasting energy step accuracy sun back beside"};
inline constexpr KeyList sun_ends_keys{"sun at the ends", "start end"};
inline constexpr KeyList back_ends_keys{"back at the ends", "start end"};
inline constexpr KeyList energy_beside_keys{"panel beside", "label energy step accuracy back"};

/// Reads `energy:` of a record.
std::vector<MeterSession> read_energy(const MapReader& record, Diagnostics& notes);

}  // namespace hailwright::input
