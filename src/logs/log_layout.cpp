// Which line is the header, and what divides its cells. A header is the line of words directly
// above rows that have as many cells and hold numbers; what stands above it does not matter.
#include "logs/log_layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/quoted.hpp"
#include "logs/log_parser_cells.hpp"
#include "logs/log_parser_slow.hpp"

namespace hailwright::detail {

namespace {

constexpr std::array separators{',', ';', '\t'};
// A line is a row when most of the lines after it are built like it; so many are looked at. [ours]
constexpr std::size_t compared_rows = 10;
// So many lines are searched for the header. [ours]
constexpr std::size_t searched_lines = 200;
// Names, units, and a line that says how each value was made ("Avg", "Smp").
constexpr std::size_t most_header_lines = 3;

/// A line of the beginning as one separator divides it.
struct Divided {
  HeadRow row;
  std::vector<CellKind> kinds;

  [[nodiscard]] std::size_t size() const { return kinds.size(); }
  [[nodiscard]] bool has_values() const {
    return std::any_of(kinds.begin(), kinds.end(), [](CellKind kind) {
      return kind != CellKind::words && kind != CellKind::blank;
    });
  }
  /// A row for sure; a stamp alone may say when a log was exported.
  [[nodiscard]] bool tells_time_and_number() const {
    return size() > 1 && kinds.front() == CellKind::stamp &&
           std::any_of(kinds.begin(), kinds.end(), [](CellKind kind) {
             return kind == CellKind::number || kind == CellKind::comma_number;
           });
  }
  [[nodiscard]] std::size_t words() const {
    return static_cast<std::size_t>(std::count(kinds.begin(), kinds.end(), CellKind::words));
  }
};

CellKind without_mark(CellKind kind) {
  return kind == CellKind::comma_number ? CellKind::number : kind;
}

/// Most cells hold the same kind of thing; a blank goes with everything.
bool alike(const Divided& a, const Divided& b) {
  if (a.size() != b.size()) return false;
  std::size_t same = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const bool blank = a.kinds[i] == CellKind::blank || b.kinds[i] == CellKind::blank;
    if (blank || without_mark(a.kinds[i]) == without_mark(b.kinds[i])) ++same;
  }
  return 2 * same > a.size();
}

/// The lines of a beginning by one separator, and where in them the header is.
class Division {
public:
  Division(const std::vector<HeadLine>& lines, char separator);

  [[nodiscard]] bool found() const { return header_ != none; }
  [[nodiscard]] char separator() const { return separator_; }
  /// Share of the lines below the header that are divided as it is.
  [[nodiscard]] double agreement() const;
  [[nodiscard]] LogLayout layout(const std::vector<HeadLine>& all) const;
  /// Names above the first row, of another number than it has cells; for a message.
  struct Misfit {
    HeadRow names;
    std::size_t cells = 0;
    bool last_blank = false;  ///< the row's last cell
  };
  [[nodiscard]] std::optional<Misfit> misfit() const;
  /// Directly above the first row, with quotes that do not fit.
  struct Torn {
    HeadLine line;
    LineFault fault;
  };
  [[nodiscard]] std::optional<Torn> torn() const;
  [[nodiscard]] std::optional<HeadLine> bare_row() const;
  /// Of a log that has its headers in this line; none as a rule.
  [[nodiscard]] std::optional<HeadLine> row_above(int header_line) const;

private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  [[nodiscard]] bool begins_rows(std::size_t at) const;
  [[nodiscard]] bool is_odd_row(std::size_t at) const;
  [[nodiscard]] bool names_columns(std::size_t at, std::size_t cells) const;
  [[nodiscard]] bool gives_units(std::size_t at) const;
  [[nodiscard]] bool repeats_a_word(std::size_t at) const;
  void find_header();
  void choose_header(std::size_t first_row);

  char separator_;
  std::vector<Divided> lines_;
  std::size_t header_ = none;
  std::size_t units_ = none;
  std::size_t first_row_ = none;
};

Division::Division(const std::vector<HeadLine>& lines, char separator) : separator_(separator) {
  for (const HeadLine& line : lines) {
    if (lines_.size() == searched_lines) break;
    Divided divided{{line, cells_of(line.text, separator)}, {}};
    for (const HeadCell& cell : divided.row.cells)
      divided.kinds.push_back(kind_of(cell.text));
    lines_.push_back(std::move(divided));
  }
  find_header();
}

/// True of a line with values that most of the next lines are like.
bool Division::begins_rows(std::size_t at) const {
  const Divided& row = lines_[at];
  if (row.size() < 2 || !row.has_values()) return false;
  const std::size_t end = std::min(lines_.size(), at + 1 + compared_rows);
  std::size_t like = 0;
  for (std::size_t i = at + 1; i < end; ++i) {
    if (alike(row, lines_[i])) ++like;
  }
  return 2 * like >= end - at - 1;
}

bool Division::names_columns(std::size_t at, std::size_t cells) const {
  const Divided& line = lines_[at];
  return line.size() == cells && !line.has_values() && line.words() > 0;
}

/// Units below names: "V" and "A" alone may be names, below a line about the logger.
bool Division::gives_units(std::size_t at) const {
  const std::vector<HeadCell>& cells = lines_[at].row.cells;
  const std::vector<CellKind>& above = lines_[at - 1].kinds;
  const auto is_unit = [](const HeadCell& cell) {
    std::string_view text = cell.text;
    if (text.size() >= 2 && (text.front() == '[' || text.front() == '('))
      text = text.substr(1, text.size() - 2);
    return is_logger_unit(text);
  };
  std::size_t units = 0;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (!is_unit(cells[i])) continue;
    if (above[i] == CellKind::blank) return false;
    ++units;
  }
  return units > 0;
}

/// "ERR,ERR" is a row that the logger could not fill, not a header.
bool Division::repeats_a_word(std::size_t at) const {
  std::vector<std::string> words;
  for (const HeadCell& cell : lines_[at].row.cells) {
    if (!cell.text.empty()) words.push_back(cell.text);
  }
  std::sort(words.begin(), words.end());
  return std::adjacent_find(words.begin(), words.end()) != words.end();
}

void Division::find_header() {
  for (std::size_t row = 1; row < lines_.size() && header_ == none; ++row) {
    if (!begins_rows(row)) continue;
    std::size_t first = row;
    while (first > 1 && is_odd_row(first - 1))
      --first;
    if (names_columns(first - 1, lines_[row].size())) choose_header(first);
  }
}

/// A row that is not built like those below it: cut at its beginning, or written before the
/// instruments were ready.
bool Division::is_odd_row(std::size_t at) const {
  const Divided& line = lines_[at];
  return line.size() == 0 || line.has_values();
}

/// Of the lines of words above the first row: the names stand above the units, if there are any.
void Division::choose_header(std::size_t first_row) {
  const std::size_t cells = lines_[first_row].size();
  first_row_ = first_row;
  while (first_row_ > 1 && repeats_a_word(first_row_ - 1) && names_columns(first_row_ - 2, cells))
    --first_row_;
  header_ = first_row_ - 1;
  for (std::size_t up = 1; up < most_header_lines && up < first_row_; ++up) {
    const std::size_t at = first_row_ - up;
    if (!names_columns(at, cells) || !names_columns(at - 1, cells)) return;
    if (!gives_units(at)) continue;
    units_ = at;
    header_ = at - 1;
    return;
  }
}

double Division::agreement() const {
  const auto same =
      std::count_if(lines_.begin() + static_cast<std::ptrdiff_t>(first_row_), lines_.end(),
                    [&](const Divided& line) { return line.size() == lines_[header_].size(); });
  return static_cast<double>(same) / static_cast<double>(lines_.size() - first_row_);
}

LogLayout Division::layout(const std::vector<HeadLine>& all) const {
  LogLayout layout;
  layout.separator = separator_;
  const HeadRow& header = lines_[header_].row;
  layout.header_line = header.line;
  layout.first_row_line = lines_[first_row_ - 1].row.line.number + 1;
  layout.header_cells = header.cells;
  for (std::size_t i = 0; i < header.cells.size(); ++i) {
    const std::string_view below =
        units_ == none ? std::string_view() : std::string_view(lines_[units_].row.cells[i].text);
    layout.headers.push_back(read_log_header(header.cells[i].text, below));
  }
  for (std::size_t i = first_row_; i < all.size(); ++i) {
    HeadRow row{all[i], cells_of(all[i].text, separator_)};
    if (row.cells.size() == header.cells.size()) layout.rows.push_back(std::move(row));
  }
  return layout;
}

std::optional<Division::Misfit> Division::misfit() const {
  for (std::size_t row = 1; row < lines_.size(); ++row) {
    const Divided& above = lines_[row - 1];
    if (above.size() < 2 || above.has_values() || above.words() < 2 || !begins_rows(row)) continue;
    return Misfit{above.row, lines_[row].size(), lines_[row].kinds.back() == CellKind::blank};
  }
  return std::nullopt;
}

std::optional<Division::Torn> Division::torn() const {
  std::vector<LineCell> cells;
  for (std::size_t row = 1; row < lines_.size(); ++row) {
    if (!begins_rows(row)) continue;
    const HeadLine& above = lines_[row - 1].row.line;
    if (const auto fault = cut_into_cells(above.text, separator_, cells))
      return Torn{above, *fault};
  }
  return std::nullopt;
}

std::optional<HeadLine> Division::bare_row() const {
  for (std::size_t row = 0; row < lines_.size(); ++row) {
    if (begins_rows(row)) return lines_[row].row.line;
  }
  return std::nullopt;
}

std::optional<HeadLine> Division::row_above(int header_line) const {
  for (const Divided& line : lines_) {
    if (line.row.line.number >= header_line) break;
    if (line.tells_time_and_number()) return line.row.line;
  }
  return std::nullopt;
}

const HeadLine whole_file{};

std::vector<std::string> mends_of(const Division::Misfit& misfit, char separator) {
  const std::size_t names = misfit.names.cells.size();
  if (misfit.cells == names + 1 && misfit.last_blank)
    return {"the rows end with a separator, the headers do not: end them with one, too"};
  std::vector<std::string> mends{"give every column of the rows a header, and no other"};
  if (separator == ',' && misfit.cells > names)
    mends.emplace_back("a number with a decimal comma becomes two cells: export the log with "
                       "points, or with ; between the cells");
  return mends;
}

/// Tells what is wrong with a line above rows; false when nothing is.
bool report_header(const Division& division, HeadNotes& notes) {
  if (const auto torn = division.torn()) {
    notes.error("L16", torn->line, {{}, torn->fault.offset, torn->fault.length},
                torn->fault.message, {torn->fault.hint});
    return true;
  }
  const auto misfit = division.misfit();
  if (!misfit) return false;
  notes.error(
      "L02", misfit->names.line,
      fmt::format("{} headers above rows of {} cells", misfit->names.cells.size(), misfit->cells),
      mends_of(*misfit, division.separator()));
  return true;
}

void report_no_header(const std::vector<HeadLine>& lines, const std::vector<Division>& divisions,
                      HeadNotes& notes) {
  if (std::any_of(divisions.begin(), divisions.end(),
                  [&](const Division& division) { return report_header(division, notes); }))
    return;
  for (const Division& division : divisions) {
    if (const auto row = division.bare_row()) {
      notes.error("L02", *row, "rows without a line of headers above them",
                  {"write a line above the first row that names each column, as in  "
                   "time,power W,irradiance W/m2"});
      return;
    }
  }
  // Of a longer line so much is looked at.
  if (lines.size() == 1 && lines.front().text.size() >= longest_line) {
    notes.error("L17", lines.front(),
                fmt::format("this line is longer than {} KiB", longest_line >> 10U),
                {"a row of a log is a line: is a line break missing?"});
    return;
  }
  if (lines.size() == 1) {
    notes.error("L02", lines.front(), "the log has this line alone, and no rows below it",
                {"see whether the file was copied whole"});
    return;
  }
  notes.error("L02", whole_file, "no line of headers with rows of numbers below it",
              {"cells are divided by commas, semicolons or tabs; a header has as many of them as "
               "the rows below it"});
}

/// The division that most lines agree with; nullptr when two do equally well.
const Division* best_of(const std::vector<Division>& divisions) {
  const Division* best = nullptr;
  bool tie = false;
  for (const Division& division : divisions) {
    if (!division.found()) continue;
    if (best == nullptr || division.agreement() > best->agreement()) {
      best = &division;
      tie = false;
    } else if (division.agreement() == best->agreement()) {
      tie = true;
    }
  }
  return tie ? nullptr : best;
}

/// What stands above the headers is not read: rows must not get lost there.
bool report_row_above(const std::vector<Division>& divisions, const LogLayout& layout,
                      HeadNotes& notes) {
  for (const Division& division : divisions) {
    const auto row = division.row_above(layout.header_line.number);
    if (!row) continue;
    notes
        .error("L02", *row, "this row stands above the line of headers",
               {"split the file there, or delete the rows above the headers"})
        .related.push_back({notes.span(layout.header_line, {{}, 0, layout.header_line.text.size()}),
                            "the headers"});
    return true;
  }
  return false;
}

std::optional<char> mixed_decimals(const HeadRow& point_row, const HeadCell& point,
                                   const HeadRow& comma_row, const HeadCell& comma,
                                   HeadNotes& notes) {
  const bool comma_later = comma_row.line.number >= point_row.line.number;
  const auto& [later_row, later] =
      comma_later ? std::pair(comma_row, comma) : std::pair(point_row, point);
  const auto& [row, cell] = comma_later ? std::pair(point_row, point) : std::pair(comma_row, comma);
  notes
      .error(
          "L07", later_row.line, later,
          fmt::format("{} has another decimal mark than the numbers above", quoted(later.text)),
          {"export the log with one decimal mark, or state which one to read: --decimal point, or "
           "in a record or column map  decimal: point"})
      .related.push_back({notes.span(row.line, cell), "the other mark stands here"});
  return std::nullopt;
}

/// "1,234" is one and a bit or a thousand and more.
bool could_be_grouped(std::string_view number) {
  const std::size_t mark = number.find(',');
  const std::size_t first = number.find_first_not_of("+-");
  return mark != std::string_view::npos && number.size() - mark - 1 == 3 && mark > first &&
         mark - first <= 3 && number[first] != '0';
}

/// A separator that was stated and does not fit, where another one would.
bool report_other_separator(const std::vector<HeadLine>& lines, char stated, HeadNotes& notes) {
  std::vector<Division> others;
  for (const char each : separators) {
    if (each != stated) others.emplace_back(lines, each);
  }
  const Division* best = best_of(others);
  if (best == nullptr) return false;
  notes.error("L02", best->layout(lines).header_line,
              fmt::format("{} is stated to divide the cells; here it is {}", separator_word(stated),
                          separator_word(best->separator())),
              {fmt::format("state it: --separator {0}, or in a record or column map  separator: "
                           "{0}; or leave it out",
                           separator_word(best->separator()))});
  return true;
}

}  // namespace

std::string_view decimal_word(char decimal) {
  return decimal == ',' ? "comma" : "point";
}

std::string_view date_order_word(DateOrder order) {
  switch (order) {
  case DateOrder::year_first:
    return "year first";
  case DateOrder::day_first:
    return "day first";
  case DateOrder::month_first:
    break;
  }
  return "month first";
}

std::string_view separator_word(char separator) {
  return separator == ',' ? "comma" : separator == ';' ? "semicolon" : "tab";
}

std::optional<LogLayout> find_layout(std::string_view beginning, std::optional<char> separator,
                                     HeadNotes& notes) {
  const std::vector<HeadLine> lines = lines_of(beginning);
  if (lines.empty()) {
    notes.error("L02", whole_file, "the log has no rows",
                {"see whether this is the right file, and whether it was copied whole"});
    return std::nullopt;
  }
  std::vector<Division> divisions;
  for (const char each : separators) {
    if (!separator || each == *separator) divisions.emplace_back(lines, each);
  }
  if (const Division* best = best_of(divisions)) {
    LogLayout layout = best->layout(lines);
    if (report_row_above(divisions, layout, notes)) return std::nullopt;
    return layout;
  }
  const auto found = std::find_if(divisions.begin(), divisions.end(),
                                  [](const Division& division) { return division.found(); });
  if (found == divisions.end()) {
    if (separator && report_other_separator(lines, *separator, notes)) return std::nullopt;
    report_no_header(lines, divisions, notes);
  } else {
    notes.error("L02", found->layout(lines).header_line,
                "cells could be divided by more than one character",
                {"state which one: --separator semicolon, or in a record or column map  separator: "
                 "semicolon; comma and tab are the others"});
  }
  return std::nullopt;
}

std::optional<char> find_decimal(const LogLayout& layout, const std::vector<std::size_t>& columns,
                                 std::optional<char> stated, HeadNotes& notes) {
  if (stated) return stated;
  const HeadRow* point_row = nullptr;
  const HeadRow* comma_row = nullptr;
  std::size_t point = 0;
  std::size_t comma = 0;
  bool grouped = true;
  for (const HeadRow& row : layout.rows) {
    for (const std::size_t column : columns) {
      const std::string& text = row.cells[column].text;
      const CellKind kind = kind_of(text);
      if (kind == CellKind::comma_number) {
        grouped = grouped && could_be_grouped(text);
        if (comma_row == nullptr) std::tie(comma_row, comma) = std::tuple(&row, column);
      } else if (kind == CellKind::number && text.find('.') != std::string::npos) {
        if (point_row == nullptr) std::tie(point_row, point) = std::tuple(&row, column);
      }
    }
  }
  if (comma_row == nullptr) return '.';
  const HeadCell& cell = comma_row->cells[comma];
  if (point_row != nullptr)
    return mixed_decimals(*point_row, point_row->cells[point], *comma_row, cell, notes);
  if (layout.separator != ',' && !grouped) return ',';
  notes.error(
      "L07", comma_row->line, cell,
      layout.separator == ','
          ? fmt::format("{} has a decimal comma, and commas divide the cells", quoted(cell.text))
          : fmt::format("{}: the comma could be a decimal mark or divide thousands",
                        quoted(cell.text)),
      {layout.separator == ','
           ? "state the decimal mark: --decimal comma, or in a record or column map  decimal: comma"
           : "state the decimal mark: --decimal comma, or in a record or column map  decimal: "
             "comma; a log with marks between thousands must be exported without them"});
  return std::nullopt;
}

}  // namespace hailwright::detail
