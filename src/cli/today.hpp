#pragma once

#include <string>

namespace hailwright::cli {

/// The day here, as 2026-06-14: answers of the safety section are dated by the calendar on the
/// wall.
std::string today();

}  // namespace hailwright::cli
