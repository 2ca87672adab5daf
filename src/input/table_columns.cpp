#include "input/table_columns.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

std::string shown(std::string_view text) {
  constexpr std::size_t longest = 60;
  if (text.size() <= longest) return fmt::format("\"{}\"", text);
  std::size_t end = longest;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U)
    --end;
  return fmt::format("\"{}...\"", text.substr(0, end));
}

SourceSpan place_in(const Cell& cell, const TextProblem& problem) {
  SourceSpan where = cell.origin;
  if (cell.quoted || problem.length == 0) return where;
  where.column += static_cast<int>(problem.offset);
  where.length = std::max(1, static_cast<int>(problem.length));
  return where;
}

namespace {

/// Equal but for capital letters.
bool same_letters(std::string_view a, std::string_view b) {
  const auto lower = [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return lower(x) == lower(y); });
}

}  // namespace

std::vector<std::string> word_hints(std::string_view word, const std::vector<std::string>& known) {
  constexpr std::size_t most_listed = 20;
  // One letter of two is no likeness: place "9" is not place "1".
  constexpr std::size_t shortest = 3;
  const auto near = nearest_word(word, known);
  if (near && (word.size() >= shortest || same_letters(word, *near))) {
    return {fmt::format("did you mean \"{}\"?", *near)};
  }
  std::string list;
  for (std::size_t i = 0; i < known.size() && i < most_listed; ++i)
    list += (i == 0 ? "" : ", ") + known[i];
  if (known.size() > most_listed) list += ", ...";
  return {"one of: " + list};
}

namespace {

bool holds_unit(const ColumnRule& rule) {
  return rule.holds == Holds::quantity;
}

const Unit* unit_of_another_measure(std::string_view symbol) {
  for (const Unit& unit : units()) {
    if (unit.symbol == symbol) return &unit;
  }
  return nullptr;
}

std::string units_of(Measure measure) {
  std::string list;
  for (const Unit& unit : units()) {
    if (unit.measure == measure) list += (list.empty() ? "" : ", ") + std::string(unit.symbol);
  }
  return list;
}

}  // namespace

std::string header_of(const ColumnRule& rule) {
  return holds_unit(rule) ? fmt::format("{} {}", rule.word(), rule.unit) : std::string(rule.word());
}

Sheet::Sheet(const TableSource& source, std::vector<ColumnRule> rules, Diagnostics& notes)
    : rules_(std::move(rules)), by_rule_(rules_.size()) {
  auto table = read_cells(source, notes);
  if (!table) return;
  table_ = std::move(*table);
  read_header(notes);
  if (!usable_) return;
  fill_from_above();
  find_decimal_mark(notes);
}

void Sheet::read_header(Diagnostics& notes) {
  MessageLimit limit(notes);
  usable_ = true;
  // A column whose header cell is wrong is not missing too.
  std::vector<bool> meant(rules_.size());
  for (std::size_t i = 0; i < table_.header.size(); ++i) {
    const Cell& cell = table_.header[i];
    if (limit.reached(cell.origin, notes)) {
      usable_ = false;
      return;
    }
    const auto column = read_header_cell(cell, notes);
    if (!column) {
      usable_ = false;
      columns_.emplace_back();
      if (const auto rule = rule_meant(cell.text)) meant[*rule] = true;
      continue;
    }
    columns_.push_back(*column);
    std::vector<std::size_t>& places = by_rule_[column->rule];
    if (!places.empty() && !rules_[column->rule].repeats) {
      notes
          .error("T07", cell.origin,
                 fmt::format("column {} is given twice", shown(rules_[column->rule].word())))
          .related.push_back({columns_[places.front()].origin, "first given here"});
      usable_ = false;
    }
    places.push_back(i);
  }
  for (std::size_t r = 0; r < rules_.size(); ++r) {
    if (!rules_[r].required || !by_rule_[r].empty()) continue;
    usable_ = false;
    if (meant[r]) continue;
    notes.error("T08", table_.origin, fmt::format("column \"{}\" is missing", rules_[r].name),
                {fmt::format("the header needs a cell  {}", header_of(rules_[r]))});
  }
}

std::optional<std::size_t> Sheet::rule_meant(std::string_view header_cell) const {
  const std::string_view word = header_cell.substr(0, header_cell.find(' '));
  const std::vector<std::string> known = known_words();
  const auto near = nearest_word(word, known);
  if (!near) return std::nullopt;
  return static_cast<std::size_t>(std::find(known.begin(), known.end(), *near) - known.begin());
}

std::vector<std::string> Sheet::known_words() const {
  std::vector<std::string> known;
  for (const ColumnRule& rule : rules_)
    known.emplace_back(rule.word());
  return known;
}

std::optional<std::size_t> Sheet::rule_of(std::string_view word, bool has_unit) const {
  std::optional<std::size_t> found;
  for (std::size_t r = 0; r < rules_.size(); ++r) {
    if (rules_[r].word() != word) continue;
    if (!found || holds_unit(rules_[r]) == has_unit) found = r;
  }
  return found;
}

std::optional<Sheet::Column> Sheet::read_header_cell(const Cell& cell, Diagnostics& notes) const {
  if (cell.text.empty()) {
    notes.error("T06", cell.origin, "column has no name",
                {"name the column in the header, or take it out"});
    return std::nullopt;
  }
  const std::size_t blank = cell.text.find(' ');
  const std::string_view name = cell.text.substr(0, blank);
  std::string_view unit;
  if (blank != std::string_view::npos) {
    unit = cell.text.substr(cell.text.find_first_not_of(' ', blank));
  }
  if (const auto rule = rule_of(name, !unit.empty())) {
    Column column{*rule, nullptr, cell.origin};
    if (!read_header_unit(cell, unit, column, notes)) return std::nullopt;
    return column;
  }
  std::vector<std::string> hints = word_hints(name, known_words());
  if (cell.text.find('|') != std::string_view::npos) {
    hints.emplace_back("cells are separated by commas, semicolons or tabs");
  }
  notes.error("T06", cell.origin, fmt::format("unknown column {}", shown(cell.text)),
              std::move(hints));
  return std::nullopt;
}

bool Sheet::read_header_unit(const Cell& cell, std::string_view unit, Column& column,
                             Diagnostics& notes) const {
  const ColumnRule& rule = rules_[column.rule];
  SourceSpan where = cell.origin;
  if (!unit.empty() && !cell.quoted) {
    where.column +=
        static_cast<int>(count_characters(cell.text.substr(0, cell.text.size() - unit.size())));
    where.length = std::max(1, static_cast<int>(count_characters(unit)));
  }
  if (!holds_unit(rule)) {
    if (unit.empty()) return true;
    notes.error("T11", where, fmt::format("column \"{}\" takes no unit", rule.name),
                {fmt::format("write  {}", rule.name)});
    return false;
  }
  if (unit.empty()) {
    notes.error("T09", where, fmt::format("column \"{}\" has no unit", rule.name),
                {fmt::format("write  {}", header_of(rule))});
    return false;
  }
  column.unit = find_unit(unit, rule.measure);
  if (column.unit != nullptr) return true;
  if (unit.size() > 2 && (unit.front() == '(' || unit.front() == '[') &&
      find_unit(unit.substr(1, unit.size() - 2), rule.measure) != nullptr) {
    notes.error("T10", where, fmt::format("unit {} stands in brackets", shown(unit)),
                {fmt::format("write  {} {}", rule.name, unit.substr(1, unit.size() - 2))});
    return false;
  }
  const Unit* other = unit_of_another_measure(unit);
  const std::string what =
      other == nullptr ? fmt::format("unknown unit {}", shown(unit))
                       : fmt::format("{} is the unit of {}, column \"{}\" needs {}", shown(unit),
                                     name(other->measure), rule.name, name(rule.measure));
  notes.error("T10", where, what,
              {fmt::format("units of this column: {}", units_of(rule.measure))});
  return false;
}

void Sheet::fill_from_above() {
  for (std::size_t r = 0; r < rules_.size(); ++r) {
    if (!rules_[r].from_above || by_rule_[r].empty()) continue;
    const std::size_t place = by_rule_[r].front();
    std::string_view above;
    for (CellRow& row : table_.rows) {
      Cell& cell = row.cells[place];
      if (cell.text.empty()) cell.text = above;
      above = cell.text;
    }
  }
}

void Sheet::find_decimal_mark(Diagnostics& notes) {
  // Where the comma separates, it cannot be a decimal mark as well.
  if (table_.separator == ',') return;
  const Cell* first = nullptr;
  char mark = '.';
  for (const CellRow& row : table_.rows) {
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const Cell& cell = row.cells[i];
      if (rules_[columns_[i].rule].holds == Holds::text) continue;
      const bool point = cell.text.find('.') != std::string_view::npos;
      const bool comma = cell.text.find(',') != std::string_view::npos;
      if (point == comma) continue;
      const char found = point ? '.' : ',';
      if (first == nullptr) {
        first = &cell;
        mark = found;
      } else if (found != mark && !mixed_) {
        mixed_ = true;
        notes
            .error("T13", cell.origin,
                   fmt::format("mixed decimal marks: \"{}\" here, \"{}\" before", found, mark),
                   {"use one decimal mark in all of the table"})
            .related.push_back({first->origin, "the other mark, first used here"});
      }
    }
  }
  decimal_ = mark;
}

std::size_t Sheet::rule_index(std::string_view column) const {
  for (std::size_t r = 0; r < rules_.size(); ++r) {
    if (rules_[r].name == column) return r;
  }
  fail_contract("a column that the table's rules do not name");
}

bool Sheet::has(std::string_view column) const {
  return !by_rule_[rule_index(column)].empty();
}

const Cell* Sheet::cell(const CellRow& row, std::string_view column) const {
  const std::vector<std::size_t>& places = by_rule_[rule_index(column)];
  if (places.empty()) return nullptr;
  const Cell& cell = row.cells[places.front()];
  return cell.text.empty() ? nullptr : &cell;
}

const Cell* Sheet::required_cell(const CellRow& row, std::string_view column,
                                 Diagnostics& notes) const {
  const Cell* found = cell(row, column);
  if (found != nullptr) return found;
  const std::size_t rule = rule_index(column);
  if (by_rule_[rule].empty()) return nullptr;
  const Cell& blank = row.cells[by_rule_[rule].front()];
  if (rules_[rule].from_above) {
    notes.error("T12", blank.origin,
                fmt::format("\"{}\" has no value, and no row above has one", column),
                {"a blank cell of this column means: as in the row above"});
  } else {
    notes.error("T12", blank.origin, fmt::format("\"{}\" has no value", column));
  }
  return nullptr;
}

std::string Sheet::text(const CellRow& row, std::string_view column) const {
  const Cell* found = cell(row, column);
  return found == nullptr ? std::string() : std::string(found->text);
}

TextResult<Amount> Sheet::number(std::string_view text) const {
  // After "mixed decimal marks" is said, each number is read in its own, to find other mistakes.
  const bool comma = mixed_ ? text.find(',') != std::string_view::npos : decimal_ == ',';
  return read_number(text, comma ? ',' : '.');
}

std::optional<double> Sheet::value_of(const Cell& cell, const Column& column, const Limits& limits,
                                      Diagnostics& notes) const {
  const ColumnRule& rule = rules_[column.rule];
  const TextResult<Amount> read = number(cell.text);
  if (!read.value) {
    std::vector<std::string> hints = read.problem->hints;
    if (table_.separator == ',' && cell.text.find(',') != std::string_view::npos) {
      hints.assign({"where the comma separates, the point is the decimal mark",
                    "separate the cells with semicolons to use decimal commas"});
    } else if (column.unit != nullptr && cell.text.find(' ') != std::string_view::npos) {
      hints.assign({fmt::format("the unit stands in the header ({}): write the number alone",
                                column.unit->symbol)});
    }
    notes.error(read.problem->code, place_in(cell, *read.problem),
                fmt::format("{}: {}", rule.name, read.problem->message), std::move(hints));
    return std::nullopt;
  }
  double si = read.value->si;
  if (column.unit != nullptr) si = si * column.unit->factor + column.unit->offset;
  // Room for the rounding of a unit's factor at the ends, nothing more.
  const double room = 1e-12 * std::max(std::abs(limits.low), std::abs(limits.high));
  const bool nothing = limits.above && limits.low == 0.0 && si < least_share_of_range * limits.high;
  const bool low_enough = limits.above ? si > limits.low && !nothing : si >= limits.low - room;
  if (low_enough && si <= limits.high + room) return si;
  const std::string unit = column.unit == nullptr ? "" : fmt::format(" {}", column.unit->symbol);
  notes.error("T14", cell.origin,
              fmt::format("{} of {}{} is out of range", rule.name, cell.text, unit),
              {fmt::format("this column takes values {}", limits.words)});
  return std::nullopt;
}

std::optional<double> Sheet::value(const CellRow& row, std::string_view column,
                                   const Limits& limits, Diagnostics& notes) const {
  const Cell* found = cell(row, column);
  if (found == nullptr) return std::nullopt;
  return value_of(*found, columns_[by_rule_[rule_index(column)].front()], limits, notes);
}

std::optional<double> Sheet::typed_step(const CellRow& row, std::string_view column) const {
  const Cell* found = cell(row, column);
  if (found == nullptr) return std::nullopt;
  const TextResult<Amount> read = number(found->text);
  if (!read.value) return std::nullopt;
  const Unit* unit = columns_[by_rule_[rule_index(column)].front()].unit;
  return read.value->step_si * (unit == nullptr ? 1.0 : unit->factor);
}

std::vector<double> Sheet::values(const CellRow& row, std::string_view column, const Limits& limits,
                                  Diagnostics& notes) const {
  std::vector<double> out;
  for (const std::size_t place : by_rule_[rule_index(column)]) {
    const Cell& cell = row.cells[place];
    if (cell.text.empty()) continue;
    if (const auto si = value_of(cell, columns_[place], limits, notes)) out.push_back(*si);
  }
  return out;
}

std::optional<int> Sheet::count(const CellRow& row, std::string_view column, int low, int high,
                                Diagnostics& notes) const {
  const Cell* found = cell(row, column);
  if (found == nullptr) return std::nullopt;
  const TextResult<int> read = read_count(found->text);
  if (!read.value) {
    notes.error(read.problem->code, place_in(*found, *read.problem),
                fmt::format("{}: {}", column, read.problem->message), read.problem->hints);
    return std::nullopt;
  }
  if (*read.value >= low && *read.value <= high) return read.value;
  notes.error("T14", found->origin, fmt::format("{} of {} is out of range", column, found->text),
              {fmt::format("this column takes whole numbers from {} to {}", low, high)});
  return std::nullopt;
}

}  // namespace hailwright::input
