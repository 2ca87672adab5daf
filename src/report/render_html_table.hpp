#pragma once

#include <string>

#include "hailwright/report/document.hpp"

namespace hailwright::detail {

/// A <table> with its caption, the heads of its columns and, where the first cells tell the rows
/// apart, the names of its rows. Without rows it says so.
/// Contract: a column, and in every row as many cells as columns.
std::string html_table(const Table& table);

/// The box of a table.
struct TableBox {
  /// "tall" where a screen should scroll its rows under their heads; on paper in "small" or
  /// "smallest" type, or "off-paper".
  std::string classes;
  bool may_scroll = false;  ///< wider than a telephone or higher than a screen
  bool off_paper = false;   ///< too wide even in the smallest type, and there as a file
};
/// How a table stands on a screen and on paper, by the least width of its columns: numbers and
/// short words never break. A form is made for paper and is none of these. Contract: as of
/// `html_table`.
TableBox table_box(const Table& table);

}  // namespace hailwright::detail
