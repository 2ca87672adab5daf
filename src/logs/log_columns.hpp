#pragma once

#include <optional>
#include <vector>

#include "hailwright/logs/log_format.hpp"
#include "logs/log_layout.hpp"

namespace hailwright::detail {

/// The columns to read: as stated, or where none are, as their headers and cells tell. At most one
/// a role; nothing, and errors, when one is not there, could be several, or has no unit.
std::optional<std::vector<LogColumn>> find_columns(const LogLayout& layout, const LogFormat& stated,
                                                   HeadNotes& notes);

}  // namespace hailwright::detail
