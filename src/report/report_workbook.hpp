#pragma once

#include <map>
#include <string>
#include <utility>

#include "report/report_rows.hpp"
#include "report/report_workbook_sheet.hpp"

namespace hailwright {

/// Where the first sheet holds what a reader may change: "'verdict'!$C$9".
struct ReaderCells {
  std::map<std::size_t, std::string> price;  ///< by record
  /// Temperature coefficient in %/K and cells above back in K, by record and panel ("panel",
  /// "control"); siblings have the panel's.
  std::map<std::pair<std::size_t, std::string>, std::string> coefficient, cell_above_back;
};

/// The first sheet: the words, the numbers that matter, what the reader may change, the cautions.
class VerdictSheet {
public:
  /// @param comparison  the sheet that the losses and the price per watt are looked up in
  VerdictSheet(const WriteUp& write_up, const ReportRows& rows, const TableSheet& comparison);

  [[nodiscard]] const ReaderCells& cells() const { return cells_; }
  [[nodiscard]] Sheet take() { return std::move(sheet_); }

private:
  void record(std::size_t index);
  void words(const Judged& judged);
  void losses(std::size_t row);
  void price(std::size_t record, std::size_t comparison_row);
  void panels(std::size_t record);
  void cautions();
  void about();
  /// Adds a line of a value with its unit, and gives the place of the value.
  std::string value(std::string about, SheetCell is, std::string unit, std::string remark = {});
  /// Adds a line of words alone.
  void say(std::string about, SheetCell remark);

  const WriteUp& write_up_;
  const ReportRows& rows_;
  const TableSheet& comparison_;
  std::string title_;  ///< of the record that lines are about
  ReaderCells cells_;
  Sheet sheet_;
};

/// Title of the column that says whether the readings are those that were judged.
inline constexpr const char* readings_kept = "readings";
inline constexpr const char* readings_as_judged = "as judged";
inline constexpr const char* readings_changed =
    "changed: U and the words are those of the readings as judged";

}  // namespace hailwright
