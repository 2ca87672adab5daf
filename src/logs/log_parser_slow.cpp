#include "logs/log_parser_slow.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "core/quoted.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "logs/log_number.hpp"
#include "logs/log_problems.hpp"

namespace hailwright::detail {

namespace {

using Told = ToldProblem;

/// Of the line that is read now.
template <class Tell>
void problem(std::string_view code, std::string_view line, std::size_t begin, std::size_t end,
             LogBlock& block, Tell tell) {
  add_problem(code, static_cast<int>(block.lines), line, begin, end, block, tell);
}

template <class Tell>
void unreadable(std::string_view code, std::string_view line, std::size_t begin, std::size_t end,
                LogBlock& block, Tell tell) {
  ++block.unreadable;
  problem(code, line, begin, end, block, tell);
}

void unreadable(std::string_view code, std::string_view line, const LineFault& fault,
                LogBlock& block) {
  unreadable(code, line, fault.offset, fault.offset + fault.length, block, [&] {
    return Told{fault.message, {fault.hint}};
  });
}

std::string cell_count(std::size_t count) {
  return count == 1 ? "1 cell" : fmt::format("{} cells", count);
}

/// A limit as people write it, in the unit of its column.
std::string limit_in(double si, const NumberColumn& column) {
  const double shifted = si - column.offset;
  const double number = column.divides ? shifted * column.scale : shifted / column.scale;
  return fmt::format("{:.6g}", number);
}

bool means_nothing(std::string_view cell) {
  constexpr std::string_view letters = "aAnNiIfF+-./_ ";
  return cell.find_first_not_of(letters) == std::string_view::npos;
}

}  // namespace

void SlowLines::read(std::string_view line, bool unended, RowsInMaking& rows) {
  LogBlock& block = rows.block();
  if (line.size() > longest_line) {
    unreadable("L17", line, 0, 1, block, [&] {
      return Told{fmt::format("this line is longer than {} KiB", longest_line >> 10U),
                  {"a row of a log is a line: is a line break missing?"}};
    });
  } else if (const std::optional<LineFault> fault = find_bad_byte(line)) {
    unreadable("L18", line, *fault, block);
  } else if (line.find_first_not_of(" \t") == std::string_view::npos || line.front() == '#') {
    ++block.comments;
  } else if (const std::optional<LineFault> quotes =
                 cut_into_cells(line, layout_.separator, cells_)) {
    unreadable("L16", line, *quotes, block);
  } else if (header_again(line)) {
    ++block.repeated_headers;
    problem("L21", line, 0, line.size(), block, [] {
      return Told{"the header stands here again: was the logger started anew?", {}};
    });
  } else {
    row({line, unended, rows});
  }
  rows.count_line();
}

void SlowLines::row(const Line& line) {
  if (!right_count(line) || !stamp(line) || !numbers(line)) return;
  if (layout_.marker) line.rows.set_marker(cells_[*layout_.marker].text(line.text));
  if (line.unended) {
    const LineCell& cell = cells_.back();
    problem("L22", line.text, cell.begin, cell.end, line.rows.block(), [] {
      return Told{"the file ends here without a line break: the last cell may be cut short",
                  {"if the file was copied while the logger wrote, copy it again"}};
    });
  }
  line.rows.complete_row();
}

bool SlowLines::right_count(const Line& line) {
  const std::size_t wanted = layout_.headers.size();
  if (cells_.size() == wanted) return true;
  // The first cell too many is marked, or the end of the row.
  const bool more = cells_.size() > wanted;
  const std::size_t begin = more ? cells_[wanted].begin : line.text.size();
  const std::size_t end = line.text.size();
  unreadable("L10", line.text, begin, end, line.rows.block(), [&] {
    Told told{fmt::format("this row has {}, the header {}", cell_count(cells_.size()), wanted), {}};
    if (line.unended && !more) {
      told.message += ": the file ends in the middle of it";
      told.hints.emplace_back("copy the file again, or delete this row");
    } else if (more && layout_.separator == ',') {
      told.hints.emplace_back("a number with a decimal comma becomes two cells: write it with a "
                              "point, or separate cells by ;");
    } else {
      told.hints.emplace_back("give the row a cell for each header, blank where nothing was "
                              "measured, or delete it");
    }
    return told;
  });
  return false;
}

bool SlowLines::stamp(const Line& line) {
  const auto cell = [&](std::size_t place) { return cells_[place].raw(line.text); };
  std::int64_t us = 0;
  const bool read = layout_.time ? stamps_.read(cell(*layout_.time), us)
                                 : stamps_.read(cell(*layout_.date), cell(*layout_.clock), us);
  if (read) {
    line.rows.set_time(us);
    return true;
  }
  bool in_date = false;
  const StampTrouble trouble =
      layout_.time ? stamps_.trouble(cell(*layout_.time))
                   : stamps_.trouble(cell(*layout_.date), cell(*layout_.clock), in_date);
  const LineCell& blamed =
      cells_[layout_.time ? *layout_.time : (in_date ? *layout_.date : *layout_.clock)];
  const std::size_t begin = blamed.begin + trouble.offset;
  const std::size_t end = std::max(begin + trouble.length, begin + 1);
  unreadable("L12", line.text, begin, std::min(end, line.text.size()), line.rows.block(), [&] {
    Told told{"the time of this row cannot be read: " + trouble.message, {}};
    if (!trouble.hint.empty()) told.hints.push_back(trouble.hint);
    return told;
  });
  return false;
}

bool SlowLines::numbers(const Line& line) {
  for (std::size_t i = 0; i < layout_.numbers.size(); ++i) {
    if (!number(line, i)) return false;
  }
  return !layout_.parts || parts_shown(line);
}

bool SlowLines::number(const Line& line, std::size_t index) {
  const NumberColumn& column = layout_.numbers[index];
  const LineCell& cell = cells_[column.place];
  const std::string_view text = cell.raw(line.text);
  if (text.empty()) {
    line.rows.set_number(index, std::numeric_limits<double>::quiet_NaN());
    return true;
  }
  double value = 0.0;
  if (!read_log_number(text, layout_.decimal, value)) {
    not_a_number(line, column, cell);
    return false;
  }
  const double si = column.in_si(value);
  if (!column.shows(si)) {
    beyond_instruments(line, column, cell);
    return false;
  }
  line.rows.set_number(index, value);
  return true;
}

void SlowLines::not_a_number(const Line& line, const NumberColumn& column, const LineCell& cell) {
  unreadable("L11", line.text, cell.begin, cell.end, line.rows.block(), [&] {
    const std::string_view text = cell.raw(line.text);
    Told told{fmt::format("{} is not a number in column {}", quoted(text),
                          quoted(layout_.headers[column.place])),
              {}};
    const char other = layout_.decimal == '.' ? ',' : '.';
    double value = 0.0;
    if (read_log_number(text, other, value)) {
      told.hints.push_back(fmt::format("the decimal mark of this log is \"{}\": write the same in "
                                       "all rows",
                                       layout_.decimal));
    } else if (means_nothing(text)) {
      told.hints.emplace_back("leave the cell blank where nothing was measured");
    } else {
      told.hints.emplace_back("write a number without its unit, leave the cell blank, or delete "
                              "the row");
    }
    return told;
  });
}

void SlowLines::beyond_instruments(const Line& line, const NumberColumn& column,
                                   const LineCell& cell) {
  unreadable("L13", line.text, cell.begin, cell.end, line.rows.block(), [&] {
    return Told{fmt::format("{} {} in column {} is outside what an instrument shows ({} to {} {})",
                            cell.raw(line.text), column.unit, quoted(layout_.headers[column.place]),
                            limit_in(column.lowest, column), limit_in(column.highest, column),
                            column.unit),
                {fmt::format("check the unit of the column: it is read in {}", column.unit),
                 "leave the cell blank where the instrument failed"}};
  });
}

bool SlowLines::parts_shown(const Line& line) {
  const auto si = [&](std::size_t index) {
    const NumberColumn& column = layout_.numbers[index];
    double value = std::numeric_limits<double>::quiet_NaN();
    read_log_number(cells_[column.place].raw(line.text), layout_.decimal, value);
    return column.in_si(value);
  };
  const double power = si(layout_.parts->voltage) * si(layout_.parts->current);
  if (layout_.parts->power.shows(power)) return true;
  const LineCell& cell = cells_[layout_.numbers[layout_.parts->voltage].place];
  unreadable("L13", line.text, cell.begin, cell.end, line.rows.block(), [&] {
    return Told{fmt::format("voltage times current is {:.6g} W, outside what an instrument shows "
                            "({:.6g} W to {:.6g} W)",
                            power, layout_.parts->power.lowest, layout_.parts->power.highest),
                {"check the units of both columns"}};
  });
  return false;
}

bool SlowLines::header_again(std::string_view line) const {
  return cells_.size() == layout_.headers.size() &&
         std::equal(cells_.begin(), cells_.end(), layout_.headers.begin(),
                    [&](const LineCell& cell, const std::string& header) {
                      return cell.doubled_quotes ? cell.text(line) == header
                                                 : cell.raw(line) == header;
                    });
}

}  // namespace hailwright::detail
