#include "hailwright/report/data_table.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/report/render.hpp"

namespace hailwright {

namespace {

void check(const DataTable& table) {
  expects(!table.columns.empty(), "a table with columns");
  for (const auto& row : table.rows) {
    expects(row.size() == table.columns.size(), "as many cells as columns");
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (const auto* number = std::get_if<double>(&row[c]))
        expects(table.columns[c].is_number() && std::isfinite(*number),
                "finite numbers, in columns of numbers");
      if (std::holds_alternative<std::string>(row[c]))
        expects(!table.columns[c].is_number(), "words in columns of words");
    }
  }
}

/// A double holds no more than 15 digits for certain; a number of more is told by its power of ten.
constexpr double longest_number = 1e15;

/// The shortest text that reads back to the same double.
std::string whole(double number) {
  std::array<char, 32> text{};
  if (number == 0.0) return "0";  // never "-0"
  const auto [end, error] = std::to_chars(text.data(), text.data() + text.size(), number);
  expects(error == std::errc(), "room for any double");
  return {text.data(), end};
}

/// The table as texts, its numbers by `number_text(number, column)`.
template <class NumberText>
Table as_texts(const DataTable& table, NumberText number_text) {
  check(table);
  Table texts;
  for (const DataColumn& column : table.columns)
    texts.columns.push_back({titled(column), column.is_number() ? Align::right : Align::left});
  for (const auto& row : table.rows) {
    std::vector<std::string>& cells = texts.rows.emplace_back();
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (const auto* number = std::get_if<double>(&row[c])) {
        cells.push_back(number_text(*number, table.columns[c]));
      } else {
        const auto* words = std::get_if<std::string>(&row[c]);
        cells.push_back(words ? *words : "");
      }
    }
  }
  return texts;
}

bool is_blank(const Table& table, std::size_t column) {
  return std::all_of(table.rows.begin(), table.rows.end(),
                     [column](const auto& row) { return row[column].empty(); });
}

/// @param columns  those that the table was made from
void leave_out_columns(Table& table, const std::vector<DataColumn>& columns) {
  for (std::size_t c = table.columns.size(); c-- > 0;) {
    const bool blank = !table.rows.empty() && is_blank(table, c);
    if (!blank && !columns[c].for_machines) continue;
    const auto at = static_cast<std::ptrdiff_t>(c);
    table.columns.erase(table.columns.begin() + at);
    for (auto& row : table.rows)
      row.erase(row.begin() + at);
  }
}

}  // namespace

DataColumn for_machines(DataColumn column) {
  column.for_machines = true;
  return column;
}

std::string titled(const DataColumn& column) {
  return column.unit.empty() ? column.title : column.title + " [" + column.unit + "]";
}

Table to_table(const DataTable& table) {
  Table out = as_texts(table, [](double number, const DataColumn& column) {
    return std::abs(number) < longest_number ? fixed(number, column.decimals)
                                             : significant(number, 3);
  });
  out.caption = table.caption;
  out.file = table.name + ".csv";
  leave_out_columns(out, table.columns);
  return out;
}

std::string render_csv(const DataTable& table) {
  return render_csv(
      as_texts(table, [](double number, const DataColumn&) { return whole(number); }));
}

}  // namespace hailwright
