#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/render.hpp"
#include "report/render_link.hpp"
#include "report/table_layout.hpp"
#include "report/text_layout.hpp"

namespace hailwright {

namespace {

using detail::append;
using detail::blanks;
using detail::display_width;
using detail::Grid;
using detail::one_line;
using detail::wrap;

constexpr int step = detail::column_gap;  // indent of what stands under a heading
constexpr int prose_max = 100;  // longer lines are hard to follow; tables may use the whole width
constexpr int label_max = 18;
constexpr int label_min = 8;

Runs strong(std::string_view text) {
  return {{std::string(text), Tone::strong}};
}

/// Words that lead to an address, with the address after them; other links are left out.
Runs spelled_out(const Runs& text) {
  Runs out;
  for (const detail::LinkedRuns& group : detail::by_link(text)) {
    for (const Run& run : group.runs)
      append(out, run.text, run.tone);
    if (detail::link_kind(group.link) == detail::LinkKind::web && !detail::says_where(group)) {
      append(out, " (" + group.link + ')', Tone::plain);
    }
  }
  return out;
}

std::vector<Runs> filled(const Runs& text, int width) {
  return wrap(spelled_out(text), width);
}

/// Select graphic rendition. Source: ECMA-48, 5th edition, 8.3.117 (1 bold, 31 to 33
/// colours; from memory).
std::string_view graphic_rendition(Tone tone) {
  switch (tone) {
  case Tone::plain:
    return "";
  case Tone::strong:
    return "\x1b[1m";
  case Tone::good:
    return "\x1b[1;32m";
  case Tone::bad:
    return "\x1b[1;31m";
  case Tone::open:
    return "\x1b[1;33m";
  }
  return "";
}
constexpr std::string_view reset = "\x1b[0m";

/// Collects the lines of a screen: none ends in blanks, and colour never runs over a line's end.
class Screen {
public:
  Screen(ConsoleStyle style, int top)
      : top_level_(top), width_(std::clamp(style.width, 40, 120)), colour_(style.colour),
        unicode_(style.unicode) {}

  void operator()(const Heading& heading) {
    expects(heading.level >= 1 && heading.level <= 3, "a heading of level 1 to 3");
    begin_block();
    indent_ = step * (heading.level - top_level_);
    put(filled(detail::in_strong(heading.text), prose_room()));
    indent_ = indent_ + step;
    under_heading_ = true;
  }

  void operator()(const Paragraph& paragraph) {
    const std::vector<Runs> lines = filled(paragraph.text, prose_room());
    if (lines.empty()) return;
    begin_block();
    put(lines);
  }

  void operator()(const Facts& facts) {
    if (facts.items.empty()) return;
    begin_block();
    put(facts);
  }

  void operator()(const Bullets& bullets) {
    if (bullets.items.empty()) return;
    begin_block();
    for (const Runs& item : bullets.items)
      hang(plain("- "), filled(item, prose_room() - step));
  }

  void operator()(const CautionList& cautions) {
    if (cautions.items.empty()) return;
    begin_block();
    for (const CautionItem& item : cautions.items) {
      expects(!item.title.empty() && !item.text.empty(), "a caution with title and text");
      // The id leads to the source in `hailwright sources`; a source line each would bury the text.
      Runs title = strong(item.title);
      if (!item.id.empty()) title.push_back({" (" + item.id + ")", Tone::plain});
      put(wrap(title, prose_room()));
      hang(plain(blanks(step)), wrap(plain(item.text), prose_room() - step));
    }
  }

  void operator()(const Table& table) {
    Grid grid = detail::tidied(table);
    begin_block();
    put(wrap(plain(table.caption), prose_room()));
    if (detail::fit(grid, width_ - indent_)) {
      put_grid(grid);
    } else {
      put_rows_as_facts(grid);
    }
    if (grid.rows.empty()) put(plain("(no rows)"));
    if (!table.file.empty()) {
      put(wrap(plain(std::string(detail::same_as_file) + table.file), prose_room()));
    }
  }

  void operator()(const Snippet& snippet) {
    if (snippet.lines.empty()) return;
    begin_block();
    const int around = std::exchange(indent_, 0);  // what is copied must not carry our indent
    for (const std::string& text : snippet.lines)
      put(Runs{{detail::printable(text), Tone::plain}});
    indent_ = around;
  }

  void operator()(const Figure& figure) {
    expects(!figure.title.empty(), "a figure with a title");
    begin_block();
    put(wrap(strong("Figure: " + figure.title), prose_room()));
    if (unicode_) put_sketch(figure.sketch);
    put_description(figure.description);
  }

  void operator()(const Checklist& list) {
    if (list.items.empty()) return;
    begin_block();
    const Runs box = plain("[ ] ");
    for (const Runs& item : list.items)
      hang(box, filled(item, prose_room() - display_width(box)));
  }

  void operator()(const Photo& photo) {
    expects(!photo.title.empty(), "a photograph with a title");
    begin_block();
    put(wrap(strong("Photograph: " + photo.title), prose_room()));
    put_description(photo.description);
  }

  void operator()(const Opening& opening) {
    expects(!detail::one_line(opening.sentence).empty(), "an opening with a sentence");
    begin_block();
    put(filled(detail::in_strong(opening.sentence), prose_room()));
    (*this)(Facts{opening.facts});
    (*this)(Bullets{opening.cautions});
    if (!opening.picture.svg.empty()) (*this)(opening.picture);
  }

  void operator()(const PageBreak& /*end*/) { sheet_ended_ = true; }

  void title(std::string_view text) {
    if (text.empty()) return;
    begin_block();
    put(wrap(strong(text), prose_room()));
  }

  void foot(std::string_view text) {
    indent_ = 0;
    under_heading_ = false;
    (*this)(Paragraph{plain(std::string(text))});
  }

  std::string finish() { return std::move(out_); }

private:
  [[nodiscard]] int prose_room() const { return std::min(width_ - indent_, prose_max); }

  /// An empty line between blocks, none between a heading and what it heads. Where a sheet of paper
  /// ended, a rule; none before the first block or after the last.
  void begin_block() {
    if (!out_.empty() && (!under_heading_ || sheet_ended_)) out_ += '\n';
    if (sheet_ended_ && !out_.empty()) {
      out_ += std::string(static_cast<std::size_t>(std::min(width_, prose_max)), '-') + "\n\n";
    }
    under_heading_ = false;
    sheet_ended_ = false;
  }

  void put(const std::vector<Runs>& lines) {
    for (const Runs& line : lines)
      put(line);
  }

  void put(Runs line) {
    while (!line.empty()) {
      std::string& last = line.back().text;
      last.erase(last.find_last_not_of(' ') + 1);
      if (!last.empty()) break;
      line.pop_back();
    }
    if (!line.empty()) out_ += blanks(indent_);
    for (const Run& run : line) {
      const std::string_view start = graphic_rendition(run.tone);
      const bool marked = colour_ && !start.empty();
      if (marked) out_ += start;
      out_ += run.text;
      if (marked) out_ += reset;
    }
    out_ += '\n';
  }

  /// The lines with `first` in front of the first and as many blanks in front of the others.
  void hang(const Runs& first, const std::vector<Runs>& lines) {
    const Runs further = plain(blanks(display_width(first)));
    Runs front = first;
    for (const Runs& line : lines) {
      for (const Run& run : line)
        append(front, run.text, run.tone);
      put(front);
      front = further;
    }
    if (lines.empty()) put(first);
  }

  void put_description(const std::string& description) {
    hang(plain(blanks(step)), wrap(plain(description), prose_room() - step));
  }

  /// As it stands, where all of its lines fit; a wrapped picture shows nothing.
  void put_sketch(const std::vector<std::string>& sketch) {
    std::vector<Runs> lines;
    for (const std::string& line : sketch) {
      lines.push_back(plain(detail::printable(line)));
      if (display_width(lines.back()) > width_ - indent_) return;
    }
    put(lines);
  }

  void put(const Facts& facts) {
    const int most = std::clamp(prose_room() / 3, label_min, label_max);
    int column = 0;
    for (const Fact& fact : facts.items) {
      const int width = display_width(one_line(fact.label));
      if (width <= most) column = std::max(column, width);
    }
    column += step;
    for (const Fact& fact : facts.items)
      put(fact, column);
  }

  void put(const Fact& fact, int column) {
    const std::string label = one_line(fact.label);
    std::vector<Runs> lines;
    for (const Runs& text : fact.lines) {
      for (Runs& line : filled(text, prose_room() - column))
        lines.push_back(std::move(line));
    }
    const int spare = column - display_width(label);
    if (spare >= step) {
      hang(plain(label + blanks(spare)), lines);
      return;
    }
    put(wrap(plain(label), prose_room()));
    if (!lines.empty()) hang(plain(blanks(column)), lines);
  }

  void put_grid(const Grid& grid) {
    const std::vector<Runs> head = detail::head_lines(grid);
    put(head);
    if (!head.empty()) put(detail::rule_line(grid));
    const bool spread = std::any_of(grid.rows.begin(), grid.rows.end(), [&](const auto& row) {
      return display_width(row.front()) > grid.widths.front();
    });
    for (std::size_t r = 0; r < grid.rows.size(); ++r) {
      if (spread && r > 0) out_ += '\n';  // else a wrapped first cell looks like another row
      put(detail::row_lines(grid, grid.rows[r]));
    }
  }

  void put_rows_as_facts(const Grid& grid) {
    bool first = true;
    for (const auto& row : grid.rows) {
      if (!first) out_ += '\n';
      first = false;
      Facts facts;
      for (std::size_t c = 0; c < row.size(); ++c) {
        if (!row[c].empty()) facts.items.push_back({grid.columns[c].title, {plain(row[c])}});
      }
      put(facts);
    }
  }

  std::string out_;
  int top_level_;
  int width_;
  bool colour_;
  bool unicode_;
  int indent_ = 0;
  bool under_heading_ = false;
  bool sheet_ended_ = false;
};

}  // namespace

std::string render_console(const Document& document, ConsoleStyle style) {
  Screen screen(style, detail::top_level(document));
  screen.title(document.title);
  for (const Block& block : document.blocks)
    std::visit(screen, block);
  screen.foot(document.foot);
  return screen.finish();
}

}  // namespace hailwright
