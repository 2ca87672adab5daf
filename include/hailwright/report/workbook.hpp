#pragma once

#include <optional>
#include <string>
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

/// A sheet of texts; its first row is the header, which stays in sight.
struct Sheet {
  std::string name;  ///< 1 to 31 characters, none of [ ] : * ? / \, each once in a workbook
  std::vector<SheetColumn> columns;
  std::vector<std::vector<std::string>> rows;  ///< none longer than `columns`
};

struct Workbook {
  std::string title;
  std::vector<Sheet> sheets;  ///< at least one
};

/// Writes a workbook as a spreadsheet (Office Open XML). The library that does it can only write
/// files: to the one named, and to temporary ones in `folder`; nothing else here touches any. Every
/// cell is text, whatever it begins with: none becomes a formula, a link or a number. Control
/// characters come out as '?'. The same workbook gives the same bytes.
/// @param path    of a file in `folder`, overwritten
/// @param folder  where the library may keep temporary files
/// @return what the library complained of (it does so on standard error too); nothing when the file
/// is written
/// Contract: the names and sizes that `Sheet` states; no cell above 32 767 characters.
std::optional<std::string> write_xlsx(const Workbook& workbook, const std::string& path,
                                      const std::string& folder);

}  // namespace hailwright
