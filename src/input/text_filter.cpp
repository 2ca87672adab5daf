#include "input/text_filter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace hailwright::input {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// The first of its sort, and how many there are.
struct Fault {
  std::optional<std::size_t> first;
  std::size_t count = 0;
  void at(std::size_t offset) {
    if (!first) first = offset;
    ++count;
  }
};

unsigned byte_at(std::string_view text, std::size_t i) {
  return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
}

struct Character {
  std::size_t size;  ///< bytes; 0 when the bytes are not UTF-8
  unsigned code;
};

/// One character by the well-formed byte ranges of The Unicode Standard, table 3-7 (from memory):
/// no overlong forms, no surrogates, nothing above U+10FFFF.
Character decode(std::string_view text, std::size_t i) {
  const unsigned lead = byte_at(text, i);
  if (lead < 0x80U) return {1, lead};
  const auto tail = [&](std::size_t k) { return byte_at(text, i + k) & 0x3FU; };
  const auto is_tail = [&](std::size_t k) { return (byte_at(text, i + k) & 0xC0U) == 0x80U; };
  if (lead >= 0xC2U && lead <= 0xDFU && is_tail(1)) {
    return {2, ((lead & 0x1FU) << 6U) | tail(1)};
  }
  if ((lead & 0xF0U) == 0xE0U && is_tail(1) && is_tail(2)) {
    const unsigned code = ((lead & 0x0FU) << 12U) | (tail(1) << 6U) | tail(2);
    const bool surrogate = code >= 0xD800U && code <= 0xDFFFU;
    if (code >= 0x800U && !surrogate) return {3, code};
  }
  if (lead >= 0xF0U && lead <= 0xF4U && is_tail(1) && is_tail(2) && is_tail(3)) {
    const unsigned code = ((lead & 0x07U) << 18U) | (tail(1) << 12U) | (tail(2) << 6U) | tail(3);
    if (code >= 0x10000U && code <= 0x10FFFFU) return {4, code};
  }
  return {0, 0};
}

bool is_control(unsigned code) {
  const bool allowed = code == '\t' || code == '\n';
  return (code < 0x20U && !allowed) || (code >= 0x7FU && code <= 0x9FU);
}

std::string and_more(const Fault& fault) {
  if (fault.count < 2) return {};
  return fmt::format(", and {} more in this file", fault.count - 1);
}

std::string save_as_utf8(TextKind kind) {
  return kind == TextKind::table
             ? "save the table again as UTF-8 (in the spreadsheet: save as, CSV UTF-8)"
             : "save the file again as UTF-8 (in the editor: save as, encoding UTF-8)";
}

bool is_utf16(std::string_view text) {
  return text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF";
}

}  // namespace

std::string plain_line_ends(std::string text) {
  if (std::string_view(text).substr(0, byte_order_mark.size()) == byte_order_mark) {
    text.erase(0, byte_order_mark.size());
  }
  std::size_t to = 0;
  for (std::size_t from = 0; from < text.size(); ++from) {
    if (text[from] == '\r' && from + 1 < text.size() && text[from + 1] == '\n') continue;
    text[to++] = text[from];
  }
  text.resize(to);
  return text;
}

SourceSpan place_of_byte(std::uint32_t file, std::string_view text, std::size_t offset,
                         int length) {
  const std::string_view before = text.substr(0, std::min(offset, text.size()));
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  const std::size_t line_break = before.rfind('\n');
  const std::size_t start = line_break == std::string_view::npos ? 0 : line_break + 1;
  const std::size_t column = 1 + count_characters(before.substr(start));
  return {file, static_cast<int>(line), static_cast<int>(column), length};
}

bool check_bytes(std::uint32_t file, std::string_view text, TextKind kind, Diagnostics& notes) {
  if (is_utf16(text)) {
    notes.error("Y03", {file, 0, 0, 0}, "this file is in UTF-16, not UTF-8", {save_as_utf8(kind)});
    return false;
  }
  Fault controls;
  Fault not_utf8;
  Fault directives;
  bool line_start = true;
  for (std::size_t i = 0; i < text.size();) {
    const Character c = decode(text, i);
    if (c.size == 0) not_utf8.at(i);
    if (c.size != 0 && is_control(c.code)) controls.at(i);
    if (line_start && c.code == '%' && kind == TextKind::yaml) directives.at(i);
    line_start = c.code == '\n';
    i += std::max<std::size_t>(c.size, 1);
  }
  if (controls.first) {
    const unsigned code = decode(text, *controls.first).code;
    notes.error(
        "Y01", place_of_byte(file, text, *controls.first),
        fmt::format("a control character (U+{:04X}) stands here{}", code, and_more(controls)),
        {code == 0 ? "this looks like no text file: name a text file in UTF-8"
                   : (code == '\r' ? "save the file with line ends LF or CRLF"
                                   : "delete the character")});
  }
  if (not_utf8.first) {
    notes.error("Y02", place_of_byte(file, text, *not_utf8.first),
                fmt::format("this byte (0x{:02X}) is not UTF-8{}", byte_at(text, *not_utf8.first),
                            and_more(not_utf8)),
                {save_as_utf8(kind)});
  }
  if (directives.first) {
    notes.error("Y04", place_of_byte(file, text, *directives.first),
                fmt::format("a line may not begin with %{}", and_more(directives)),
                {"delete the line, or put # before it if it is a remark"});
  }
  return !controls.first && !not_utf8.first && !directives.first;
}

}  // namespace hailwright::input
