#pragma once

#include "input/map_reader.hpp"

namespace hailwright::input {

/// Ranges and counts that several files or keys share [ours]: beyond them are slips of the pen.
inline constexpr Range air_range{223.15, 333.15, "from -50 degC to 60 degC"};
inline constexpr Range voltage_range{0.0, 1500.0, "more than 0 V, up to 1500 V", true};
inline constexpr Range current_range{0.0, 100.0, "more than 0 A, up to 100 A", true};
/// What an inline meter and an irradiance meter can show.
inline constexpr double most_power_w = 100e3;
inline constexpr double most_irradiance_w_m2 = 2000.0;
inline constexpr int most_substrings = 12;
inline constexpr int most_places = 500;
inline constexpr int most_cavities = 1000;

}  // namespace hailwright::input
