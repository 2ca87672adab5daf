#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_format.hpp"
#include "logs/log_number.hpp"
#include "logs/log_parser_index.hpp"
#include "logs/log_parser_rows.hpp"
#include "logs/log_parser_slow.hpp"
#include "logs/log_stamp.hpp"

namespace hailwright::detail {

/// Turns pieces of a log into blocks of rows. It remembers nothing that matters from piece to
/// piece, so that each may go to another parser; one parser belongs to one thread.
///
/// Plain rows are read many at once, column by column, from the index of their piece. Where one of
/// them is not that plain, each is looked at by itself. A line with anything odd in it (quotes,
/// another number of cells, bytes that are not ASCII, a cell that is no number, a comment) is read
/// by `SlowLines`.
class LogParser {
public:
  explicit LogParser(const LogShape& shape);
  LogParser(const LogParser&) = delete;
  LogParser& operator=(const LogParser&) = delete;
  LogParser(LogParser&&) = delete;
  LogParser& operator=(LogParser&&) = delete;
  ~LogParser() = default;

  /// @param piece          whole lines; less than 2^31 bytes
  /// @param at_file_begin  the piece begins with what stands above the rows, which is stepped over
  /// @param last           the file ends with the piece: its last line may have no line break
  /// @param into           becomes the rows of the piece; its memory is used again
  void parse(std::string_view piece, bool at_file_begin, bool last, LogBlock& into);

private:
  /// The ends of the cells of a row, in the index: `ends[-1]` is the end of the line before.
  using Ends = const std::uint32_t*;

  struct PlainRow {
    const char* lines;
    Ends ends;
    std::size_t last;   ///< place of the last cell
    std::uint32_t end;  ///< of the row, without its line break
    [[nodiscard]] std::string_view cell(std::size_t place) const;
  };

  /// With `careful` each number is looked at, whether an instrument can show it. False: not done,
  /// and one must be looked at.
  bool parse_lines(std::string_view piece, std::uint32_t head, bool careful, LogBlock& into);
  void read_lines(std::string_view lines, std::size_t first, bool careful, RowsInMaking& rows);
  /// Reads one line; gives the end of the first cell behind it.
  /// @param plain  there is no odd byte in it
  Ends read_line(std::string_view lines, Ends ends, std::uint32_t line_break, bool plain,
                 bool careful, RowsInMaking& rows);
  /// How many lines from this one on look like plain rows; no more than are read at once.
  [[nodiscard]] std::size_t plain_lines(const char* lines, Ends ends, std::size_t line,
                                        std::uint32_t odd) const;
  /// Reads so many of them; false, and nothing done, when one is not plain.
  bool rows_at_once(const char* lines, Ends ends, std::size_t count, RowsInMaking& rows);
  [[nodiscard]] CellColumn column(const char* lines, Ends ends, std::size_t count,
                                  std::size_t place) const;
  bool stamps_at_once(const char* lines, Ends ends, std::size_t count, std::int64_t* into);
  bool plain_row(const PlainRow& row, bool careful, RowsInMaking& rows);
  bool plain_stamp(const PlainRow& row, RowsInMaking& rows);
  bool plain_numbers(const PlainRow& row, bool careful, RowsInMaking& rows) const;

  RowLayout layout_;
  StampReader stamps_;
  SlowLines slow_;
  ShortNumbers short_numbers_;
  PieceIndex index_;
};

}  // namespace hailwright::detail
