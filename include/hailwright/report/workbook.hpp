#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace hailwright {

/// How the cells of a column below the first row are kept when something is typed into them.
enum class CellFormat {
  general,  ///< as the spreadsheet program likes
  words,    ///< as typed: "1-2" becomes no date, "8 x 12" stays
  time      ///< hours and minutes
};

struct SheetColumn {
  double width = 12.0;  ///< in characters
  CellFormat format = CellFormat::general;
};

/// A formula that follows what a reader changes. Functions of the 2007 format alone: later ones
/// need a prefix that not every program knows.
struct Formula {
  std::string text;  ///< "=B2*C2"
  /// What it gives as the workbook is written: many programs show this and do not reckon anew.
  std::variant<double, std::string> value;
};

/// Words are never taken for a formula, a number or a link; numbers are finite.
struct SheetCell {
  SheetCell(std::string words) : content(std::move(words)) {}
  SheetCell(const char* words) : content(std::string(words)) {}
  SheetCell(double number, int shown = 2) : content(number), decimals(shown) {}
  SheetCell(Formula formula, int shown = 2) : content(std::move(formula)), decimals(shown) {}

  std::variant<std::string, double, Formula> content;
  int decimals = 2;        ///< of a number, as shown
  bool per_cent = false;   ///< a share shown as per cent, with `decimals` after that
  bool to_change = false;  ///< marked as one that the reader may change
  bool heading = false;    ///< bold
};

/// A sheet; its first row is the header, which stays in sight.
struct Sheet {
  std::string name;  ///< 1 to 31 characters, none of [ ] : * ? / \, each once in a workbook
  std::vector<SheetColumn> columns;
  std::vector<std::vector<SheetCell>> rows;  ///< none longer than `columns`
};

struct Workbook {
  std::string title;
  std::vector<Sheet> sheets;  ///< at least one
  std::string created = {};   ///< day, ISO 8601; empty: a fixed one
};

/// Writes a workbook as a spreadsheet (Office Open XML). The library that does it can only write
/// files: to the one named, and to temporary ones in `folder`; nothing else here touches any. Words
/// stay words, whatever they begin with: only a `Formula` becomes a formula, and nothing a link.
/// Control characters come out as '?'. The same workbook gives the same bytes.
/// @param path    of a file, overwritten
/// @param folder  where the library may keep temporary files
/// @return what the library complained of (it does so on standard error too); nothing when the file
/// is written
/// Words above the 32 767 characters that a cell takes are cut, and the cell says so.
/// Contract: the names and sizes that `Sheet` states; no formula above 8192 characters; finite
/// numbers.
std::optional<std::string> write_xlsx(const Workbook& workbook, const std::string& path,
                                      const std::string& folder);

}  // namespace hailwright
