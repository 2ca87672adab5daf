#include "report/report_workbook_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/source.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

// Widths in characters [ours]: what fits numbers, and what long words wrap at.
constexpr std::size_t least_width = 9;
constexpr std::size_t most_width = 44;

std::size_t longest_part(const std::string& title) {
  std::size_t longest = 0;
  for (std::size_t start = 0; start < title.size();) {
    const std::size_t end = std::min(title.find(' ', start), title.size());
    longest = std::max(longest, end - start);
    start = end + 1;
  }
  return longest;
}

double width_of(const DataTable& table, std::size_t column) {
  std::size_t width = std::max(least_width, longest_part(titled(table.columns[column])));
  for (const auto& row : table.rows) {
    if (const auto* words = std::get_if<std::string>(&row[column]))
      width = std::max(width, static_cast<std::size_t>(count_characters(*words)));
  }
  constexpr double room = 1.2;  // for wider letters than those columns are measured by
  return room * static_cast<double>(std::min(width, most_width)) + 1.0;
}

SheetCell sheet_cell(const DataCell& cell, const DataColumn& column) {
  if (const auto* number = std::get_if<double>(&cell)) return {*number, column.decimals};
  if (const auto* words = std::get_if<std::string>(&cell)) return {*words};
  return {""};
}

}  // namespace

TableSheet::TableSheet(const DataTable& table) : sheet_{table.name, {}, {{}}} {
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    titles_.push_back(table.columns[c].title);
    sheet_.columns.push_back({width_of(table, c)});
    sheet_.rows[0].emplace_back(titled(table.columns[c]));
  }
  for (const auto& row : table.rows) {
    std::vector<SheetCell>& cells = sheet_.rows.emplace_back();
    for (std::size_t c = 0; c < row.size(); ++c)
      cells.push_back(sheet_cell(row[c], table.columns[c]));
  }
}

std::size_t TableSheet::column_of(std::string_view title) const {
  const auto found = std::find(titles_.begin(), titles_.end(), title);
  expects(found != titles_.end(), "a column of the sheet");
  return static_cast<std::size_t>(found - titles_.begin());
}

SheetCell& TableSheet::at(std::string_view title, std::size_t row) {
  return sheet_.rows.at(row + 1).at(column_of(title));
}

std::string TableSheet::here(std::string_view title, std::size_t row) const {
  return fmt::format("${}${}", letters_of(column_of(title)), row + 2);
}

std::string TableSheet::there(std::string_view title, std::size_t row) const {
  return fmt::format("'{}'!{}", name(), here(title, row));
}

std::string TableSheet::range(std::string_view title, std::size_t first, std::size_t count) const {
  expects(count > 0, "a range of cells");
  return fmt::format("{}:{}", there(title, first), here(title, first + count - 1));
}

const double* TableSheet::number(std::string_view title, std::size_t row) const {
  const auto& content = sheet_.rows.at(row + 1).at(column_of(title)).content;
  if (const auto* formula = std::get_if<Formula>(&content))
    return std::get_if<double>(&formula->value);
  return std::get_if<double>(&content);
}

bool TableSheet::is_blank(std::string_view title, std::size_t row) const {
  const auto* words = std::get_if<std::string>(&sheet_.rows.at(row + 1)[column_of(title)].content);
  return words != nullptr && words->empty();
}

void TableSheet::make_live(std::string_view title, std::size_t row, std::string formula) {
  SheetCell& cell = at(title, row);
  if (is_blank(title, row)) return;
  Formula live{std::move(formula), 0.0};
  if (const auto* number = std::get_if<double>(&cell.content)) live.value = *number;
  if (const auto* words = std::get_if<std::string>(&cell.content)) live.value = *words;
  cell.content = std::move(live);
}

void TableSheet::to_change(std::string_view title) {
  const std::size_t column = column_of(title);
  auto& header = std::get<std::string>(sheet_.rows[0][column].content);
  header += ": yours to change";
  for (std::size_t row = 1; row < sheet_.rows.size(); ++row) {
    if (!is_blank(title, row - 1)) sheet_.rows[row][column].to_change = true;
  }
}

}  // namespace hailwright
