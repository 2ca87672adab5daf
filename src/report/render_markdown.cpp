#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/render.hpp"
#include "report/render_link.hpp"
#include "report/render_markdown_text.hpp"
#include "report/text_layout.hpp"

namespace hailwright {

namespace {

using detail::at_line_start;
using detail::one_line;

std::string escaped(std::string_view text) {
  return detail::markdown_escaped(text);
}

std::string line_start(std::string_view text) {
  return at_line_start(escaped(one_line(text)));
}

/// Collects the blocks, one empty line between them.
class MarkdownPage {
public:
  MarkdownPage(const Document& document, MarkdownStyle style)
      : top_level_(detail::top_level(document) - (document.title.empty() ? 0 : 1)), style_(style),
        links_(document) {}

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
      line(line_start(table.caption));
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
    if (!table.file.empty()) {
      begin_block();
      line(inline_text({{std::string(detail::same_as_file), Tone::plain},
                        {table.file, Tone::plain, table.file}}));
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
    expects(detail::is_plain_name(figure.id), "a figure's id of letters, digits and -");
    put_picture("Figure: " + figure.title, figure.description, figure.id + ".svg");
  }

  void operator()(const Checklist& list) {
    if (list.items.empty()) return;
    begin_list();
    for (const Runs& item : list.items)
      bullet("", "[ ] " + inline_text(item));
  }

  void operator()(const Photo& photo) {
    expects(!photo.title.empty(), "a photograph with a title");
    expects(detail::link_kind(photo.file) == detail::LinkKind::beside, "a photograph's file");
    put_picture("Photograph: " + photo.title, photo.description, detail::path_address(photo.file));
  }

  void operator()(const Opening& opening) {
    expects(!one_line(opening.sentence).empty(), "an opening with a sentence");
    begin_block();
    line(line_text(detail::in_strong(opening.sentence)));
    (*this)(Facts{opening.facts});
    (*this)(Bullets{opening.cautions});
    if (!opening.picture.svg.empty()) (*this)(opening.picture);
  }

  void operator()(const PageBreak& /*end*/) { sheet_ended_ = true; }

  void title(std::string_view text) {
    if (text.empty()) return;
    begin_block();
    line("# " + escaped(one_line(text)));
  }

  std::string finish() { return std::move(out_); }

private:
  [[nodiscard]] std::string inline_text(const Runs& text) const {
    return detail::markdown_words(text, links_);
  }

  [[nodiscard]] std::string line_text(const Runs& text) const {
    return at_line_start(inline_text(text));
  }

  void put_picture(const std::string& title, std::string_view description,
                   const std::string& address) {
    begin_block();
    const std::string name = inline_text({{title, Tone::strong}});
    const std::string words = escaped(one_line(description));
    if (style_.pictures) {
      line(name);
      begin_block();
      line("![" + words + "](" + address + ')');
    } else {
      line(name + (words.empty() ? "" : ". ") + words);
    }
  }

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
  detail::MarkdownLinks links_;
  char marker_ = '-';
  bool list_open_ = false;
  bool sheet_ended_ = false;
};

}  // namespace

std::string render_markdown(const Document& document, MarkdownStyle style) {
  MarkdownPage page(document, style);
  page.title(document.title);
  for (const Block& block : document.blocks)
    std::visit(page, block);
  page(Paragraph{plain(document.foot)});
  return page.finish();
}

}  // namespace hailwright
