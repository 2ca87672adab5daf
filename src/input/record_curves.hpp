#pragma once

#include <optional>

#include "hailwright/model/record.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList curves_keys{"curves", "voltmeter ammeter before after"};
inline constexpr KeyList voltmeter_keys{"voltmeter", "accuracy step"};
inline constexpr KeyList ammeter_keys{"ammeter", "accuracy step"};
inline constexpr KeyList curve_reading_keys{
    "a reading of the curve",
    "open_voltage short_current voltage_at_maximum current_at_maximum sun back"};

/// Reads `curves:` of a record: figures of the curve before the shots and after them.
std::optional<CurveReadings> read_curves(const MapReader& record, Diagnostics& notes);

}  // namespace hailwright::input
