#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "logs/log_parser_cells.hpp"
#include "logs/log_parser_rows.hpp"
#include "logs/log_stamp.hpp"

namespace hailwright::detail {

/// Longest line that is read [bytes].
inline constexpr std::size_t longest_line = std::size_t{64} << 10U;

/// Reads one line properly: a row into its place, anything else counted, what is wrong with it told
/// at its place. A line has one problem at most, the first.
class SlowLines {
public:
  SlowLines(const RowLayout& layout, StampReader& stamps) : layout_(layout), stamps_(stamps) {}

  /// @param line     without its line break
  /// @param unended  the file ends without a line break behind it
  void read(std::string_view line, bool unended, RowsInMaking& rows);

private:
  struct Line {
    std::string_view text;
    bool unended;
    RowsInMaking& rows;
  };

  void row(const Line& line);
  bool right_count(const Line& line);
  bool stamp(const Line& line);
  bool numbers(const Line& line);
  bool number(const Line& line, std::size_t index);
  bool parts_shown(const Line& line);
  [[nodiscard]] bool header_again(std::string_view line) const;
  void not_a_number(const Line& line, const NumberColumn& column, const LineCell& cell);
  void beyond_instruments(const Line& line, const NumberColumn& column, const LineCell& cell);

  const RowLayout& layout_;
  StampReader& stamps_;
  std::vector<LineCell> cells_;
};

}  // namespace hailwright::detail
