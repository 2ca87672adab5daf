#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/render.hpp"
#include "report/text_layout.hpp"

namespace hailwright {

namespace {

using detail::one_line;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool is_ascii_punctuation(char c) {
  return c > ' ' && c < 0x7F && !is_digit(c) && !is_letter(c);
}

/// Characters of a figure's id.
bool names_a_file(char c) {
  return is_digit(c) || is_letter(c) || c == '-';
}

/// The text such that it comes out literally inside a paragraph, heading or cell. Any ASCII
/// punctuation may carry a backslash (CommonMark 0.30, section 2.4, from memory); only what some
/// common flavour would act upon gets one. A bar is written as an entity: not every table reader
/// knows `\|`.
std::string escaped(std::string_view text) {
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
    if (entity || doubled || always.find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
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

/// The same for text that begins a line.
std::string at_line_start(std::string line) {
  if (const auto mark = list_mark(line)) line.insert(*mark, 1, '\\');
  return line;
}

/// Whether "**" between these characters opens (or, seen backwards, closes) strong emphasis:
/// CommonMark 0.30, section 6.2, flanking delimiter runs (from memory). What cannot be told from
/// ASCII is taken as not. `outside` is ' ' at the ends of a line.
bool flanks(char outside, char inside) {
  const bool inside_ascii = static_cast<unsigned char>(inside) < 0x80;
  if (inside_ascii && !is_ascii_punctuation(inside)) return true;
  return outside == ' ' || is_ascii_punctuation(outside);
}

/// Words of a tone other than plain are strong. Emphasis that Markdown cannot write between these
/// neighbours is left out; the words suffice without.
std::string inline_text(const Runs& text) {
  Runs runs;
  for (const Run& run : one_line(text)) {
    detail::append(runs, run.text, run.tone == Tone::plain ? Tone::plain : Tone::strong);
  }
  std::string out;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const std::string& words = runs[i].text;
    const char before = i > 0 ? runs[i - 1].text.back() : ' ';
    const char after = i + 1 < runs.size() ? runs[i + 1].text.front() : ' ';
    const bool strong =
        runs[i].tone != Tone::plain && flanks(before, words.front()) && flanks(after, words.back());
    const std::string_view mark = strong ? "**" : "";
    out += mark;
    out += escaped(words);
    out += mark;
  }
  return out;
}

std::string line_text(const Runs& text) {
  return at_line_start(inline_text(text));
}

std::string line_text(std::string_view text) {
  return at_line_start(escaped(one_line(text)));
}

/// Collects the blocks, one empty line between them.
class Page {
public:
  /// `top` is the level of heading that gets a single '#'.
  Page(int top, MarkdownStyle style) : top_level_(top), style_(style) {}

  void operator()(const Heading& heading) {
    expects(heading.level >= 1 && heading.level <= 3, "a heading of level 1 to 3");
    begin_block();
    line(std::string(static_cast<std::size_t>(heading.level - top_level_ + 1), '#') + ' ' +
         inline_text(heading.text));
  }

  void operator()(const Paragraph& paragraph) {
    const std::string text = line_text(paragraph.text);
    if (text.empty()) return;
    begin_block();
    line(text);
  }

  void operator()(const Facts& facts) {
    if (facts.items.empty()) return;
    begin_list();
    for (const Fact& fact : facts.items)
      put(fact);
  }

  void operator()(const Bullets& bullets) {
    if (bullets.items.empty()) return;
    begin_list();
    for (const Runs& item : bullets.items)
      bullet("", line_text(item));
  }

  void operator()(const CautionList& cautions) {
    if (cautions.items.empty()) return;
    begin_list();
    for (const CautionItem& item : cautions.items) {
      expects(!item.title.empty() && !item.text.empty(), "a caution with title and text");
      std::string text = inline_text({{item.title, Tone::strong}, {": ", Tone::plain}});
      text += ' ' + inline_text(plain(item.text));
      const std::string source = escaped(one_line(item.source));
      if (!source.empty()) text += " *Source: " + source + '*';
      bullet("", text + " (" + escaped(one_line(item.id)) + ')');
    }
  }

  void operator()(const Table& table) {
    expects(!table.columns.empty(), "a table with columns");
    if (!table.caption.empty()) {
      begin_block();
      line(line_text(table.caption));
    }
    begin_block();
    std::string titles = "|";
    std::string rule = "|";
    for (const Column& column : table.columns) {
      titles += cell(column.title);
      rule += column.align == Align::right ? " ---: |" : " --- |";
    }
    line(titles);
    line(rule);
    for (const auto& row : table.rows) {
      expects(row.size() == table.columns.size(), "as many cells as columns");
      std::string cells = "|";
      for (const std::string& text : row)
        cells += cell(text);
      line(cells);
    }
    if (table.rows.empty()) {
      begin_block();
      line("(no rows)");
    }
  }

  void operator()(const Snippet& snippet) {
    if (snippet.lines.empty()) return;
    begin_block();
    std::size_t longest = 2;
    for (const std::string& text : snippet.lines) {
      std::size_t ticks = 0;
      for (const char c : text) {
        ticks = c == '`' ? ticks + 1 : 0;
        longest = std::max(longest, ticks);
      }
    }
    const std::string fence(longest + 1, '`');
    line(fence);
    for (const std::string& text : snippet.lines)
      line(detail::printable(text));
    line(fence);
  }

  void operator()(const Figure& figure) {
    expects(!figure.title.empty(), "a figure with a title");
    expects(!figure.id.empty() && std::all_of(figure.id.begin(), figure.id.end(), names_a_file),
            "a figure's id of letters, digits and -");
    begin_block();
    const std::string title = inline_text({{"Figure: " + figure.title, Tone::strong}});
    const std::string words = escaped(one_line(figure.description));
    if (style_.pictures) {
      line(title);
      begin_block();
      line("![" + words + "](" + figure.id + ".svg)");
    } else {
      line(title + (words.empty() ? "" : ". ") + words);
    }
  }

  void operator()(const Checklist& list) {
    if (list.items.empty()) return;
    begin_list();
    for (const Runs& item : list.items)
      bullet("", "[ ] " + inline_text(item));
  }

  /// A line that stays the same whatever changes around it.
  void operator()(const PageBreak& /*end*/) { sheet_ended_ = true; }

  void title(std::string_view text) {
    if (text.empty()) return;
    begin_block();
    line("# " + escaped(one_line(text)));
  }

  std::string finish() { return std::move(out_); }

private:
  static std::string cell(std::string_view text) {
    const std::string words = escaped(one_line(text));
    return words.empty() ? " |" : ' ' + words + " |";
  }

  void put(const Fact& fact) {
    const Runs label = {{one_line(fact.label), Tone::strong}};
    if (label.front().text.empty()) {
      for (const Runs& text : fact.lines)
        bullet("", line_text(text));
      return;
    }
    if (fact.lines.size() == 1) {
      const std::string text = inline_text(fact.lines.front());
      bullet("", inline_text(label) + (text.empty() ? "" : ": ") + text);
      return;
    }
    bullet("", inline_text(label) + (fact.lines.empty() ? "" : ":"));
    for (const Runs& text : fact.lines)
      bullet("  ", line_text(text));
  }

  void bullet(std::string_view indent, const std::string& text) {
    line(std::string(indent) + marker_ + (text.empty() ? "" : " ") + text);
  }

  void line(std::string_view text) {
    out_ += text;
    out_ += '\n';
  }

  /// Where a sheet of paper ended, a thematic break; none before the first block or after the last.
  void begin_block() {
    if (!out_.empty()) out_ += '\n';
    list_open_ = false;
    if (sheet_ended_ && !out_.empty()) out_ += "---\n\n";
    sheet_ended_ = false;
  }

  /// Two lists in a row would read as one; another marker keeps them apart.
  void begin_list() {
    const bool follows_list = list_open_ && !sheet_ended_;
    begin_block();
    marker_ = follows_list && marker_ == '-' ? '*' : '-';
    list_open_ = true;
  }

  std::string out_;
  int top_level_;
  MarkdownStyle style_;
  char marker_ = '-';
  bool list_open_ = false;
  bool sheet_ended_ = false;
};

}  // namespace

std::string render_markdown(const Document& document, MarkdownStyle style) {
  const bool titled = !document.title.empty();
  Page page(detail::top_level(document) - (titled ? 1 : 0), style);
  page.title(document.title);
  for (const Block& block : document.blocks)
    std::visit(page, block);
  page(Paragraph{plain(document.foot)});
  return page.finish();
}

}  // namespace hailwright
