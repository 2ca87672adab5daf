#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/evaluate/line_up.hpp"
#include "hailwright/report/data_table.hpp"
#include "hailwright/report/document.hpp"
#include "hailwright/report/workbook.hpp"

namespace hailwright {

/// Columns of a line-up, each chosen by its word: "power", "price-per-watt".
struct LineUpColumn {
  std::string_view word;
  std::string_view title;
  std::string_view about;  ///< what it holds, in a line
};
/// All there are, in the order in which they stand.
std::vector<LineUpColumn> line_up_columns();
/// Those shown when nobody chose.
std::vector<std::string> usual_line_up_columns();

/// Words of what can be ordered by, for --sort: "loss", "power", ...
std::string_view word(LineUpQuantity quantity);

/// What is shown of a line-up.
struct LineUpView {
  std::string title;
  const std::vector<LineUpEntry>* entries = nullptr;
  const LineUp* line_up = nullptr;
  std::vector<std::string> columns;  ///< words of `line_up_columns`
};

/// Groups in order, ranks as ranges, what was shown to differ, what is not ranked and why,
/// cautions. Of a group of more than `line_up_rows_shown` its top and bottom.
Document compose_line_up(const LineUpView& view);
inline constexpr std::size_t line_up_rows_shown = 40;

/// Every entry with all columns, and every difference that was looked at.
std::vector<DataTable> line_up_tables(const LineUpView& view);
/// The same for machines; its form is docs/schemas/line-up.schema.json.
std::string line_up_json(const LineUpView& view);

/// Pictures of a line-up: the number ordered by with its interval and rank range, and which pairs
/// were shown to differ. One of each a group; large groups as the document shows them.
std::vector<Figure> line_up_pictures(const LineUpView& view);

/// Sheets with live prices: a changed price, rated power or measured power changes its columns.
Workbook line_up_workbook(const LineUpView& view);

}  // namespace hailwright
