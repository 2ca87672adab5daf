#pragma once

#include <string>
#include <string_view>

#include "hailwright/report/data_table.hpp"

namespace hailwright::testing {

/// The cell of a column by its title; a failed check where there is no such column or row.
const DataCell& cell_of(const DataTable& table, std::string_view title, std::size_t row);
/// Its number or its words; a failed check where it holds something else.
double number_of(const DataTable& table, std::string_view title, std::size_t row);
std::string words_of(const DataTable& table, std::string_view title, std::size_t row);
bool is_blank(const DataTable& table, std::string_view title, std::size_t row);

}  // namespace hailwright::testing
