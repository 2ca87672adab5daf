#include "support/table_cells.hpp"

#include <algorithm>

#include "support/catch.hpp"

namespace hailwright::testing {

const DataCell& cell_of(const DataTable& table, std::string_view title, std::size_t row) {
  CAPTURE(table.name, title, row);
  const auto found = std::find_if(table.columns.begin(), table.columns.end(),
                                  [&](const DataColumn& column) { return column.title == title; });
  REQUIRE(found != table.columns.end());
  REQUIRE(row < table.rows.size());
  return table.rows[row].at(static_cast<std::size_t>(found - table.columns.begin()));
}

double number_of(const DataTable& table, std::string_view title, std::size_t row) {
  const auto* number = std::get_if<double>(&cell_of(table, title, row));
  CAPTURE(table.name, title, row);
  REQUIRE(number != nullptr);
  return *number;
}

std::string words_of(const DataTable& table, std::string_view title, std::size_t row) {
  const auto* words = std::get_if<std::string>(&cell_of(table, title, row));
  CAPTURE(table.name, title, row);
  REQUIRE(words != nullptr);
  return *words;
}

bool is_blank(const DataTable& table, std::string_view title, std::size_t row) {
  return std::holds_alternative<std::monostate>(cell_of(table, title, row));
}

}  // namespace hailwright::testing
