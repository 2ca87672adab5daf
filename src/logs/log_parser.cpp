#include "logs/log_parser.hpp"

#include <algorithm>
#include <limits>

#include "hailwright/core/contract.hpp"
#include "logs/log_number.hpp"

namespace hailwright::detail {

namespace {

std::string_view without_return(std::string_view line) {
  if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  return line;
}

std::string_view without_blanks(std::string_view cell) {
  while (!cell.empty() && cell.front() == ' ')
    cell.remove_prefix(1);
  while (!cell.empty() && cell.back() == ' ')
    cell.remove_suffix(1);
  return cell;
}

/// So many rows are read column by column: their text stays in the nearest cache.
constexpr std::size_t rows_together = 64;

}  // namespace

LogParser::LogParser(const LogShape& shape)
    : layout_(shape), stamps_(shape.stamp), slow_(layout_, stamps_), short_numbers_(shape.decimal) {
}

/// A cell without the blanks around it. The last one ends with the row.
inline std::string_view LogParser::PlainRow::cell(std::size_t place) const {
  const std::uint32_t begin = ends[static_cast<std::ptrdiff_t>(place) - 1] + 1U;
  return without_blanks({lines + begin, (place == last ? end : ends[place]) - begin});
}

void LogParser::parse(std::string_view piece, bool at_file_begin, bool last, LogBlock& into) {
  const std::string_view lines = piece.substr(0, piece.rfind('\n') + 1);
  expects(last || lines.size() == piece.size(), "a piece holds whole lines");
  index_piece(lines, layout_.separator, index_);
  const auto head = at_file_begin ? static_cast<std::uint32_t>(layout_.head_lines) : 0U;
  if (!parse_lines(piece, head, false, into)) parse_lines(piece, head, true, into);
}

bool LogParser::parse_lines(std::string_view piece, std::uint32_t head, bool careful,
                            LogBlock& into) {
  RowsInMaking rows(layout_, into, index_.ends.size / layout_.headers.size() + 2);
  into.bytes = piece.size();
  const std::size_t above = std::min<std::size_t>(head, index_.breaks.size);
  into.lines = static_cast<std::uint32_t>(above);
  const std::size_t whole = index_.breaks.size == 0 ? 0 : index_.breaks.end()[-1] + 1U;
  read_lines(piece.substr(0, whole), above, careful, rows);
  if (const std::string_view rest = piece.substr(whole); !rest.empty()) {
    if (into.lines < head) {
      rows.count_line();
    } else {
      slow_.read(without_return(rest), true, rows);
    }
  }
  return rows.finish() || careful;
}

void LogParser::read_lines(std::string_view lines, std::size_t first, bool careful,
                           RowsInMaking& rows) {
  Ends ends = index_.ends.begin() + 1;
  const std::uint32_t* odd = index_.odd.data();
  std::size_t one_by_one = 0;  // so many lines from here on
  for (std::size_t line = 0; line < index_.breaks.size; ++line) {
    const std::uint32_t line_break = index_.breaks.at[line];
    const std::uint32_t begin = ends[-1] + 1U;
    while (*odd < begin)
      ++odd;
    if (line < first) {
      ends = std::find(ends, index_.ends.end(), line_break) + 1;
      continue;
    }
    if (one_by_one > 0) {
      --one_by_one;
    } else if (const std::size_t count = careful ? 0 : plain_lines(lines.data(), ends, line, *odd);
               count > 1) {
      if (rows_at_once(lines.data(), ends, count, rows)) {
        ends += count * layout_.headers.size();
        line += count - 1;
        continue;
      }
      one_by_one = count - 1;
    }
    ends = read_line(lines, ends, line_break, *odd > line_break, careful, rows);
  }
}

LogParser::Ends LogParser::read_line(std::string_view lines, Ends ends, std::uint32_t line_break,
                                     bool plain, bool careful, RowsInMaking& rows) {
  const std::size_t cells = layout_.headers.size();
  const Ends no_more = index_.ends.end();
  const std::uint32_t begin = ends[-1] + 1U;
  const bool carriage_return = line_break > begin && lines[line_break - 1U] == '\r';
  const std::uint32_t end = carriage_return ? line_break - 1U : line_break;
  if (plain && static_cast<std::size_t>(no_more - ends) >= cells && ends[cells - 1] == line_break &&
      plain_row({lines.data(), ends, cells - 1, end}, careful, rows)) {
    rows.count_line();
    return ends + cells;
  }
  slow_.read(lines.substr(begin, end - begin), false, rows);
  return std::find(ends, no_more, line_break) + 1;
}

std::size_t LogParser::plain_lines(const char* lines, Ends ends, std::size_t line,
                                   std::uint32_t odd) const {
  const std::size_t cells = layout_.headers.size();
  const std::uint32_t begin = ends[-1] + 1U;
  if (begin < static_cast<std::uint32_t>(readable_for_number)) return 0;
  const std::size_t most = std::min({rows_together, index_.breaks.size - line,
                                     static_cast<std::size_t>(index_.ends.end() - ends) / cells});
  const std::uint32_t* const breaks = index_.breaks.begin() + line;
  // All of them together are no longer than a line may be.
  const std::uint32_t limit = std::min(odd, begin + static_cast<std::uint32_t>(longest_line));
  std::size_t count = 0;
  for (Ends row = ends; count < most && row[cells - 1] == breaks[count]; row += cells) {
    if (breaks[count] > limit || lines[row[-1] + 1U] == '#') break;
    ++count;
  }
  return count;
}

bool LogParser::rows_at_once(const char* lines, Ends ends, std::size_t count, RowsInMaking& rows) {
  if (!stamps_at_once(lines, ends, count, rows.times())) return false;
  for (std::size_t i = 0; i < layout_.numbers.size(); ++i) {
    if (!short_numbers_.read(column(lines, ends, count, layout_.numbers[i].place), rows.numbers(i)))
      return false;
  }
  if (!layout_.marker) {
    rows.complete_rows(count);
    return true;
  }
  const CellColumn markers = column(lines, ends, count, *layout_.marker);
  for (std::size_t row = 0; row < count; ++row) {
    rows.set_marker(without_blanks(markers.cell(row)));
    rows.complete_rows(1);
  }
  return true;
}

CellColumn LogParser::column(const char* lines, Ends ends, std::size_t count,
                             std::size_t place) const {
  return {lines, ends + place, layout_.headers.size(), count, place + 1 == layout_.headers.size()};
}

/// A line that is no row has no stamp: a comment, a header.
bool LogParser::stamps_at_once(const char* lines, Ends ends, std::size_t count,
                               std::int64_t* into) {
  const CellColumn first = column(lines, ends, count, layout_.time ? *layout_.time : *layout_.date);
  if (layout_.time) {
    for (std::size_t row = 0; row < count; ++row) {
      if (!stamps_.read(first.cell(row), into[row])) return false;
    }
    return true;
  }
  const CellColumn clocks = column(lines, ends, count, *layout_.clock);
  for (std::size_t row = 0; row < count; ++row) {
    if (!stamps_.read(first.cell(row), clocks.cell(row), into[row])) return false;
  }
  return true;
}

bool LogParser::plain_row(const PlainRow& row, bool careful, RowsInMaking& rows) {
  const std::uint32_t begin = row.ends[-1] + 1U;
  if (row.lines[begin] == '#' || row.end - begin > longest_line) return false;
  if (!plain_stamp(row, rows) || !plain_numbers(row, careful, rows)) return false;
  if (layout_.marker) rows.set_marker(row.cell(*layout_.marker));
  rows.complete_row();
  return true;
}

bool LogParser::plain_stamp(const PlainRow& row, RowsInMaking& rows) {
  std::int64_t us = 0;
  const bool read = layout_.time
                        ? stamps_.read(row.cell(*layout_.time), us)
                        : stamps_.read(row.cell(*layout_.date), row.cell(*layout_.clock), us);
  rows.set_time(us);
  return read;
}

bool LogParser::plain_numbers(const PlainRow& row, bool careful, RowsInMaking& rows) const {
  std::size_t index = 0;
  for (const NumberColumn& column : layout_.numbers) {
    const std::string_view cell = row.cell(column.place);
    double number = std::numeric_limits<double>::quiet_NaN();
    if (!cell.empty()) {
      const bool room = cell.data() + cell.size() - row.lines >= readable_for_number;
      if (!(room && short_numbers_.read(cell, number)) &&
          !read_log_number(cell, layout_.decimal, number))
        return false;
      if (careful && !column.shows(column.in_si(number))) return false;
    }
    rows.set_number(index++, number);
  }
  return !(careful && layout_.parts);
}

}  // namespace hailwright::detail
