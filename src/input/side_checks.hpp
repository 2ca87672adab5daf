#pragma once

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright::input {

/// Holds what was measured beside the test against the panel's ratings, the sun and the days of the
/// test, and the readings of tables and logs against the ratings: an error for what contradicts
/// itself, a warning for what is hardly true.
/// @param panel_fine  whether the panel's file was read, so that its ratings count
void check_side_measurements(const Record& record, bool panel_fine, Diagnostics& notes);

}  // namespace hailwright::input
