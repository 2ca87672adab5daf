#include "hailwright/input/table_templates.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>

#include "input/table.hpp"
#include "input/table_rules.hpp"
#include "input/table_setups.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using Cells = std::vector<std::string>;

namespace {

const TableTemplate& named(const std::vector<TableTemplate>& tables, std::string_view name) {
  const auto found = std::find_if(tables.begin(), tables.end(),
                                  [&](const TableTemplate& t) { return t.name == name; });
  REQUIRE(found != tables.end());
  return *found;
}

std::string joined(const Cells& cells) {
  std::string line;
  for (const std::string& cell : cells)
    line += (line.empty() ? "" : ",") + cell;
  return line + "\n";
}

Cells every_header(const TableTemplate& table) {
  Cells cells;
  for (const TableColumn& column : table.columns)
    cells.push_back(column.header);
  return cells;
}

/// What the reader of a table says of a text.
Diagnostics read(std::string_view name, const std::string& text) {
  Diagnostics notes;
  const TableSource source{1, 1, 1, text};
  const TableLabels labels{"A", "C", {}, {}, true};
  std::vector<Setup> setups;
  if (name == "balls") read_balls(source, notes);
  if (name == "trials") read_trials(source, notes);
  if (name == "shots") read_shots(source, Protocol{}, Panel{}, labels, notes);
  if (name == "readings")
    read_readings(source, Protocol{}, labels, "2026-06-14", setups, {}, notes);
  return notes;
}

std::string page() {
  std::ifstream file(std::string(HAILWRIGHT_SOURCE_DIR) + "/docs/tables.md", std::ios::binary);
  REQUIRE(file);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The words in ` ` at the beginning of the rows of the first table under a heading.
std::set<std::string> columns_in_page(std::string_view heading) {
  const std::string text = page();
  const std::size_t section = text.find("\n## " + std::string(heading) + "\n");
  REQUIRE(section != std::string::npos);
  const std::size_t begin = text.find("\n| column |", section);
  const std::size_t end = text.find("\n\n", begin);
  std::set<std::string> names;
  for (std::size_t row = text.find("\n| `", begin); row < end; row = text.find("\n| `", row + 1)) {
    const std::string cell = text.substr(row + 3, text.find('|', row + 3) - row - 3);
    for (std::size_t open = cell.find('`'); open != std::string::npos;) {
      const std::size_t close = cell.find('`', open + 1);
      names.insert(cell.substr(open + 1, close - open - 1));
      open = cell.find('`', close + 1);
    }
  }
  return names;
}

}  // namespace

TEST_CASE("table_templates: the four tables with the headers of new ones") {
  const auto tables = table_templates();
  REQUIRE(tables.size() == 4);
  CHECK(new_header(named(tables, "balls")) ==
        Cells{"kind", "count", "together g", "diameter mm", "diameter mm", "diameter mm", "note"});
  CHECK(new_header(named(tables, "trials")) == Cells{"setting", "frames", "landed", "note"});
  CHECK(new_header(named(tables, "shots")) ==
        Cells{"panel", "series", "place", "landed", "out s", "note"});
  CHECK(new_header(named(tables, "readings")) == Cells{"setup", "panel", "time", "round", "power W",
                                                       "sun W/m2", "temp degC", "battery %",
                                                       "skip"});
}

TEST_CASE("table_templates: the readers take the new headers, and all columns at once") {
  for (const TableTemplate& table : table_templates()) {
    for (const Cells& header : {new_header(table), every_header(table)}) {
      const Diagnostics notes = read(table.name, joined(header));
      CAPTURE(table.name, joined(header), input_files::seen(notes));
      CHECK(notes.empty());
    }
  }
}

TEST_CASE("table_templates: the readers refuse a table without a required column") {
  for (const TableTemplate& table : table_templates()) {
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      Cells header = every_header(table);
      header.erase(header.begin() + static_cast<std::ptrdiff_t>(i));
      const Diagnostics notes = read(table.name, joined(header));
      CAPTURE(table.name, table.columns[i].header, input_files::seen(notes));
      CHECK(notes.has_errors() == table.columns[i].required);
    }
  }
}

TEST_CASE("table_templates: every column says what it holds, and docs/tables.md has it") {
  for (const TableTemplate& table : table_templates()) {
    CAPTURE(table.name);
    std::set<std::string> names;
    for (const TableColumn& column : table.columns) {
      CAPTURE(column.header);
      CHECK_FALSE(column.means.empty());
      CHECK((column.in_new > 0 || !column.required));
      names.insert(column.header.substr(0, column.header.find(' ')));
    }
    // The page says in a sentence that trials may have a column that tells nothing.
    if (table.name == "trials") names.erase("panel");
    CHECK(columns_in_page(table.name) == names);
  }
}

TEST_CASE("table_templates: what is typed into the cells") {
  const auto tables = table_templates();
  for (const TableColumn& column : named(tables, "readings").columns) {
    CAPTURE(column.header);
    if (column.header == "time") CHECK(column.hold == CellsHold::time);
    if (column.header == "power W") CHECK(column.hold == CellsHold::numbers);
    if (column.header == "setup") CHECK(column.hold == CellsHold::words);
    if (column.header == "skip") CHECK(column.hold == CellsHold::words);
    CHECK(column.from_above == (column.header == "setup" || column.header == "panel"));
  }
  int times = 0;
  for (const TableColumn& column : named(tables, "shots").columns) {
    CAPTURE(column.header);
    if (column.header == "time ms") CHECK(column.hold == CellsHold::numbers);
    if (column.header == "time") CHECK(column.hold == CellsHold::time);
    times += column.header.starts_with("time") ? 1 : 0;
  }
  CHECK(times == 2);
}
