#pragma once

#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/record.hpp"
#include "input/table_setups.hpp"

namespace hailwright::input {

/// Whether the clocks of a record's logs go together. Logs have absolute times, so that a clock or
/// a zone that is wrong shows: an error where a set-up after the shots begins before one before
/// them ends, a warning where the stamps of two logs are of zones that tell another time.
/// @param rows  goes along with the set-ups of the record
void check_log_clocks(const Record& record, const std::vector<SetupRows>& rows, Diagnostics& notes);

}  // namespace hailwright::input
