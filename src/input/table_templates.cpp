#include "hailwright/input/table_templates.hpp"

#include "input/table_rules.hpp"

namespace hailwright {

namespace {

CellsHold hold_of(const input::ColumnRule& rule) {
  switch (rule.holds) {
  case input::Holds::text:
  case input::Holds::landing:
    return CellsHold::words;
  case input::Holds::clock:
    return CellsHold::time;
  case input::Holds::count:
  case input::Holds::number:
  case input::Holds::quantity:
    return CellsHold::numbers;
  }
  return CellsHold::words;
}

TableTemplate template_of(std::string_view name, std::string_view holds,
                          const std::vector<input::ColumnRule>& rules) {
  TableTemplate table{name, holds, {}};
  for (const input::ColumnRule& rule : rules) {
    TableColumn column;
    column.header = input::header_of(rule);
    column.means = rule.means;
    column.hold = hold_of(rule);
    column.required = rule.required;
    column.from_above = rule.from_above;
    column.in_new = rule.in_new;
    table.columns.push_back(std::move(column));
  }
  return table;
}

}  // namespace

std::vector<TableTemplate> table_templates() {
  return {
      template_of("balls", "kinds of ball, or single balls: what they weigh and measure",
                  input::ball_columns()),
      template_of("trials", "measured shots at the dummy, one row a shot", input::trial_columns()),
      template_of("shots",
                  "every throw at the panel in the order thrown, misses and broken balls too",
                  input::shot_columns()),
      template_of("readings", "one row a reading of one panel", input::reading_columns(true))};
}

std::vector<std::string> new_header(const TableTemplate& table) {
  std::vector<std::string> cells;
  for (const TableColumn& column : table.columns)
    cells.insert(cells.end(), static_cast<std::size_t>(column.in_new), column.header);
  return cells;
}

}  // namespace hailwright
