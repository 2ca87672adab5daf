#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hailwright::detail {

/// A cell of a line, as bytes of it: without blanks around it and without its quotes.
struct LineCell {
  std::size_t begin = 0;
  std::size_t end = 0;
  bool doubled_quotes = false;  ///< "" inside quotes stands for one quote

  [[nodiscard]] std::string_view raw(std::string_view line) const {
    return line.substr(begin, end - begin);
  }
  /// As it is meant.
  [[nodiscard]] std::string text(std::string_view line) const;
};

/// Something wrong with the bytes of a line.
struct LineFault {
  std::size_t offset = 0;
  std::size_t length = 1;
  std::string message;
  std::string hint;
};

/// Cuts a line without its line break into cells (RFC 4180: quotes around a cell that holds the
/// separator, quotes inside them doubled). Blanks around a cell are not part of it. Cells end with
/// the line. A fault of its quotes comes back; then `cells` is cut short.
std::optional<LineFault> cut_into_cells(std::string_view line, char separator,
                                        std::vector<LineCell>& cells);

/// The first byte that is no UTF-8 text, or a control character other than tab.
std::optional<LineFault> find_bad_byte(std::string_view line);

/// The column of a byte of a line, in characters from 1.
int column_of(std::string_view line, std::size_t offset);

}  // namespace hailwright::detail
