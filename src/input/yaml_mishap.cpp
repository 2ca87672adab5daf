#include "input/yaml_mishap.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/contains.hpp"
#include "input/text_filter.hpp"

namespace hailwright::input {

namespace {

struct Line {
  std::string_view text;
  std::size_t start;  ///< byte offset of the line
  std::size_t at;     ///< byte offset of the failure inside the line
};

Line line_at(std::string_view text, std::size_t offset) {
  offset = std::min(offset, text.size());
  const std::size_t before = offset == 0 ? std::string_view::npos : text.rfind('\n', offset - 1);
  const std::size_t start = before == std::string_view::npos ? 0 : before + 1;
  const std::size_t end = std::min(text.find('\n', offset), text.size());
  return {text.substr(start, end - start), start, offset - start};
}

/// Column of the key whose value holds the failure: the first ": " before it; npos if none.
std::size_t first_colon(const Line& line) {
  const std::size_t colon = line.text.find(": ");
  return colon < line.at ? colon : std::string_view::npos;
}

bool indented_by_tab(const Line& line) {
  const std::size_t first = line.text.find_first_not_of(" \t");
  return contains(line.text.substr(0, std::min(first, line.text.size())), "\t");
}

Diagnostic message(std::string_view code, SourceSpan where, std::string text, std::string hint) {
  return {Severity::error, code, where, std::move(text), {std::move(hint)}, {}};
}

Diagnostic tab(SourceSpan where) {
  where.column = 1;
  return message("Y08", where, "this line is indented with a tab",
                 "indent with blanks: two for each level");
}

Diagnostic second_colon(const Line& line, SourceSpan where) {
  const std::size_t colon = first_colon(line);
  if (colon == std::string_view::npos) {
    return message("Y07", where, "this line does not fit the line above: its indentation differs",
                   "begin it in the same column as the keys above it");
  }
  const std::size_t begin = line.text.find_first_not_of(' ', colon + 1);
  const std::string_view value = line.text.substr(std::min(begin, line.text.size()));
  return message("Y07", where, "a colon followed by a blank stands inside a text",
                 fmt::format("put the text in quotes: \"{}\"", value));
}

Diagnostic end_not_found(const Line& line, SourceSpan where) {
  const std::string_view before = line.text.substr(0, line.at);
  const std::size_t last = before.find_last_not_of(' ');
  if (last != std::string_view::npos && (before[last] == '"' || before[last] == '\'') &&
      before.find_first_not_of(' ') != last) {
    return message("Y07", where, "something follows the closing quote",
                   "put the whole text in quotes; inside double quotes write \\\" for a quote");
  }
  return message("Y07", where, "the indentation of this line fits no line above it",
                 "begin it in the same column as the keys it belongs to");
}

Diagnostic unknown_token(std::string_view text, std::size_t offset, SourceSpan where) {
  const std::string_view found = text.substr(std::min(offset, text.size()), 1);
  if (found.empty()) {
    return message("Y07", where, "the file ends in the middle of an entry", "finish the entry");
  }
  return message("Y07", where, fmt::format("a text cannot begin with {}", found),
                 "put the text in quotes");
}

}  // namespace

Diagnostic not_closed(std::size_t bracket, SourceSpan where, std::string_view text) {
  const char opening = text[bracket];
  return message("Y13", where, fmt::format("this {} is not closed", opening),
                 fmt::format("close it with {}, and put a comma between its entries",
                             opening == '{' ? '}' : ']'));
}

Diagnostic explain(const ParserFailure& failure, std::uint32_t file, std::string_view text) {
  const SourceSpan where = place_of_byte(file, text, failure.offset);
  const Line line = line_at(text, failure.offset);
  const std::string& said = failure.message;
  if (indented_by_tab(line) || contains(said, "tab")) return tab(where);
  if ((contains(said, "flow not found") || contains(said, "flow end")) && failure.open_bracket) {
    Diagnostic d =
        not_closed(*failure.open_bracket, place_of_byte(file, text, *failure.open_bracket), text);
    d.related.push_back({where, "what stands here does not fit inside it"});
    return d;
  }
  if (contains(said, "bad file")) {
    return message("Y12", where, "the entries are nested too deeply",
                   "compare with the example on the format page: four levels are enough");
  }
  if (contains(said, "illegal map value")) return second_colon(line, where);
  if (contains(said, "end of map not found") || contains(said, "end of sequence not found")) {
    return end_not_found(line, where);
  }
  if (contains(said, "unknown token")) return unknown_token(text, failure.offset, where);
  if (contains(said, "escape") || contains(said, "hex number") || contains(said, "unicode")) {
    const std::size_t backslash = text.substr(0, failure.offset).rfind('\\');
    return message(
        "Y07", backslash == std::string_view::npos ? where : place_of_byte(file, text, backslash),
        "a backslash inside double quotes begins an escape",
        "use single quotes, or write the backslash twice");
  }
  if (contains(said, "block entry")) {
    return message("Y07", where, "a list entry (- ...) cannot begin here",
                   "begin each entry on its own line under the key, or write [first, second]");
  }
  if (contains(said, "flow end")) {
    return message("Y07", where, "this bracket closes nothing",
                   "delete it, or put the text in quotes");
  }
  if (contains(said, "anchor is not defined")) {
    return message("Y09", where, "a text cannot begin with * (an alias in YAML)",
                   "put the text in quotes, or write the value out");
  }
  return message("Y07", where, fmt::format("this is not YAML that the program reads ({})", said),
                 "compare with the example on the format page");
}

}  // namespace hailwright::input
