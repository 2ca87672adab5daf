#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace hailwright {

/// What is typed into the cells of a column.
enum class CellsHold {
  words,   ///< to be kept as they are typed
  time,    ///< a time of day, 13:05
  numbers  ///< numbers alone; their unit, if there is one, stands in the header
};

/// A column that a table may have, after the readers' own rules.
struct TableColumn {
  std::string header;      ///< as the header of a new table has it: "power W"
  std::string_view means;  ///< what stands in its cells
  CellsHold hold = CellsHold::words;
  bool required = false;    ///< the table is not read without it
  bool from_above = false;  ///< a blank cell means: as in the row above
  int in_new = 1;           ///< how often a new table has it; 0: only for whom it is of use
};

/// One of the tables that a person fills in.
struct TableTemplate {
  std::string_view name;  ///< "balls", as under `tables:` of a record
  std::string_view holds;
  std::vector<TableColumn> columns;
};

/// Balls, trials, shots and readings, with every column that is read, in this order.
std::vector<TableTemplate> table_templates();

/// The header of a new table: the columns that it begins with, as often as it has them.
std::vector<std::string> new_header(const TableTemplate& table);

}  // namespace hailwright
