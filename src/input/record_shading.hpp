#pragma once

#include <optional>
#include <vector>

#include "hailwright/model/record.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList shade_keys{"this shade", "shade when date rounds open_voltage"};
inline constexpr KeyList shade_round_keys{"this round of a shade", "free shaded sun back"};
inline constexpr KeyList sun_shade_keys{"sun of a round", "free shaded"};
inline constexpr KeyList back_shade_keys{"back of a round", "free shaded"};
inline constexpr KeyList open_shade_keys{"open_voltage", "free shaded substrings accuracy step"};

/// Reads `shading:` of a record.
/// @param substrings  of the panel, where they are known
std::vector<ShadeTrial> read_shading(const MapReader& record, const std::optional<int>& substrings,
                                     Diagnostics& notes);

}  // namespace hailwright::input
