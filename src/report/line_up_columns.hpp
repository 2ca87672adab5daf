#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/report/data_table.hpp"
#include "hailwright/report/line_up.hpp"

namespace hailwright::detail {

/// A record in a table of a line-up.
struct LineUpRow {
  const LineUpEntry* entry = nullptr;
  std::optional<LineUpRank> rank;  ///< none: not ranked
};

/// The columns of these words, and for machines what people have in a sentence: whole, each column
/// there whether a record has something for it or not.
/// Contract: words of `line_up_columns`.
DataTable line_up_data(const std::vector<LineUpRow>& rows, const std::vector<std::string>& words);

/// The same for people: a column a series where all rows have the same series, currencies in the
/// titles where there is one, and in words what a record lacks. Columns of which nothing is known
/// are left out.
Table line_up_table(const std::vector<LineUpRow>& rows, const std::vector<std::string>& words);

/// Titles of columns of which no row knows anything, so that the table leaves them out.
std::vector<std::string> line_up_unknown(const std::vector<LineUpRow>& rows,
                                         const std::vector<std::string>& words);

/// The columns table by table: up to so many stand in one; of more, those of the panel stand in a
/// second one, which begins with rank and record again.
std::vector<std::vector<std::string>> line_up_split(const std::vector<std::string>& words);
inline constexpr std::size_t most_in_one_table = 6;

/// "withstood IEC 61215 25 mm (11 of 11 places); damaged IEC 61215 35 mm (4 of 5 places)".
std::string verdict_text(const LineUpEntry& entry);

/// A finite number, or nothing.
DataCell finite_cell(double number);

/// "95 %": the level of all losses, or nothing where it differs.
std::string common_level(const std::vector<LineUpRow>& rows);

}  // namespace hailwright::detail
