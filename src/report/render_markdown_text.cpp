#include "report/render_markdown_text.hpp"

#include <algorithm>
#include <optional>
#include <variant>
#include <vector>

#include "report/text_layout.hpp"

namespace hailwright::detail {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool is_ascii_punctuation(char c) {
  return c > ' ' && c < 0x7F && !is_digit(c) && !is_letter(c);
}

/// Where in a text that begins a line a backslash must stand so that the line is no list item: the
/// offset of the mark of "- ", "+ ", ":", "1. ", "1) ", "(a) ", "iv. ".
std::optional<std::size_t> list_mark(std::string_view line) {
  const auto ends_at = [&](std::size_t i) { return i == line.size() || line[i] == ' '; };
  if (line.empty()) return std::nullopt;
  if (line[0] == '-' && (ends_at(1) || line[1] == '-' || line[1] == '\\')) return 0;
  if (line[0] == ':' || (line[0] == '+' && ends_at(1))) return 0;
  const std::size_t begin = line[0] == '(' ? 1 : 0;
  std::size_t end = begin;
  while (end < line.size() && (is_digit(line[end]) || is_letter(line[end])))
    ++end;
  const std::string_view counter = line.substr(begin, end - begin);
  const bool digits = std::all_of(counter.begin(), counter.end(), is_digit);
  const bool roman = counter.find_first_not_of("ivxlcdmIVXLCDM") == std::string_view::npos;
  if (counter.empty() || !(digits || roman || counter.size() == 1)) return std::nullopt;
  if (end >= line.size() || (line[end] != '.' && line[end] != ')') || !ends_at(end + 1)) {
    return std::nullopt;
  }
  return end;
}

/// Whether "**" between these characters opens (or, seen backwards, closes) strong emphasis:
/// CommonMark 0.30, section 6.2, flanking delimiter runs (from memory). What cannot be told from
/// ASCII is taken as not. `outside` is ' ' at the ends of a line.
bool flanks(char outside, char inside) {
  const bool inside_ascii = static_cast<unsigned char>(inside) < 0x80;
  if (inside_ascii && !is_ascii_punctuation(inside)) return true;
  return outside == ' ' || is_ascii_punctuation(outside);
}

/// Words of any tone but plain are strong, and all on one line.
Runs in_two_tones(Runs text) {
  for (Run& run : text) {
    if (run.tone != Tone::plain) run.tone = Tone::strong;
  }
  return one_line(text);
}

/// Emphasis that Markdown cannot write between these
/// neighbours is left out; the words suffice without.
std::string emphasised(const Runs& runs, char before_all, char after_all) {
  std::string out;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const std::string& words = runs[i].text;
    const char before = i > 0 ? runs[i - 1].text.back() : before_all;
    const char after = i + 1 < runs.size() ? runs[i + 1].text.front() : after_all;
    const bool strong =
        runs[i].tone != Tone::plain && flanks(before, words.front()) && flanks(after, words.back());
    const std::string_view mark = strong ? "**" : "";
    out += mark;
    out += markdown_escaped(words);
    out += mark;
  }
  return out;
}

/// An address such that nothing in it ends the link or is read as markup: brackets as per cent and
/// digits, since not every reader counts them; an ampersand as the entity that it could begin.
std::string link_target(std::string_view address) {
  std::string out;
  for (const char c : address) {
    switch (c) {
    case '(':
      out += "%28";
      break;
    case ')':
      out += "%29";
      break;
    case '&':
      out += "&amp;";
      break;
    default:
      out += c;
    }
  }
  return out;
}

/// What a heading of these words is called in the address of the page, as the common flavours have
/// it: small letters, blanks as -, other marks left out. Source: common practice, no source. They
/// differ beyond ASCII; there it is empty.
std::string anchor(std::string_view words) {
  std::string out;
  for (const char c : words) {
    if (static_cast<unsigned char>(c) >= 0x80) return {};
    if (c >= 'A' && c <= 'Z') out += static_cast<char>(c - 'A' + 'a');
    if (c == ' ') out += '-';
    if (is_digit(c) || (c >= 'a' && c <= 'z') || c == '-' || c == '_') out += c;
  }
  return out;
}

/// Whether this mark makes a bare address, which GitHub's flavour turns into a link of its own and
/// reads without its backslashes: of "http://" the colon, of "www." the point. Source: GitHub
/// Flavored Markdown 0.29, section 6.9, Autolinks (from memory).
bool marks_address(std::string_view text, std::size_t i) {
  if (text[i] == ':') return text.substr(i + 1).starts_with("//");
  if (text[i] != '.' || i < 3) return false;
  const std::string_view before = text.substr(i - 3, 3);
  return std::all_of(before.begin(), before.end(), [](char c) { return c == 'w' || c == 'W'; });
}

}  // namespace

std::string markdown_escaped(std::string_view text) {
  constexpr std::string_view always = R"(\`*_[]<>~^$#@{})";
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const char before = i > 0 ? text[i - 1] : ' ';
    const char after = i + 1 < text.size() ? text[i + 1] : ' ';
    const bool entity = c == '&' && (is_letter(after) || after == '#');
    const bool doubled = (c == '-' || c == '=' || c == ':') && before == c;
    if (c == '|') {
      out += "&#124;";
      continue;
    }
    if (entity || doubled || marks_address(text, i) || always.find(c) != std::string_view::npos)
      out += '\\';
    out += c;
  }
  return out;
}

std::string at_line_start(std::string line) {
  if (const auto mark = list_mark(line)) line.insert(*mark, 1, '\\');
  return line;
}

MarkdownLinks::MarkdownLinks(const Document& document) : targets_(link_targets(document)) {
  if (!document.title.empty()) take("", one_line(document.title));
  for (const Block& block : document.blocks) {
    if (const auto* heading = std::get_if<Heading>(&block))
      take(heading->id, words_alone(heading->text));
  }
}

/// Words that repeat are counted.
void MarkdownLinks::take(const std::string& id, const std::string& words) {
  const std::string name = anchor(words);
  if (name.empty()) return;
  const int before = seen_[name]++;
  if (!id.empty()) anchors_[id] = before == 0 ? name : name + '-' + std::to_string(before);
}

std::string MarkdownLinks::address(std::string_view link) const {
  switch (link_kind(link)) {
  case LinkKind::none:
    return {};
  case LinkKind::web:
    return link_target(link);
  case LinkKind::beside:
    return path_address(link);
  case LinkKind::within:
    break;
  }
  targets_.expect(link.substr(1));
  const auto found = anchors_.find(link.substr(1));
  return found == anchors_.end() ? std::string() : '#' + found->second;
}

std::string markdown_words(const Runs& text, const MarkdownLinks& links) {
  const std::vector<LinkedRuns> groups = by_link(in_two_tones(text));
  std::vector<std::string> addresses;
  for (const LinkedRuns& group : groups)
    addresses.push_back(links.address(group.link));
  std::string out;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (!addresses[i].empty()) {
      out += '[' + emphasised(groups[i].runs, '[', ']') + "](" + addresses[i] + ')';
      continue;
    }
    const char before = out.empty() ? ' ' : out.back();
    const bool link_follows = i + 1 < groups.size() && !addresses[i + 1].empty();
    const char after = i + 1 == groups.size() ? ' '
                       : link_follows         ? '['
                                              : groups[i + 1].runs.front().text.front();
    out += emphasised(groups[i].runs, before, after);
  }
  return out;
}

}  // namespace hailwright::detail
