#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "hailwright/logs/log_format.hpp"
#include "logs/log_header.hpp"
#include "logs/log_recognise_lines.hpp"

namespace hailwright::detail {

/// A row of a log's beginning.
struct HeadRow {
  HeadLine line;
  std::vector<HeadCell> cells;
};

/// How a log's beginning is laid out.
struct LogLayout {
  char separator = ',';
  HeadLine header_line;
  int first_row_line = 0;  ///< below the lines of headers and units
  std::vector<HeadCell> header_cells;
  std::vector<LogHeader> headers;
  std::vector<HeadRow> rows;  ///< those with as many cells as headers
};

/// Finds separator, header and rows. `separator` as stated, if it is. Nothing, and an error, when
/// there is no line of headers with rows below it.
std::optional<LogLayout> find_layout(std::string_view beginning, std::optional<char> separator,
                                     HeadNotes& notes);

/// The decimal mark of these columns: as stated; else the point where commas separate cells; else
/// what the numbers show. Nothing, and an error, where they show both, or where a comma could group
/// thousands.
std::optional<char> find_decimal(const LogLayout& layout, const std::vector<std::size_t>& columns,
                                 std::optional<char> stated, HeadNotes& notes);

/// "comma", "semicolon", "tab".
std::string_view separator_word(char separator);

/// "comma", "point".
std::string_view decimal_word(char decimal);

/// As a column map says it: "day first".
std::string_view date_order_word(DateOrder order);

}  // namespace hailwright::detail
