#pragma once

#include <string>
#include <variant>
#include <vector>

#include "hailwright/report/document.hpp"

namespace hailwright {

/// A column of a table that people and machines read.
struct DataColumn {
  std::string title;  ///< "normalised power"
  std::string unit;   ///< "W"; empty for words, counts and ratios
  /// Of its numbers as people read them; machines get them whole. Below zero: words.
  int decimals = -1;
  bool for_machines = false;  ///< left out of the table for people; files and sheets have it
  [[nodiscard]] bool is_number() const { return decimals >= 0; }
};

/// Nothing, a number in the column's unit, or words. In a column of numbers: never words.
using DataCell = std::variant<std::monostate, double, std::string>;

/// A table that comes out as CSV, as a sheet of the spreadsheet and as a table of the document, of
/// the same numbers.
struct DataTable {
  std::string name;     ///< "readings": of the file without ".csv", of the sheet
  std::string caption;  ///< for people
  std::vector<DataColumn> columns;
  std::vector<std::vector<DataCell>> rows;  ///< each as long as `columns`
};

/// The column, for machines alone.
DataColumn for_machines(DataColumn column);

/// "normalised power [W]": the title with the unit, if it has one.
std::string titled(const DataColumn& column);

/// The table for people: numbers to the decimals of their column, columns for machines and those
/// without any content left out, and the name of its file.
/// Contract: rows and cells as `DataTable` states them, numbers finite; so of `render_csv`.
Table to_table(const DataTable& table);

/// RFC 4180 as `render_csv`; numbers whole: the shortest text that reads back to the same double,
/// a point as the decimal mark.
std::string render_csv(const DataTable& table);

}  // namespace hailwright
