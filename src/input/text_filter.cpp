#include "input/text_filter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "core/contains.hpp"
#include "core/utf8.hpp"

namespace hailwright::input {

using hailwright::detail::utf8_at;
using hailwright::detail::Utf8Character;

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

bool is_control(char32_t code) {
  return code != U'\t' && code != U'\n' && hailwright::detail::steers(code);
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

/// By its byte order mark, or by the zero beside each of its first two letters.
bool is_utf16(std::string_view text) {
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) return true;
  if (text.size() < 4) return false;
  const auto zero = [&](std::size_t i) { return text[i] == '\0'; };
  return zero(0) == zero(2) && zero(1) == zero(3) && zero(0) != zero(1);
}

/// A picture, a spreadsheet, an archive: a person's slip leaves fewer of such bytes.
bool is_no_text(std::string_view text, const Fault& controls, const Fault& not_utf8) {
  constexpr std::size_t one_in = 20;  // [ours]
  return contains(text, std::string_view("\0", 1)) ||
         (not_utf8.first && controls.count * one_in > text.size());
}

std::string mend_of_control(unsigned code, bool no_text) {
  if (no_text) return "this looks like no text file: name a text file in UTF-8";
  return code == '\r' ? "save the file with line ends LF or CRLF" : "delete the character";
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
    const Utf8Character c = utf8_at(text, i);
    if (c.size == 0) not_utf8.at(i);
    if (c.size != 0 && is_control(c.code)) controls.at(i);
    if (line_start && c.code == '%' && kind == TextKind::yaml) directives.at(i);
    line_start = c.code == '\n';
    i += std::max<std::size_t>(c.size, 1);
  }
  const bool no_text = is_no_text(text, controls, not_utf8);
  if (controls.first) {
    const auto code = static_cast<unsigned>(utf8_at(text, *controls.first).code);
    notes.error(
        "Y01", place_of_byte(file, text, *controls.first),
        fmt::format("a control character (U+{:04X}) stands here{}", code, and_more(controls)),
        {mend_of_control(code, no_text)});
  }
  if (not_utf8.first && !(no_text && controls.first)) {
    const auto byte = static_cast<unsigned char>(text[*not_utf8.first]);
    notes.error("Y02", place_of_byte(file, text, *not_utf8.first),
                fmt::format("this byte (0x{:02X}) is not UTF-8{}", byte, and_more(not_utf8)),
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
