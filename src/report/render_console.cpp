#include <algorithm>
#include <numeric>
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

using detail::append;
using detail::display_width;
using detail::longest_word;
using detail::one_line;
using detail::wrap;

constexpr int step = 2;         // indent of what stands under a heading; blanks between columns
constexpr int prose_max = 100;  // longer lines are hard to follow; tables may use the whole width
constexpr int label_max = 18;
constexpr int label_min = 8;
constexpr int cell_min = 12;  // narrower text columns are not worth wrapping
constexpr std::string_view source_word = " source: ";

std::string blanks(int count) {
  return std::string(static_cast<std::size_t>(std::max(count, 0)), ' ');
}

Runs strong(std::string_view text) {
  return {{std::string(text), Tone::strong}};
}

/// Select graphic rendition. Source: ECMA-48, 5th edition, 8.3.117 (1 bold, 2 faint, 31 to 33
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
constexpr std::string_view faint = "\x1b[2m";
constexpr std::string_view reset = "\x1b[0m";

/// A table's words and the room for them.
struct Grid {
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;
  std::vector<int> widths;
};

Grid tidied(const Table& table) {
  expects(!table.columns.empty(), "a table with columns");
  Grid grid;
  for (const Column& column : table.columns) {
    grid.columns.push_back({one_line(column.title), column.align});
  }
  for (const auto& row : table.rows) {
    expects(row.size() == table.columns.size(), "as many cells as columns");
    auto& cells = grid.rows.emplace_back();
    for (const std::string& text : row)
      cells.push_back(one_line(text));
  }
  return grid;
}

/// The widest line of a column when its cells are wrapped at `width`.
int used_width(const Grid& grid, std::size_t column, int width) {
  int used = 0;
  const auto measure = [&](const std::string& text) {
    for (const Runs& line : wrap(plain(text), width))
      used = std::max(used, display_width(line));
  };
  measure(grid.columns[column].title);
  for (const auto& row : grid.rows)
    measure(row[column]);
  return used;
}

/// The least width of a column: figures stay on one line, words stay whole, and a text column is
/// left wide enough to read.
int least_width(const Grid& grid, std::size_t column, int natural) {
  const bool figures = grid.columns[column].align == Align::right;
  int least = longest_word(grid.columns[column].title);
  for (const auto& row : grid.rows) {
    least = std::max(least, figures ? display_width(row[column]) : longest_word(row[column]));
  }
  return figures ? least : std::max(least, std::min(natural, cell_min));
}

/// Fits the columns into `room` by taking from the widest first; false when that cannot be done.
bool fit(Grid& grid, int room) {
  const std::size_t count = grid.columns.size();
  std::vector<int> least(count);
  for (std::size_t c = 0; c < count; ++c) {
    int natural = display_width(grid.columns[c].title);
    for (const auto& row : grid.rows)
      natural = std::max(natural, display_width(row[c]));
    grid.widths.push_back(natural);
    least[c] = least_width(grid, c, natural);
  }
  int total =
      std::accumulate(grid.widths.begin(), grid.widths.end(), step * (static_cast<int>(count) - 1));
  while (total > room) {
    std::optional<std::size_t> widest;
    for (std::size_t c = 0; c < count; ++c) {
      const bool gives = grid.widths[c] > least[c];
      if (gives && (!widest || grid.widths[c] > grid.widths[*widest])) widest = c;
    }
    if (!widest) return false;
    --grid.widths[*widest];
    --total;
  }
  for (std::size_t c = 0; c < count; ++c)
    grid.widths[c] = used_width(grid, c, grid.widths[c]);
  return true;
}

using Cells = std::vector<std::vector<Runs>>;

std::size_t height(const Cells& cells) {
  std::size_t lines = 0;
  for (const auto& cell : cells)
    lines = std::max(lines, cell.size());
  return lines;
}

Cells wrap_cells(const Grid& grid, const std::vector<std::string>& texts, Tone tone) {
  Cells cells;
  for (std::size_t c = 0; c < texts.size(); ++c) {
    cells.push_back(wrap({{texts[c], tone}}, grid.widths[c]));
  }
  return cells;
}

/// The lines of one row of a table, each cell in its column.
std::vector<Runs> row_lines(const Grid& grid, const Cells& cells, bool from_bottom) {
  std::vector<Runs> lines(height(cells));
  for (std::size_t i = 0; i < lines.size(); ++i) {
    int owed = 0;  // blanks due before the next words
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const std::size_t above = from_bottom ? lines.size() - cells[c].size() : 0;
      const bool present = i >= above && i - above < cells[c].size();
      const Runs words = present ? cells[c][i - above] : Runs{};
      const int spare = grid.widths[c] - display_width(words);
      const bool right = grid.columns[c].align == Align::right;
      append(lines[i], blanks(owed + (right ? spare : 0)), Tone::plain);
      for (const Run& run : words)
        append(lines[i], run.text, run.tone);
      owed = step + (right ? 0 : spare);
    }
  }
  return lines;
}

/// Collects the lines of a screen: none ends in blanks, and colour never runs over a line's end.
class Screen {
public:
  explicit Screen(ConsoleStyle style)
      : width_(std::clamp(style.width, 40, 120)), colour_(style.colour) {}

  void operator()(const Heading& heading) {
    expects(heading.level >= 1 && heading.level <= 3, "a heading of level 1 to 3");
    begin_block();
    indent_ = step * (heading.level - 1);
    Runs words = heading.text;
    for (Run& run : words) {
      if (run.tone == Tone::plain) run.tone = Tone::strong;
    }
    put(wrap(words, prose_room()));
    indent_ = step * heading.level;
    under_heading_ = true;
  }

  void operator()(const Paragraph& paragraph) {
    const std::vector<Runs> lines = wrap(paragraph.text, prose_room());
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
      hang(plain("- "), wrap(item, prose_room() - step));
  }

  void operator()(const CautionList& cautions) {
    if (cautions.items.empty()) return;
    begin_block();
    for (const CautionItem& item : cautions.items) {
      expects(!item.title.empty() && !item.text.empty(), "a caution with title and text");
      put(wrap(strong(item.title), prose_room()));
      hang(plain(blanks(step)), wrap(plain(item.text), prose_room() - step));
      put_source(item);
    }
  }

  void operator()(const Table& table) {
    Grid grid = tidied(table);
    begin_block();
    put(wrap(plain(table.caption), prose_room()));
    if (fit(grid, width_ - indent_)) {
      put_grid(grid);
    } else {
      put_rows_as_facts(grid);
    }
    if (grid.rows.empty()) put(plain("(no rows)"));
  }

  void operator()(const Snippet& snippet) {
    if (snippet.lines.empty()) return;
    begin_block();
    const int around = std::exchange(indent_, 0);  // what is copied must not carry our indent
    for (const std::string& text : snippet.lines)
      put(Runs{{detail::printable(text), Tone::plain}});
    indent_ = around;
  }

  void title(std::string_view text) {
    if (text.empty()) return;
    begin_block();
    put(wrap(strong(text), prose_room()));
  }

  std::string finish() { return std::move(out_); }

private:
  [[nodiscard]] int prose_room() const { return std::min(width_ - indent_, prose_max); }

  /// An empty line between blocks, none between a heading and what it heads.
  void begin_block() {
    if (!out_.empty() && !under_heading_) out_ += '\n';
    under_heading_ = false;
  }

  void put(const std::vector<Runs>& lines) {
    for (const Runs& line : lines)
      put(line);
  }

  void put(Runs line, bool quiet = false) {
    while (!line.empty()) {
      std::string& last = line.back().text;
      last.erase(last.find_last_not_of(' ') + 1);
      if (!last.empty()) break;
      line.pop_back();
    }
    if (!line.empty()) out_ += blanks(indent_);
    for (const Run& run : line) {
      const std::string_view start = quiet ? faint : graphic_rendition(run.tone);
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
      for (Runs& line : wrap(text, prose_room() - column))
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
    std::vector<std::string> titles;
    Runs rule;
    for (std::size_t c = 0; c < grid.columns.size(); ++c) {
      titles.push_back(grid.columns[c].title);
      append(rule, blanks(c > 0 ? step : 0), Tone::plain);
      append(rule, std::string(static_cast<std::size_t>(grid.widths[c]), '-'), Tone::plain);
    }
    const Cells head = wrap_cells(grid, titles, Tone::strong);
    if (height(head) > 0) {
      put(row_lines(grid, head, true));
      put(rule);
    }
    const bool spread = std::any_of(grid.rows.begin(), grid.rows.end(), [&](const auto& row) {
      return display_width(row.front()) > grid.widths.front();
    });
    for (std::size_t r = 0; r < grid.rows.size(); ++r) {
      if (spread && r > 0) out_ += '\n';  // else a wrapped first cell looks like another row
      put(row_lines(grid, wrap_cells(grid, grid.rows[r], Tone::plain), false));
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

  /// Where a caution comes from, on one quiet line; what does not fit is cut off.
  void put_source(const CautionItem& item) {
    constexpr std::string_view cut = " ...";
    std::string words = blanks(step) + "(" + one_line(item.id) + ")";
    const std::string source = one_line(item.source);
    const int room = prose_room() - display_width(words) - display_width(source_word);
    if (display_width(source) <= room && !source.empty()) {
      words += std::string(source_word) + source;
    } else if (room > cell_min) {
      const std::vector<Runs> lines = wrap(plain(source), room - display_width(cut));
      if (lines.size() > 1 && display_width(lines.front()) <= room) {
        words += std::string(source_word) + lines.front().front().text + std::string(cut);
      }
    }
    put(plain(words), true);
  }

  std::string out_;
  int width_;
  bool colour_;
  int indent_ = 0;
  bool under_heading_ = false;
};

}  // namespace

std::string render_console(const Document& document, ConsoleStyle style) {
  Screen screen(style);
  screen.title(document.title);
  for (const Block& block : document.blocks)
    std::visit(screen, block);
  return screen.finish();
}

}  // namespace hailwright
