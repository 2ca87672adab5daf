#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/report/data_table.hpp"
#include "hailwright/report/workbook.hpp"

namespace hailwright {

/// A table as a sheet whose formulas find its cells by the titles of their columns; its row 0 is
/// the row below the header.
class TableSheet {
public:
  explicit TableSheet(const DataTable& table);

  [[nodiscard]] const std::string& name() const { return sheet_.name; }
  /// "$H$2" from cells of the same row or sheet; "readings!$H$2" from elsewhere by `there`.
  [[nodiscard]] std::string here(std::string_view title, std::size_t row) const;
  [[nodiscard]] std::string there(std::string_view title, std::size_t row) const;
  /// "readings!$H$2:$H$13". Contract: count > 0.
  [[nodiscard]] std::string range(std::string_view title, std::size_t first,
                                  std::size_t count) const;

  /// What a cell holds when it is a number, live or not; else nullptr.
  [[nodiscard]] const double* number(std::string_view title, std::size_t row) const;
  [[nodiscard]] bool is_blank(std::string_view title, std::size_t row) const;
  /// Makes a number live: its formula gives it. Blank cells stay blank.
  void make_live(std::string_view title, std::size_t row, std::string formula);
  /// Marks the cells of a column as the reader's, in words and by their look.
  void to_change(std::string_view title);

  [[nodiscard]] Sheet take() { return std::move(sheet_); }

private:
  [[nodiscard]] std::size_t column_of(std::string_view title) const;
  [[nodiscard]] SheetCell& at(std::string_view title, std::size_t row);

  std::vector<std::string> titles_;
  Sheet sheet_;
};

}  // namespace hailwright
