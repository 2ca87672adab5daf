// The door to libxlsxwriter.
#include <xlsxwriter.h>

#include <algorithm>
#include <cmath>
#include <compare>
#include <cstdint>
#include <map>
#include <new>
#include <string_view>

#include "hailwright/core/calendar.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/report/workbook.hpp"
#include "report/text_layout.hpp"

namespace hailwright {

namespace {

/// The format's own limits. Source: libxlsxwriter 1.1.4, common.h: LXW_SHEETNAME_MAX, and the text
/// of LXW_ERROR_MAX_STRING_LENGTH_EXCEEDED (32,767 characters); of a formula 8192 characters (from
/// memory).
constexpr std::size_t longest_name = 31;
constexpr std::size_t longest_cell = 32'767;
constexpr std::size_t longest_formula = 8'192;
constexpr int most_decimals = 30;

/// 1980-01-01, the first day that an entry of a zip archive can have: the library gives every
/// entry this day, and the workbook the day of its making unless told another.
constexpr time_t fixed_date = 315'532'800;

/// The built-in number format "@", text. Source: ECMA-376 part 1, 18.8.30 numFmt (from memory).
constexpr std::uint8_t text_format = 49;

/// Ground and border of a cell that the reader may change: seen in greyscale too. [ours]
constexpr lxw_color_t ground_to_change = 0xFFF4C2;
constexpr lxw_color_t border_to_change = 0x7A6A1F;

/// The library takes its texts as writable, and changes none of them.
char* lent(std::string& text) {
  return text.data();
}

void check_formula(const Formula& formula) {
  expects(formula.text.size() > 1 && formula.text.size() <= longest_formula &&
              formula.text.front() == '=',
          "a formula that a spreadsheet takes");
  if (const auto* number = std::get_if<double>(&formula.value))
    expects(std::isfinite(*number), "a finite number");
}

void check_cell(const SheetCell& cell) {
  expects(cell.decimals >= 0 && cell.decimals <= most_decimals, "decimals that can be shown");
  if (const auto* number = std::get_if<double>(&cell.content))
    expects(std::isfinite(*number), "a finite number");
  if (const auto* formula = std::get_if<Formula>(&cell.content)) check_formula(*formula);
}

void check_sheet(const Sheet& sheet) {
  const std::size_t length = count_characters(sheet.name);
  expects(length >= 1 && length <= longest_name, "a sheet's name of 1 to 31 characters");
  expects(sheet.name.find_first_of("[]:*?/\\") == std::string::npos,
          "a sheet's name that a spreadsheet takes");
  expects(!sheet.columns.empty(), "a sheet with columns");
  for (const auto& row : sheet.rows) {
    expects(row.size() <= sheet.columns.size(), "no more cells than columns");
    for (const SheetCell& cell : row)
      check_cell(cell);
  }
}

/// How cells look, each look made once.
class Looks {
public:
  explicit Looks(lxw_workbook* book) : book_(book) {}

  lxw_format* header(bool of_numbers) {
    return made({of_numbers ? Kind::number_header : Kind::header, 0, false, false, true});
  }

  lxw_format* of(const SheetCell& cell) {
    const bool words = std::holds_alternative<std::string>(cell.content);
    const auto* formula = std::get_if<Formula>(&cell.content);
    const bool gives_words =
        formula != nullptr && std::holds_alternative<std::string>(formula->value);
    if (words || gives_words)
      return made(
          {words ? Kind::words : Kind::found_words, 0, false, cell.to_change, cell.heading});
    return made({Kind::number, cell.decimals, cell.per_cent, cell.to_change, cell.heading});
  }

private:
  enum class Kind { header, number_header, words, found_words, number };
  struct Look {
    Kind kind;
    int decimals;
    bool per_cent, to_change, bold;
    // NOLINTNEXTLINE(readability-implicit-bool-conversion): the compiler's own comparison
    friend auto operator<=>(const Look&, const Look&) = default;
  };

  static std::string number_format(const Look& look) {
    std::string text = "0";
    if (look.decimals > 0) text += "." + std::string(static_cast<std::size_t>(look.decimals), '0');
    return text + (look.per_cent ? "%" : "") + "_ ";  // a blank after it, not against its unit
  }

  lxw_format* made(const Look& look) {
    const auto [known, is_new] = looks_.try_emplace(look, nullptr);
    if (!is_new) return known->second;
    lxw_format* format = workbook_add_format(book_);
    if (look.bold) format_set_bold(format);
    if (look.kind == Kind::number) {
      format_set_num_format(format, number_format(look).c_str());
    } else if (look.kind != Kind::found_words) {
      format_set_num_format_index(format, text_format);
    }
    format_set_align(format, LXW_ALIGN_VERTICAL_TOP);
    if (look.kind != Kind::number) format_set_text_wrap(format);
    if (look.kind == Kind::number_header) format_set_align(format, LXW_ALIGN_RIGHT);
    if (look.to_change) {
      format_set_bg_color(format, ground_to_change);
      format_set_border(format, LXW_BORDER_THIN);
      format_set_border_color(format, border_to_change);
    }
    return known->second = format;
  }

  lxw_workbook* book_;
  std::map<Look, lxw_format*> looks_;
};

lxw_format* column_format(lxw_workbook* book, CellFormat format) {
  if (format == CellFormat::general) return nullptr;
  lxw_format* made = workbook_add_format(book);
  if (format == CellFormat::words) format_set_num_format_index(made, text_format);
  if (format == CellFormat::time) format_set_num_format(made, "hh:mm");
  return made;
}

/// Where a cell stands, counted from 0.
struct CellSpot {
  lxw_row_t row;
  lxw_col_t column;
};

/// Whether a spreadsheet would read "_x0041_", a character by its number, at the start of a text.
bool is_coded_character(std::string_view text) {
  constexpr std::size_t length = 7;
  if (text.size() < length || !text.starts_with("_x") || text[length - 1] != '_') return false;
  return text.substr(2, 4).find_first_not_of("0123456789abcdefABCDEF") == std::string_view::npos;
}

/// The words that a cell has room for; a mark says where they were cut. Room is counted in units of
/// UTF-16, of which a character takes one or two.
std::string fitted(std::string text) {
  constexpr std::string_view mark = " [cut here: a cell has no room for more]";
  std::size_t units = 0;
  std::size_t cut = 0;
  for (std::size_t at = 0; at < text.size();) {
    const detail::Character c = detail::character_at(text, at);
    if (units <= longest_cell - mark.size()) cut = at;
    units += c.code > 0xFFFFU ? 2 : 1;
    at += c.length;
  }
  if (units <= longest_cell) return text;
  text.resize(cut);
  return text.append(mark);
}

/// Words as a cell stores them, so that they are read as they are. Source: ECMA-376 part 1,
/// 22.9.2.19 ST_Xstring (from memory).
std::string stored(const std::string& words) {
  const std::string text = detail::printable(words, detail::Breaks::kept);
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (is_coded_character(std::string_view(text).substr(i))) {
      out += "_x005F_";
    } else {
      out += text[i];
    }
  }
  return fitted(std::move(out));
}

lxw_error write_words(lxw_worksheet* sheet, CellSpot at, const std::string& words, lxw_format* look,
                      bool to_change) {
  const std::string text = stored(words);
  if (!text.empty()) return worksheet_write_string(sheet, at.row, at.column, text.c_str(), look);
  return to_change ? worksheet_write_blank(sheet, at.row, at.column, look) : LXW_NO_ERROR;
}

lxw_error write_formula(lxw_worksheet* sheet, CellSpot at, const Formula& formula,
                        lxw_format* look) {
  if (const auto* number = std::get_if<double>(&formula.value)) {
    return worksheet_write_formula_num(sheet, at.row, at.column, formula.text.c_str(), look,
                                       *number);
  }
  const std::string text = stored(std::get<std::string>(formula.value));
  return worksheet_write_formula_str(sheet, at.row, at.column, formula.text.c_str(), look,
                                     text.c_str());
}

lxw_error write_cell(lxw_worksheet* sheet, CellSpot at, const SheetCell& cell, lxw_format* look) {
  if (const auto* words = std::get_if<std::string>(&cell.content))
    return write_words(sheet, at, *words, look, cell.to_change);
  if (const auto* number = std::get_if<double>(&cell.content))
    return worksheet_write_number(sheet, at.row, at.column, *number, look);
  return write_formula(sheet, at, std::get<Formula>(cell.content), look);
}

/// On paper: as wide as the sheet where that stays legible, else the first column on each page; the
/// header on each page.
void set_paper(lxw_worksheet* sheet, const Sheet& content) {
  constexpr double legible = 230.0;  // characters across a page on its side [ours]
  constexpr std::uint16_t smallest_per_cent = 60;
  double width = 0.0;
  for (const SheetColumn& column : content.columns)
    width += column.width;
  worksheet_set_landscape(sheet);
  if (width <= legible) {
    worksheet_fit_to_pages(sheet, 1, 0);
  } else {
    worksheet_set_print_scale(sheet, smallest_per_cent);
    worksheet_repeat_columns(sheet, 0, 0);
  }
  worksheet_repeat_rows(sheet, 0, 0);
}

/// Lines that words take in a column, wrapped.
std::size_t lines_of(const std::string& words, double width) {
  constexpr double wider_letters = 0.9;  // bold, or another font than the one columns are meant for
  const int columns = std::max(1, static_cast<int>(width * wider_letters));
  const bool fits = words.size() <= static_cast<std::size_t>(columns);
  if (fits && words.find('\n') == std::string::npos) return 1;
  std::size_t lines = 0;
  for (std::size_t start = 0; start <= words.size();) {
    const std::size_t end = std::min(words.find('\n', start), words.size());
    const Runs line = plain(words.substr(start, end - start));
    lines += std::max<std::size_t>(1, detail::wrap(line, columns).size());
    start = end + 1;
  }
  return lines;
}

/// Programs that open a workbook do not all make rows as high as their words.
void set_height(lxw_worksheet* sheet, const Sheet& content, std::size_t row) {
  constexpr double line_points = 15.0;   // of the library's default row
  constexpr double most_points = 409.0;  // of the format (from memory)
  std::size_t lines = 1;
  for (std::size_t c = 0; c < content.rows[row].size(); ++c) {
    const auto* words = std::get_if<std::string>(&content.rows[row][c].content);
    if (words != nullptr) lines = std::max(lines, lines_of(*words, content.columns[c].width));
  }
  if (lines == 1) return;
  const double points = std::min(most_points, line_points * static_cast<double>(lines));
  worksheet_set_row(sheet, static_cast<lxw_row_t>(row), points, nullptr);
}

bool is_number(const SheetCell& cell) {
  const auto* formula = std::get_if<Formula>(&cell.content);
  return std::holds_alternative<double>(cell.content) ||
         (formula != nullptr && std::holds_alternative<double>(formula->value));
}

bool is_empty(const SheetCell& cell) {
  const auto* words = std::get_if<std::string>(&cell.content);
  return words != nullptr && words->empty();
}

/// Whether there are numbers below the header of a column, and nothing else.
bool holds_numbers(const Sheet& content, std::size_t column) {
  bool any = false;
  for (std::size_t r = 1; r < content.rows.size(); ++r) {
    if (column >= content.rows[r].size() || is_empty(content.rows[r][column])) continue;
    if (!is_number(content.rows[r][column])) return false;
    any = true;
  }
  return any;
}

lxw_error write_row(lxw_worksheet* sheet, const Sheet& content, std::size_t row, Looks& looks) {
  for (std::size_t c = 0; c < content.rows[row].size(); ++c) {
    const SheetCell& cell = content.rows[row][c];
    lxw_format* look = row == 0 ? looks.header(holds_numbers(content, c)) : looks.of(cell);
    const CellSpot at{static_cast<lxw_row_t>(row), static_cast<lxw_col_t>(c)};
    const lxw_error error = write_cell(sheet, at, cell, look);
    if (error != LXW_NO_ERROR) return error;
  }
  return LXW_NO_ERROR;
}

lxw_error fill(lxw_workbook* book, const Sheet& content, Looks& looks) {
  lxw_worksheet* sheet = workbook_add_worksheet(book, content.name.c_str());
  expects(sheet != nullptr, "sheets with names of their own");
  for (std::size_t c = 0; c < content.columns.size(); ++c) {
    const auto column = static_cast<lxw_col_t>(c);
    worksheet_set_column(sheet, column, column, content.columns[c].width,
                         column_format(book, content.columns[c].format));
  }
  worksheet_freeze_panes(sheet, 1, 0);
  set_paper(sheet, content);
  for (std::size_t r = 0; r < content.rows.size(); ++r) {
    set_height(sheet, content, r);
    const lxw_error error = write_row(sheet, content, r, looks);
    if (error != LXW_NO_ERROR) return error;
  }
  return LXW_NO_ERROR;
}

/// Midnight of the day on which the workbook counts as made.
time_t date_of(const std::string& created) {
  constexpr time_t seconds_in_day = 86'400;
  const auto day = day_number(created);
  return day ? static_cast<time_t>(*day) * seconds_in_day : fixed_date;
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
  if (book == nullptr) throw std::bad_alloc();
  std::string title = workbook.title;
  lxw_doc_properties properties{};
  properties.title = lent(title);
  properties.created = date_of(workbook.created);
  workbook_set_properties(book, &properties);
  Looks looks(book);
  lxw_error error = LXW_NO_ERROR;
  for (const Sheet& sheet : workbook.sheets) {
    if (error == LXW_NO_ERROR) error = fill(book, sheet, looks);
  }
  // Also after an error: only this frees the workbook.
  const lxw_error closing = workbook_close(book);
  if (error == LXW_NO_ERROR) error = closing;
  if (error == LXW_NO_ERROR) return std::nullopt;
  if (error == LXW_ERROR_MEMORY_MALLOC_FAILED) throw std::bad_alloc();
  return std::string(lxw_strerror(error));
}

}  // namespace hailwright
