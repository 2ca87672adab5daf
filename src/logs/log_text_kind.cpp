#include "logs/log_text_kind.hpp"

#include <algorithm>
#include <array>

#include "logs/log_parser_cells.hpp"

namespace hailwright::detail {

namespace {

struct OtherKind {
  std::string_view begins;
  std::string_view message;
  std::string_view hint;
};

using namespace std::string_view_literals;

// First bytes of what is given instead of text: the byte order marks of The Unicode Standard,
// section 23.8; the local file header of ZIP, in which workbooks come; RFC 1952. All from memory.
constexpr std::array other_kinds{
    OtherKind{"\xFF\xFE"sv, "the log is UTF-16, not UTF-8", "save it again as UTF-8"},
    OtherKind{"\xFE\xFF"sv, "the log is UTF-16, not UTF-8", "save it again as UTF-8"},
    OtherKind{"PK\x03\x04"sv, "this is a ZIP archive or a workbook, no text",
              "unpack it, or export the sheet as CSV"},
    OtherKind{"\x1F\x8B"sv, "the data is compressed twice", "decompress it once"}};

/// Letters of UTF-16 are a zero byte and another one; a row that was damaged has zeros, too, but
/// the rest of the log is text.
bool is_half_zeros(std::string_view beginning) {
  const auto zeros = std::count(beginning.begin(), beginning.end(), '\0');
  return 5 * static_cast<std::size_t>(zeros) > 2 * beginning.size();
}

/// Text whose lines end with CR alone is one line to all that reads it.
bool has_lone_line_ends(std::string_view beginning) {
  const std::size_t end = beginning.find('\r');
  return end != std::string_view::npos && end + 1 < beginning.size() &&
         beginning.find('\n') == std::string_view::npos;
}

/// True, and an error, when it is no text.
bool is_other_kind(std::string_view beginning, HeadNotes& notes) {
  for (const OtherKind& kind : other_kinds) {
    if (!beginning.starts_with(kind.begins)) continue;
    notes.error("L18", HeadLine{}, std::string(kind.message), {std::string(kind.hint)});
    return true;
  }
  constexpr std::size_t looked_at = 1024;
  if (is_half_zeros(beginning.substr(0, looked_at))) {
    notes.error("L18", HeadLine{}, "half of the bytes are zero: the log is UTF-16, not UTF-8",
                {"save it again as UTF-8"});
    return true;
  }
  if (!has_lone_line_ends(beginning)) return false;
  notes.error("L18", HeadLine{}, "the lines of this log end with CR alone",
              {"save it with line ends LF or CRLF"});
  return true;
}

}  // namespace

std::optional<LogLayout> read_layout(std::string_view beginning, std::optional<char> separator,
                                     HeadNotes& notes) {
  if (is_other_kind(beginning, notes)) return std::nullopt;
  std::optional<LogLayout> layout = find_layout(beginning, separator, notes);
  if (!layout) return std::nullopt;
  const HeadLine& line = layout->header_line;
  if (const auto bad = find_bad_byte(line.text)) {
    notes.error("L18", line, {{}, bad->offset, bad->length}, bad->message, {bad->hint});
    return std::nullopt;
  }
  return layout;
}

}  // namespace hailwright::detail
