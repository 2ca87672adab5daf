#pragma once

#include <optional>
#include <string_view>

#include "logs/log_layout.hpp"

namespace hailwright::detail {

/// `find_layout` of what is text in UTF-8. Nothing, and an error, for UTF-16, a workbook,
/// compressed data, or a header that is no text.
std::optional<LogLayout> read_layout(std::string_view beginning, std::optional<char> separator,
                                     HeadNotes& notes);

}  // namespace hailwright::detail
