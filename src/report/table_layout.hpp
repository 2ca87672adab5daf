#pragma once

#include <string>
#include <vector>

#include "hailwright/report/document.hpp"

namespace hailwright::detail {

constexpr int column_gap = 2;  ///< blanks between columns

/// A table's words, each cell on one line, and the columns' widths.
struct Grid {
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;
  std::vector<int> widths;  ///< empty until `fit` has set them
};

/// The words of a table, printable, without its caption. An empty cell of a form becomes a line to
/// write on.
/// Contract: a column, and in every row as many cells as columns.
Grid tidied(const Table& table);

/// Sets the widths of the columns such that the table is at most `room` wide, by wrapping text
/// inside its cells; figures (right-aligned) stay on one line and words stay whole. False when that
/// cannot be done.
bool fit(Grid& grid, int room);

/// The titles, strong and standing on the rule; no line when there are none.
std::vector<Runs> head_lines(const Grid& grid);
Runs rule_line(const Grid& grid);
/// One row; as many lines as its tallest cell.
std::vector<Runs> row_lines(const Grid& grid, const std::vector<std::string>& row);

}  // namespace hailwright::detail
