// From the text of a table to its cells, and nothing about what they mean.
//
// Codes of the messages about tables (all of src/input/table_*.cpp):
//   T01 table, row or cell too large          T02 too many messages about one table
//   T03 table without a header                T04 quotes that do not close, or stand in a cell
//   T05 wrong number of cells in a row        T06 unknown or nameless column
//   T07 column given twice                    T08 column missing
//   T09 column without its unit               T10 unit unknown, or of another kind of quantity
//   T11 unit where none is due                T12 cell has no value
//   T13 mixed decimal marks                   T14 value out of range
//   T15 two cells say the same thing twice    T16 word not understood (landed, skip)
//   T17 unknown series                        T18 unknown place
//   T19 hit outside the panel                 T20 position that cannot be placed
//   T21 frames without video                  T22 density that ice cannot have (warning)
//   T23 panel label in no row                 T24 shot at the control
//   T25 name of a set-up not understood       T26 time not understood
//   T27 time going backwards                  T28 set-ups that overlap
//   T29 set-ups too close (warning)           T30 set-up that lacks a panel
//   T31 listed set-up without readings, or a later one without a date (warning)
//   T32 rounds                                T33 set-up or look on the wrong side of the shots
// Bytes that are not text (Y01 to Y03) are the business of input/text_filter.

#include "input/table_cells.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "hailwright/input/readers.hpp"

namespace hailwright::input {

bool MessageLimit::reached(SourceSpan where, Diagnostics& notes) {
  if (told_) return true;
  if (notes.items().size() - start_ < most_messages) return false;
  notes.error(
      "T02", where,
      fmt::format("more than {} messages about this table; it is not read further", most_messages));
  told_ = true;
  return true;
}

namespace {

int characters(std::string_view text) {
  return static_cast<int>(count_characters(text));
}

/// The cells of one line.
class LineSplitter {
public:
  LineSplitter(std::string_view line, SourceSpan start, char separator,
               std::deque<std::string>& unquoted, Diagnostics& notes)
      : line_(line), start_(start), separator_(separator), unquoted_(unquoted), notes_(notes),
        column_(start.column) {}

  /// nullopt when the line cannot be split; the reason is reported.
  std::optional<std::vector<Cell>> split() {
    std::vector<Cell> cells;
    while (true) {
      if (cells.size() == most_columns) {
        notes_.error("T01", here(1), fmt::format("more than {} cells in one line", most_columns));
        return std::nullopt;
      }
      cells.push_back(next());
      if (cells.back().origin.length > longest_cell) {
        notes_.error("T01", cells.back().origin,
                     fmt::format("cell of {} characters; {} are read", cells.back().origin.length,
                                 longest_cell));
        return std::nullopt;
      }
      if (at_ >= line_.size()) break;
      advance(1);  // the separator
    }
    if (broken_) return std::nullopt;
    return cells;
  }

private:
  [[nodiscard]] SourceSpan here(int length) const {
    return {start_.file, start_.line, column_, length};
  }

  void advance(std::size_t bytes) {
    column_ += characters(line_.substr(at_, bytes));
    at_ += bytes;
  }

  [[nodiscard]] bool is_blank(char c) const { return c != separator_ && (c == ' ' || c == '\t'); }

  void skip_blanks() {
    std::size_t end = at_;
    while (end < line_.size() && is_blank(line_[end]))
      ++end;
    advance(end - at_);
  }

  Cell next() {
    const SourceSpan begin = here(1);
    skip_blanks();
    if (at_ >= line_.size() || line_[at_] == separator_) return {{}, begin, false};
    return line_[at_] == '"' ? quoted() : bare();
  }

  Cell bare() {
    const std::size_t end = std::min(line_.find(separator_, at_), line_.size());
    std::string_view text = line_.substr(at_, end - at_);
    while (!text.empty() && is_blank(text.back()))
      text.remove_suffix(1);
    const Cell cell{text, here(std::max(1, characters(text))), false};
    const std::size_t quote = text.find('"');
    if (quote != std::string_view::npos) {
      SourceSpan where = cell.origin;
      where.column += characters(text.substr(0, quote));
      where.length = 1;
      notes_.error("T04", where, "quote inside a cell that does not begin with one",
                   {"put the whole cell in quotes and double the quotes inside: \"a \"\"b\"\" c\"",
                    "or leave the quote out"});
      broken_ = true;
    }
    advance(end - at_);
    return cell;
  }

  Cell quoted() {
    const SourceSpan open = here(1);
    std::size_t end = at_ + 1;
    bool doubled = false;
    while (true) {
      end = line_.find('"', end);
      if (end == std::string_view::npos) return unclosed(open);
      if (end + 1 >= line_.size() || line_[end + 1] != '"') break;
      doubled = true;
      end += 2;
    }
    std::string_view text = line_.substr(at_ + 1, end - at_ - 1);
    Cell cell{doubled ? undouble(text) : text, open, true};
    cell.origin.length = characters(line_.substr(at_, end + 1 - at_));
    advance(end + 1 - at_);
    skip_blanks();
    if (at_ < line_.size() && line_[at_] != separator_) {
      notes_.error("T04", here(1), "text after the closing quote of a cell",
                   {"a quote inside a quoted cell is written twice: \"a \"\"b\"\" c\""});
      broken_ = true;
      advance(std::min(line_.find(separator_, at_), line_.size()) - at_);
    }
    return cell;
  }

  Cell unclosed(SourceSpan open) {
    notes_.error("T04", open, "quote is not closed in its line",
                 {"a cell cannot hold a line break: close the quote, or write the text in one "
                  "line"});
    broken_ = true;
    advance(line_.size() - at_);
    return {{}, open, true};
  }

  std::string_view undouble(std::string_view text) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
      plain += text[i];
      if (text[i] == '"') ++i;
    }
    return unquoted_.emplace_back(std::move(plain));
  }

  std::string_view line_;
  SourceSpan start_;
  char separator_;
  std::deque<std::string>& unquoted_;
  Diagnostics& notes_;
  std::size_t at_ = 0;
  int column_;
  bool broken_ = false;
};

/// The separator that the header line uses most outside quotes; comma when it uses none.
char find_separator(std::string_view header) {
  constexpr std::array<char, 3> known{',', ';', '\t'};
  std::array<std::size_t, known.size()> count{};
  bool quoted = false;
  for (const char c : header) {
    if (c == '"') quoted = !quoted;
    for (std::size_t i = 0; i < known.size() && !quoted; ++i) {
      if (c == known[i]) ++count[i];
    }
  }
  return known[static_cast<std::size_t>(std::max_element(count.begin(), count.end()) -
                                        count.begin())];
}

/// A line to be read: not empty, not a comment.
bool holds_cells(std::string_view line) {
  const std::size_t first = line.find_first_not_of(" \t");
  return first != std::string_view::npos && line[first] != '#';
}

std::string_view separator_name(char separator) {
  if (separator == ';') return "semicolon";
  return separator == '\t' ? "tab" : "comma";
}

class TableSplitter {
public:
  TableSplitter(const TableSource& source, Diagnostics& notes)
      : source_(source), notes_(notes), limit_(notes) {}

  std::optional<CellTable> split() {
    if (!may_be_read()) return std::nullopt;
    std::string_view rest = source_.text;
    if (rest.substr(0, 3) == "\xEF\xBB\xBF") rest.remove_prefix(3);
    for (int line_number = source_.first_line; !rest.empty(); ++line_number) {
      const std::size_t end = std::min(rest.find('\n'), rest.size());
      std::string_view line = rest.substr(0, end);
      rest.remove_prefix(std::min(end + 1, rest.size()));
      if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
      const SourceSpan start{source_.file, line_number, source_.first_column, 1};
      if (limit_.reached(start, notes_)) break;
      if (!holds_cells(line)) continue;
      if (!has_header_) {
        if (!take_header(line, start)) return std::nullopt;
      } else if (!take_row(line, start)) {
        break;
      }
    }
    if (has_header_) return std::move(table_);
    notes_.error("T03", {source_.file, source_.first_line, source_.first_column, 1},
                 "table has no header",
                 {"the first line names the columns, as in  setting,frames"});
    return std::nullopt;
  }

private:
  bool may_be_read() {
    const SourceSpan whole{source_.file, source_.first_line, source_.first_column, 1};
    const std::string_view text = source_.text;
    if (text.size() > largest_table) {
      notes_.error(
          "T01", whole,
          fmt::format("table of {} bytes; {} MiB are read", text.size(), largest_table >> 20U));
      return false;
    }
    return true;
  }

  std::optional<std::vector<Cell>> cells_of(std::string_view line, SourceSpan start) {
    return LineSplitter(line, start, table_.separator, table_.unquoted, notes_).split();
  }

  bool take_header(std::string_view line, SourceSpan start) {
    table_.separator = find_separator(line);
    table_.origin = start;
    table_.origin.length = std::max(1, characters(line));
    auto cells = cells_of(line, start);
    if (!cells) return false;
    while (cells->size() > 1 && cells->back().text.empty())
      cells->pop_back();
    table_.header = std::move(*cells);
    has_header_ = true;
    return true;
  }

  /// False when no further row may be read.
  bool take_row(std::string_view line, SourceSpan start) {
    auto cells = cells_of(line, start);
    if (!cells) return true;
    const auto is_empty = [](const Cell& c) { return c.text.empty(); };
    if (std::all_of(cells->begin(), cells->end(), is_empty)) return true;
    if (table_.rows.size() == most_rows) {
      notes_.error("T01", start, fmt::format("more than {} rows", most_rows));
      return false;
    }
    const std::size_t wanted = table_.header.size();
    while (cells->size() > wanted && cells->back().text.empty())
      cells->pop_back();
    if (cells->size() != wanted) {
      report_ragged(*cells, start);
      return true;
    }
    start.length = std::max(1, characters(line));
    table_.rows.push_back({start, std::move(*cells)});
    return true;
  }

  void report_ragged(const std::vector<Cell>& cells, SourceSpan start) {
    const std::size_t wanted = table_.header.size();
    const std::string_view name = separator_name(table_.separator);
    const bool more = cells.size() > wanted;
    SourceSpan where = more ? cells[wanted].origin : cells.back().origin;
    if (where.line == 0) where = start;
    std::vector<std::string> hints;
    if (more) {
      hints.push_back(fmt::format("put a text that holds a {} in quotes: \"a{} b\"", name,
                                  table_.separator == '\t' ? ' ' : table_.separator));
      if (table_.separator == ',') {
        hints.emplace_back("a table with decimal commas needs the semicolon as its separator");
      }
    } else {
      hints.push_back(fmt::format("leave a cell without a value empty, but keep its {}", name));
    }
    notes_
        .error("T05", where,
               fmt::format("row has {} cell{}, the header has {}", cells.size(),
                           cells.size() == 1 ? "" : "s", wanted),
               std::move(hints))
        .related.push_back({table_.origin, "the header is here"});
  }

  const TableSource& source_;
  Diagnostics& notes_;
  MessageLimit limit_;
  CellTable table_;
  bool has_header_ = false;
};

}  // namespace

std::optional<CellTable> read_cells(const TableSource& source, Diagnostics& notes) {
  return TableSplitter(source, notes).split();
}

}  // namespace hailwright::input
