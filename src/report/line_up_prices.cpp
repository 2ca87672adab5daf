#include "report/line_up_prices.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "report/report_workbook_sheet.hpp"
#include "report/words.hpp"

namespace hailwright::detail {

namespace {

struct PriceColumn {
  const char* title = "";
  const char* unit = "";
  int decimals = 0;  ///< -1: words
  bool yours = false;
};

constexpr std::array columns{
    PriceColumn{price_column::record, "", -1},
    PriceColumn{price_column::lowest, "", 2, true},
    PriceColumn{price_column::price, "", 2, true},
    PriceColumn{price_column::highest, "", 2, true},
    PriceColumn{price_column::currency, "", -1},
    PriceColumn{price_column::power, "W", 1, true},
    PriceColumn{price_column::relative_u, "%", 2},
    PriceColumn{price_column::rated, "W", 1, true},
    PriceColumn{price_column::area, "m2", 4, true},
    PriceColumn{price_column::weight, "kg", 2, true},
    PriceColumn{price_column::lowest_per_watt, "currency/W", 3},
    PriceColumn{price_column::per_watt, "currency/W", 3},
    PriceColumn{price_column::u_per_watt, "currency/W", 3},
    PriceColumn{price_column::highest_per_watt, "currency/W", 3},
    PriceColumn{price_column::lowest_per_rated, "currency/W", 3},
    PriceColumn{price_column::per_rated, "currency/W", 3},
    PriceColumn{price_column::highest_per_rated, "currency/W", 3},
    PriceColumn{price_column::share_of_rated, "%", 1},
    PriceColumn{price_column::per_area, "W/m2", 1},
    PriceColumn{price_column::per_mass, "W/kg", 2},
};

std::size_t column_of(std::string_view title) {
  const auto* found = std::find_if(columns.begin(), columns.end(),
                                   [&](const PriceColumn& c) { return c.title == title; });
  expects(found != columns.end(), "a column of the prices");
  return static_cast<std::size_t>(found - columns.begin());
}

DataCell amount(const std::optional<Money>& money) {
  return money ? DataCell(money->amount) : DataCell();
}

template <class Q>
DataCell in_si(const std::optional<Q>& quantity) {
  return quantity ? DataCell(quantity->si()) : DataCell();
}

/// What is known of a panel; the rest is worked out from it.
std::vector<DataCell> row_of(const LineUpEntry& e) {
  std::vector<DataCell> row(columns.size());
  const auto put = [&](const char* title, DataCell cell) {
    row[column_of(title)] = std::move(cell);
  };
  put(price_column::record, e.title);
  put(price_column::lowest, amount(e.lowest_price));
  put(price_column::price, amount(e.price));
  put(price_column::highest, amount(e.highest_price));
  if (e.price) put(price_column::currency, e.price->currency);
  const auto measured = e.numbers.find(LineUpQuantity::power);
  if (measured != e.numbers.end()) {
    put(price_column::power, std::exp(measured->second.log));
    put(price_column::relative_u, 100.0 * measured->second.standard_u);
  }
  put(price_column::rated, in_si(e.rated));
  put(price_column::area, in_si(e.area));
  put(price_column::weight, in_si(e.weight));
  return row;
}

DataTable table_of(const std::vector<const LineUpEntry*>& entries) {
  DataTable table{"prices", "", {}, {}};
  for (const PriceColumn& c : columns)
    table.columns.push_back({c.title, c.unit, c.decimals});
  for (const LineUpEntry* entry : entries)
    table.rows.push_back(row_of(*entry));
  return table;
}

/// What is the reader's is marked where nothing stands, too: it can be typed there.
void mark_yours(Sheet& sheet) {
  for (std::size_t c = 0; c < columns.size(); ++c) {
    if (!columns[c].yours) continue;
    std::get<std::string>(sheet.rows[0][c].content) += ": yours to change";
    for (std::size_t row = 1; row < sheet.rows.size(); ++row)
      sheet.rows[row][c].to_change = true;
  }
}

}  // namespace

PriceSheet::PriceSheet(const std::vector<const LineUpEntry*>& entries)
    : sheet_(TableSheet(table_of(entries)).take()) {
  for (std::size_t row = 0; row < entries.size(); ++row) {
    quotient(price_column::lowest_per_watt, price_column::lowest, price_column::power, row);
    quotient(price_column::per_watt, price_column::price, price_column::power, row);
    quotient(price_column::highest_per_watt, price_column::highest, price_column::power, row);
    quotient(price_column::lowest_per_rated, price_column::lowest, price_column::rated, row);
    quotient(price_column::per_rated, price_column::price, price_column::rated, row);
    quotient(price_column::highest_per_rated, price_column::highest, price_column::rated, row);
    quotient(price_column::share_of_rated, price_column::power, price_column::rated, row, 100.0);
    quotient(price_column::per_area, price_column::power, price_column::area, row);
    quotient(price_column::per_mass, price_column::power, price_column::weight, row);
    u_of_price(row);
  }
  mark_yours(sheet_);
}

std::string PriceSheet::here(std::string_view title, std::size_t row) {
  return fmt::format("${}${}", letters_of(column_of(title)), row + 2);
}

SheetCell& PriceSheet::at(std::string_view title, std::size_t row) {
  return sheet_.rows.at(row + 1).at(column_of(title));
}

/// Blank unless both are numbers and the lower one is above zero.
void PriceSheet::quotient(const char* title, const char* above, const char* below, std::size_t row,
                          double times) {
  const std::string factor = times == 1.0 ? "" : fmt::format("{}*", times);
  Formula formula{fmt::format("=IF(AND(ISNUMBER({0}),N({1})>0),{2}{0}/{1},\"\")", here(above, row),
                              here(below, row), factor),
                  std::string()};
  const auto* upper = std::get_if<double>(&at(above, row).content);
  const auto* lower = std::get_if<double>(&at(below, row).content);
  if (upper != nullptr && lower != nullptr && *lower > 0.0) formula.value = times * *upper / *lower;
  at(title, row) = SheetCell(std::move(formula), columns[column_of(title)].decimals);
}

void PriceSheet::u_of_price(std::size_t row) {
  Formula formula{fmt::format("=IF(AND(ISNUMBER({0}),ISNUMBER({1})),{0}*{1}/100,\"\")",
                              here(price_column::per_watt, row),
                              here(price_column::relative_u, row)),
                  std::string()};
  const auto& value = std::get<Formula>(at(price_column::per_watt, row).content).value;
  const auto* relative = std::get_if<double>(&at(price_column::relative_u, row).content);
  if (std::holds_alternative<double>(value) && relative != nullptr)
    formula.value = std::get<double>(value) * *relative / 100.0;
  at(price_column::u_per_watt, row) =
      SheetCell(std::move(formula), columns[column_of(price_column::u_per_watt)].decimals);
}

std::string PriceSheet::there(std::string_view title, std::size_t row) const {
  return fmt::format("=IF('{0}'!{1}=\"\",\"\",'{0}'!{1})", sheet_.name, here(title, row));
}

std::string PriceSheet::u_there(std::string_view title, std::size_t row) const {
  return fmt::format(
      "=IF(AND(ISNUMBER('{0}'!{1}),ISNUMBER('{0}'!{2})),'{0}'!{1}*'{0}'!{2}/100,\"\")", sheet_.name,
      here(title, row), here(price_column::relative_u, row));
}

}  // namespace hailwright::detail
