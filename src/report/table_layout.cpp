#include "report/table_layout.hpp"

#include <algorithm>
#include <numeric>
#include <optional>
#include <string_view>
#include <utility>

#include "hailwright/core/contract.hpp"
#include "report/text_layout.hpp"

namespace hailwright::detail {

namespace {

constexpr int cell_min = 12;                      // narrower text columns are not worth wrapping
constexpr std::string_view to_write_on = "____";  // an empty cell of a form

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

/// Narrows the widest columns first until they fit into `room` with the blanks between them; false
/// when their least widths do not.
bool narrow(std::vector<int>& widths, const std::vector<int>& least, int room) {
  const int between = column_gap * (static_cast<int>(widths.size()) - 1);
  int total = std::accumulate(widths.begin(), widths.end(), between);
  while (total > room) {
    std::optional<std::size_t> widest;
    for (std::size_t c = 0; c < widths.size(); ++c) {
      const bool gives = widths[c] > least[c];
      if (gives && (!widest || widths[c] > widths[*widest])) widest = c;
    }
    if (!widest) return false;
    --widths[*widest];
    --total;
  }
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

/// The lines of one row, each cell in its column.
std::vector<Runs> lines_of(const Grid& grid, const Cells& cells, bool from_bottom) {
  std::vector<Runs> lines(height(cells));
  for (std::size_t i = 0; i < lines.size(); ++i) {
    int owed = 0;  // blanks due before the next words
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const std::size_t above = from_bottom ? lines.size() - cells[c].size() : 0;
      const bool present = i >= above && i - above < cells[c].size();
      if (!present) {
        owed += grid.widths[c] + column_gap;
        continue;
      }
      const Runs& words = cells[c][i - above];
      const int spare = grid.widths[c] - display_width(words);
      const bool right = grid.columns[c].align == Align::right;
      append(lines[i], blanks(owed + (right ? spare : 0)), Tone::plain);
      for (const Run& run : words)
        append(lines[i], run.text, run.tone);
      owed = column_gap + (right ? 0 : spare);
    }
  }
  return lines;
}

}  // namespace

Grid tidied(const Table& table) {
  expects(!table.columns.empty(), "a table with columns");
  Grid grid;
  for (const Column& column : table.columns) {
    grid.columns.push_back({one_line(column.title), column.align});
  }
  for (const auto& row : table.rows) {
    expects(row.size() == table.columns.size(), "as many cells as columns");
    auto& cells = grid.rows.emplace_back();
    for (const std::string& text : row) {
      std::string words = one_line(text);
      if (words.empty() && table.to_fill_in) words = to_write_on;
      cells.push_back(std::move(words));
    }
  }
  return grid;
}

bool fit(Grid& grid, int room) {
  const std::size_t count = grid.columns.size();
  std::vector<int> natural;
  std::vector<int> least;
  for (std::size_t c = 0; c < count; ++c) {
    int width = display_width(grid.columns[c].title);
    for (const auto& row : grid.rows)
      width = std::max(width, display_width(row[c]));
    natural.push_back(width);
    least.push_back(least_width(grid, c, width));
  }
  grid.widths = natural;
  if (!narrow(grid.widths, least, room)) return false;
  // What the wrapped titles of figures leave over goes back to the words.
  for (std::size_t c = 0; c < count; ++c) {
    if (grid.columns[c].align == Align::left) continue;
    natural[c] = used_width(grid, c, grid.widths[c]);
    least[c] = natural[c];
  }
  grid.widths = natural;
  expects(narrow(grid.widths, least, room), "narrower figures fit where wider ones did");
  for (std::size_t c = 0; c < count; ++c)
    grid.widths[c] = used_width(grid, c, grid.widths[c]);
  return true;
}

std::vector<Runs> head_lines(const Grid& grid) {
  std::vector<std::string> titles;
  for (const Column& column : grid.columns)
    titles.push_back(column.title);
  return lines_of(grid, wrap_cells(grid, titles, Tone::strong), true);
}

Runs rule_line(const Grid& grid) {
  std::string rule;
  for (const int width : grid.widths) {
    if (!rule.empty()) rule += blanks(column_gap);
    rule += std::string(static_cast<std::size_t>(width), '-');
  }
  return plain(rule);
}

std::vector<Runs> row_lines(const Grid& grid, const std::vector<std::string>& row) {
  return lines_of(grid, wrap_cells(grid, row, Tone::plain), false);
}

}  // namespace hailwright::detail
