#include "logs/log_parser_cells.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/utf8.hpp"
#include "hailwright/core/source.hpp"

namespace hailwright::detail {

namespace {

bool is_blank(char c) {
  return c == ' ' || c == '\t';
}

std::size_t skip_blanks(std::string_view line, std::size_t at, char separator) {
  while (at < line.size() && is_blank(line[at]) && line[at] != separator)
    ++at;
  return at;
}

/// Reads a cell whose opening quote stands at `at`; moves `at` behind its blanks.
std::optional<LineFault> quoted_cell(std::string_view line, char separator, std::size_t& at,
                                     LineCell& cell) {
  const std::size_t opening = at;
  cell.begin = opening + 1;
  std::size_t i = cell.begin;
  for (;; i += 2) {
    i = line.find('"', i);
    if (i == std::string_view::npos) {
      return LineFault{opening, 1, "this quote is not closed in its line",
                       "close the quotes before the line ends: a cell of a log is one line"};
    }
    if (i + 1 >= line.size() || line[i + 1] != '"') break;
    cell.doubled_quotes = true;
  }
  cell.end = i;
  at = skip_blanks(line, i + 1, separator);
  if (at < line.size() && line[at] != separator) {
    return LineFault{at, 1, "text stands behind the closing quote of this cell",
                     "write a quote inside quotes twice: \"\""};
  }
  return std::nullopt;
}

void open_cell(std::string_view line, char separator, std::size_t& at, LineCell& cell) {
  cell.begin = at;
  at = std::min(line.find(separator, at), line.size());
  cell.end = at;
  while (cell.end > cell.begin && is_blank(line[cell.end - 1]))
    --cell.end;
}

std::string mend_of_control(char32_t code) {
  if (code == '\r') return "save the file with line ends LF or CRLF";
  if (code == 0) return "the file was damaged here, perhaps when power failed: delete this row";
  return "delete the character: a log is plain text";
}

}  // namespace

std::string LineCell::text(std::string_view line) const {
  std::string text(raw(line));
  if (!doubled_quotes) return text;
  for (std::size_t at = text.find("\"\""); at != std::string::npos; at = text.find("\"\"", at + 1))
    text.erase(at, 1);
  return text;
}

std::optional<LineFault> cut_into_cells(std::string_view line, char separator,
                                        std::vector<LineCell>& cells) {
  cells.clear();
  for (std::size_t at = 0;; ++at) {
    at = skip_blanks(line, at, separator);
    LineCell cell;
    if (at < line.size() && line[at] == '"') {
      if (std::optional<LineFault> fault = quoted_cell(line, separator, at, cell)) return fault;
    } else {
      open_cell(line, separator, at, cell);
    }
    cells.push_back(cell);
    if (at >= line.size()) return std::nullopt;
  }
}

std::optional<LineFault> find_bad_byte(std::string_view line) {
  const auto is_plain = [](char c) { return c >= ' ' && c < '\x7F'; };
  for (std::size_t at = 0; at < line.size();) {
    if (is_plain(line[at])) {  // nearly always
      ++at;
      continue;
    }
    const Utf8Character c = utf8_at(line, at);
    if (c.size == 0) {
      return LineFault{
          at, 1,
          fmt::format("this byte (0x{:02X}) is not UTF-8", static_cast<unsigned char>(line[at])),
          "save the file again as UTF-8"};
    }
    if (c.code != U'\t' && steers(c.code)) {
      return LineFault{
          at, 1,
          fmt::format("a control character (U+{:04X}) stands here", static_cast<unsigned>(c.code)),
          mend_of_control(c.code)};
    }
    at += c.size;
  }
  return std::nullopt;
}

int column_of(std::string_view line, std::size_t offset) {
  return 1 + static_cast<int>(count_characters(line.substr(0, offset)));
}

}  // namespace hailwright::detail
