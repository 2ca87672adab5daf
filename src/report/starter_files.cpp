#include "hailwright/report/starter_files.hpp"

#include <algorithm>
#include <array>

#include "hailwright/input/table_templates.hpp"
#include "hailwright/report/render.hpp"
#include "report/starter_texts.hpp"

namespace hailwright {

namespace {

constexpr std::array kinds{
    StarterKind{"control-panel",
                "25 mm and 35 mm balls, an unstruck panel measured beside the struck one", true,
                true, true},
    StarterKind{"same-panel", "25 mm and 35 mm balls, the struck panel compared with itself before",
                false, true, true},
    StarterKind{"sibling-panel",
                "25 mm and 35 mm balls, nothing measured before: the struck panel compared with "
                "unstruck units of its model",
                false, true, true, true},
    StarterKind{"one-series", "25 mm balls alone, beside an unstruck panel", true, true, false},
    StarterKind{"looks-only", "25 mm and 35 mm balls, nothing measured: judged by looks", false,
                false, true},
};

/// The tables that a kind of test fills in.
std::vector<TableTemplate> tables_of(const StarterKind& kind) {
  std::vector<TableTemplate> tables = table_templates();
  if (!kind.power)
    std::erase_if(tables, [](const auto& table) { return table.name == "readings"; });
  return tables;
}

std::string csv_of(const TableTemplate& table) {
  Table header;
  for (std::string& cell : new_header(table))
    header.columns.push_back({std::move(cell), Align::left});
  return render_csv(header);
}

std::string_view wanted(const TableColumn& column) {
  if (column.required) return "needed";
  return column.in_new > 0 ? "" : "may be added";
}

/// What every column holds.
Sheet explanation(const std::vector<TableTemplate>& tables) {
  Sheet sheet{
      "how to", {{12.0}, {16.0}, {14.0}, {90.0}}, {{"table", "column", "", "what it holds"}}};
  for (const TableTemplate& table : tables) {
    sheet.rows.push_back({std::string(table.name), "", "", std::string(table.holds)});
    for (const TableColumn& column : table.columns) {
      std::string means(column.means);
      if (column.from_above) means += "; blank: as in the row above";
      sheet.rows.push_back(
          {std::string(table.name), column.header, std::string(wanted(column)), std::move(means)});
    }
  }
  for (const char* rule :
       {"Fill in the sheets and save each of them as CSV in UTF-8, under its own name: shots.csv.",
        "The first row is the header. Units stand in it; the cells hold numbers alone. Another "
        "unit "
        "of docs/units.md may be written there.",
        "A blank cell means not known, or as in the row above where that is said.",
        "Columns may be moved or left out, but for those needed; other names are not read."})
    sheet.rows.push_back({"", "", "", rule});
  return sheet;
}

CellFormat format_of(CellsHold hold) {
  if (hold == CellsHold::words) return CellFormat::words;
  return hold == CellsHold::time ? CellFormat::time : CellFormat::general;
}

Sheet sheet_of(const TableTemplate& table) {
  const std::vector<std::string> header = new_header(table);
  Sheet sheet{std::string(table.name), {}, {{header.begin(), header.end()}}};
  constexpr double narrow = 13.0;
  constexpr double wide = 40.0;
  for (const TableColumn& column : table.columns) {
    const bool remark = column.header == "note" || column.header == "skip";
    const SheetColumn made{remark ? wide : narrow, format_of(column.hold)};
    sheet.columns.insert(sheet.columns.end(), static_cast<std::size_t>(column.in_new), made);
  }
  return sheet;
}

}  // namespace

std::span<const StarterKind> starter_kinds() {
  return kinds;
}

const StarterKind* find_starter_kind(std::string_view name) {
  const auto found = std::find_if(kinds.begin(), kinds.end(),
                                  [&](const StarterKind& kind) { return kind.name == name; });
  return found == kinds.end() ? nullptr : &*found;
}

std::vector<StarterFile> starter_files(const StarterKind& kind) {
  std::vector<StarterFile> files{
      {"protocol.yaml", detail::protocol_start(kind), "what will be done, and what will be damage"},
      {"panels/panel-a.yaml", detail::panel_start(), "what the maker says about the panel"},
      {"record.yaml", detail::record_start(kind), "one panel, one test"}};
  for (const TableTemplate& table : tables_of(kind)) {
    files.push_back({std::string(table.name) + ".csv", csv_of(table), std::string(table.holds)});
  }
  return files;
}

Workbook starter_tables(const StarterKind& kind) {
  const std::vector<TableTemplate> tables = tables_of(kind);
  Workbook book{"Tables of a hail test", {explanation(tables)}};
  for (const TableTemplate& table : tables)
    book.sheets.push_back(sheet_of(table));
  return book;
}

}  // namespace hailwright
