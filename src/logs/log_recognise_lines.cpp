#include "logs/log_recognise_lines.hpp"

#include <algorithm>

#include "logs/log_number.hpp"
#include "logs/log_parser_cells.hpp"
#include "logs/log_stamp.hpp"

namespace hailwright::detail {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::string_view blanks = " \t";

bool is_blank_or_comment(std::string_view line) {
  const std::size_t first = line.find_first_not_of(blanks);
  return first == std::string_view::npos || line[first] == '#';
}

constexpr std::string_view any_date = "2026-01-01";

}  // namespace

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(blanks) + 1 - first));
}

std::vector<HeadLine> lines_of(std::string_view beginning) {
  std::vector<HeadLine> lines;
  if (beginning.starts_with(byte_order_mark)) beginning.remove_prefix(byte_order_mark.size());
  for (int number = 1; !beginning.empty(); ++number) {
    const std::size_t end = std::min(beginning.find('\n'), beginning.size());
    std::string_view line = beginning.substr(0, end);
    beginning.remove_prefix(std::min(end + 1, beginning.size()));
    if (line.ends_with('\r')) line.remove_suffix(1);
    if (!is_blank_or_comment(line)) lines.push_back({number, line});
  }
  return lines;
}

std::vector<HeadCell> cells_of(std::string_view line, char separator) {
  std::vector<LineCell> cut;
  std::vector<HeadCell> cells;
  if (cut_into_cells(line, separator, cut)) return cells;
  for (const LineCell& cell : cut)
    cells.push_back({trimmed(cell.text(line)), cell.begin, cell.end - cell.begin});
  return cells;
}

CellKind kind_of(std::string_view cell) {
  double number = 0.0;
  if (cell.empty()) return CellKind::blank;
  if (read_log_number(cell, '.', number)) return CellKind::number;
  if (read_log_number(cell, ',', number)) return CellKind::comma_number;
  if (glance_at_stamp(cell, std::nullopt)) return CellKind::stamp;
  if (glance_at_stamp(cell, "00:00", std::nullopt)) return CellKind::date;
  if (glance_at_stamp(any_date, cell, std::nullopt)) return CellKind::clock;
  return CellKind::words;
}

SourceSpan HeadNotes::span(const HeadLine& line, const HeadCell& cell) {
  if (line.number == 0) return {file_, 0, 0, 0};
  sources_.keep_line(file_, line.number, std::string(line.text));
  const std::size_t length = count_characters(line.text.substr(cell.offset, cell.length));
  return {file_, line.number, column_of(line.text, cell.offset), static_cast<int>(length)};
}

Diagnostic& HeadNotes::error(std::string_view code, const HeadLine& line, const HeadCell& cell,
                             std::string message, std::vector<std::string> hints) {
  return notes_.error(code, span(line, cell), std::move(message), std::move(hints));
}

Diagnostic& HeadNotes::error(std::string_view code, const HeadLine& line, std::string message,
                             std::vector<std::string> hints) {
  return error(code, line, {{}, 0, line.text.size()}, std::move(message), std::move(hints));
}

Diagnostic& HeadNotes::error(std::string_view code, SourceSpan where, std::string message,
                             std::vector<std::string> hints) {
  return notes_.error(code, where, std::move(message), std::move(hints));
}

}  // namespace hailwright::detail
