// The door to libxlsxwriter.
#include <xlsxwriter.h>

#include <cstdint>
#include <string_view>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/report/workbook.hpp"
#include "report/text_layout.hpp"

namespace hailwright {

namespace {

/// The format's own limits. Source: libxlsxwriter 1.1.4, common.h: LXW_SHEETNAME_MAX, and the text
/// of LXW_ERROR_MAX_STRING_LENGTH_EXCEEDED (32,767 characters).
constexpr std::size_t longest_name = 31;
constexpr std::size_t longest_cell = 32'767;

/// 1980-01-01, the first day that an entry of a zip archive can have: the library gives every
/// entry this day, and the workbook the day of its making unless told another.
constexpr time_t fixed_date = 315'532'800;

/// The built-in number format "@", text. Source: ECMA-376 part 1, 18.8.30 numFmt (from memory).
constexpr std::uint8_t text_format = 49;

/// The library takes its texts as writable, and changes none of them.
char* lent(std::string& text) {
  return text.data();
}

void check_sheet(const Sheet& sheet) {
  const std::size_t length = count_characters(sheet.name);
  expects(length >= 1 && length <= longest_name, "a sheet's name of 1 to 31 characters");
  expects(sheet.name.find_first_of("[]:*?/\\") == std::string::npos,
          "a sheet's name that a spreadsheet takes");
  expects(!sheet.columns.empty(), "a sheet with columns");
  for (const auto& row : sheet.rows) {
    expects(row.size() <= sheet.columns.size(), "no more cells than columns");
    for (const std::string& cell : row)
      expects(count_characters(cell) <= longest_cell, "a cell that a spreadsheet takes");
  }
}

lxw_format* column_format(lxw_workbook* book, CellFormat format) {
  if (format == CellFormat::general) return nullptr;
  lxw_format* made = workbook_add_format(book);
  if (format == CellFormat::words) format_set_num_format_index(made, text_format);
  if (format == CellFormat::time) format_set_num_format(made, "hh:mm");
  return made;
}

lxw_error fill(lxw_workbook* book, const Sheet& content, lxw_format* header, lxw_format* wrapped) {
  lxw_worksheet* sheet = workbook_add_worksheet(book, content.name.c_str());
  expects(sheet != nullptr, "sheets with names of their own");
  for (std::size_t c = 0; c < content.columns.size(); ++c) {
    const auto column = static_cast<lxw_col_t>(c);
    worksheet_set_column(sheet, column, column, content.columns[c].width,
                         column_format(book, content.columns[c].format));
  }
  worksheet_freeze_panes(sheet, 1, 0);
  for (std::size_t r = 0; r < content.rows.size(); ++r) {
    for (std::size_t c = 0; c < content.rows[r].size(); ++c) {
      const std::string text = detail::printable(content.rows[r][c], detail::Breaks::kept);
      if (text.empty()) continue;
      const lxw_error error =
          worksheet_write_string(sheet, static_cast<lxw_row_t>(r), static_cast<lxw_col_t>(c),
                                 text.c_str(), r == 0 ? header : wrapped);
      if (error != LXW_NO_ERROR) return error;
    }
  }
  return LXW_NO_ERROR;
}

}  // namespace

std::optional<std::string> write_xlsx(const Workbook& workbook, const std::string& path,
                                      const std::string& folder) {
  expects(!workbook.sheets.empty(), "a workbook with a sheet");
  for (const Sheet& sheet : workbook.sheets)
    check_sheet(sheet);
  std::string temporary = folder;
  lxw_workbook_options options{};
  options.tmpdir = lent(temporary);
  lxw_workbook* book = workbook_new_opt(path.c_str(), &options);
  if (book == nullptr) return "there is no memory left";
  std::string title = workbook.title;
  lxw_doc_properties properties{};
  properties.title = lent(title);
  properties.created = fixed_date;
  workbook_set_properties(book, &properties);
  lxw_format* header = workbook_add_format(book);
  format_set_bold(header);
  format_set_num_format_index(header, text_format);
  lxw_format* wrapped = workbook_add_format(book);
  format_set_text_wrap(wrapped);
  format_set_align(wrapped, LXW_ALIGN_VERTICAL_TOP);
  format_set_num_format_index(wrapped, text_format);
  lxw_error error = LXW_NO_ERROR;
  for (const Sheet& sheet : workbook.sheets) {
    if (error == LXW_NO_ERROR) error = fill(book, sheet, header, wrapped);
  }
  // Also after an error: only this frees the workbook.
  const lxw_error closing = workbook_close(book);
  if (error == LXW_NO_ERROR) error = closing;
  if (error == LXW_NO_ERROR) return std::nullopt;
  return std::string(lxw_strerror(error));
}

}  // namespace hailwright
