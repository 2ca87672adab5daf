#pragma once

#include <optional>
#include <string_view>

namespace hailwright {

/// Days from 1970-01-01 to an ISO 8601 date (2026-06-14) of the Gregorian calendar; nothing when
/// the text is no such date.
std::optional<long> day_number(std::string_view iso_date);

}  // namespace hailwright
