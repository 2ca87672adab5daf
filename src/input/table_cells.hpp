#pragma once

#include <cstddef>
#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "input/table.hpp"

namespace hailwright::input {

/// One cell without the blanks around it and without its quotes. `text` points into the table's
/// source, or into `CellTable::unquoted`.
struct Cell {
  std::string_view text;
  SourceSpan origin;
  bool quoted = false;
};

struct CellRow {
  SourceSpan origin;
  std::vector<Cell> cells;  ///< as many as the header has
};

/// A table as text: header, then rows of as many cells.
struct CellTable {
  char separator = ',';
  SourceSpan origin;  ///< the header line
  std::vector<Cell> header;
  std::vector<CellRow> rows;
  std::deque<std::string> unquoted;  ///< texts of cells that hold doubled quotes
};

/// What nobody types by hand or exports from an afternoon's logger.
inline constexpr std::size_t most_columns = 10'000;
inline constexpr std::size_t most_rows = 1'000'000;
inline constexpr int longest_cell = 10'000;  ///< characters
/// So many messages about one table, and its reading stops.
inline constexpr std::size_t most_messages = 200;

/// Stops the reading of a table that is wrong all over. Says so once, then answers true.
class MessageLimit {
public:
  explicit MessageLimit(const Diagnostics& notes) : start_(notes.items().size()) {}
  bool reached(SourceSpan where, Diagnostics& notes);

private:
  std::size_t start_;
  bool told_ = false;
};

/// Splits a table's text into cells. Rows that cannot be split are reported and left out; nullopt
/// when there is no header to go by. `source` must outlive the result. Its bytes have passed
/// `check_bytes` (input/text_filter.hpp); others do no harm, but go unnoticed.
std::optional<CellTable> read_cells(const TableSource& source, Diagnostics& notes);

}  // namespace hailwright::input
