#include "report/render_html_table.hpp"

#include <algorithm>
#include <set>
#include <string_view>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "report/render_html_text.hpp"
#include "report/text_layout.hpp"

namespace hailwright::detail {

namespace {

/// A form that would leave much of a sheet empty may run on to the next one.
const char* form_class(const Table& table) {
  constexpr std::size_t long_form = 16;
  if (!table.to_fill_in) return "";
  return table.rows.size() > long_form ? "class=\"form long\"" : "class=\"form\"";
}

/// Longer text may break into lines, and longer words inside; what is shorter, such as a date,
/// stays in one line, since another column can better give way.
constexpr int short_words = 24;  // in characters [ours]

std::string aligned(const Column& column, const std::string& set_as) {
  if (column.align == Align::left) return set_as;
  return set_as == "breaks" ? "number breaks" : "number";
}

/// How the cells of each column are set.
std::vector<std::string> column_classes(const Table& table) {
  const auto any_cell = [&](std::size_t c, auto holds) {
    return std::any_of(table.rows.begin(), table.rows.end(),
                       [&](const auto& row) { return holds(row[c]); });
  };
  const auto is_long = [](const auto& text) { return display_width(text) > short_words; };
  const auto has_long_word = [](const auto& text) { return longest_word(text) > short_words; };
  std::vector<std::string> classes;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    std::string set_as = "short";
    if (any_cell(c, is_long)) {
      const bool figures = table.columns[c].align == Align::right;
      set_as = figures || any_cell(c, has_long_word) ? "breaks" : "";
    }
    classes.push_back(aligned(table.columns[c], set_as));
  }
  return classes;
}

std::string with_class(std::string attributes, std::string_view set_as) {
  if (set_as.empty()) return attributes;
  if (!attributes.empty()) attributes += ' ';
  return attributes + "class=\"" + std::string(set_as) + '"';
}

std::string head_cell(const Column& column) {
  if (is_blank(column.title)) return html_element("td", "");
  const std::string set_as = longest_word(column.title) > short_words ? "breaks" : "";
  return html_element("th", html_escaped(column.title),
                      with_class("scope=\"col\"", aligned(column, set_as)));
}

std::string head_row(const Table& table) {
  std::string cells;
  for (const Column& column : table.columns)
    cells += head_cell(column);
  return html_element("tr", cells);
}

/// Whether the first so many cells of a row say which row it is.
bool rows_have_names(const Table& table, std::size_t cells) {
  std::set<std::vector<std::string>> names;
  return std::all_of(table.rows.begin(), table.rows.end(), [&](const auto& row) {
    if (row.size() < cells) return false;
    std::vector<std::string> name(row.begin(), row.begin() + static_cast<std::ptrdiff_t>(cells));
    const bool said =
        std::none_of(name.begin(), name.end(), [](const auto& c) { return is_blank(c); });
    return said && names.insert(std::move(name)).second;
  });
}

/// How many of the first cells together name a row; 0 where no few do.
std::size_t cells_of_names(const Table& table) {
  constexpr std::size_t most = 3;  // [ours]
  for (std::size_t cells = 1; cells <= std::min(most, table.columns.size()); ++cells) {
    if (rows_have_names(table, cells)) return cells;
  }
  return 0;
}

std::string html_cell(bool name, const std::string& set_as, std::string_view text) {
  return html_element(name ? "th" : "td", html_escaped(text),
                      with_class(name ? "scope=\"row\"" : "", set_as));
}

std::string body_rows(const Table& table, std::size_t naming_cells) {
  for (const auto& row : table.rows)
    expects(row.size() == table.columns.size(), "as many cells as columns");
  const std::vector<std::string> classes = column_classes(table);
  std::string rows = "\n";
  for (const auto& row : table.rows) {
    std::string cells;
    for (std::size_t c = 0; c < row.size(); ++c)
      cells += html_cell(c < naming_cells, classes[c], row[c]);
    rows += html_element("tr", cells) + '\n';
  }
  if (table.rows.empty()) {
    const std::string wide = "class=\"none\" colspan=\"" + std::to_string(table.columns.size());
    rows += html_element("tr", html_element("td", "(no rows)", wide + '"')) + '\n';
  }
  return rows;
}

/// The least width of a column whose cells are set so, in characters with the room beside them.
int least_width(const Table& table, std::size_t c, bool may_break) {
  constexpr int beside = 2;
  constexpr int of_long_text = 14;  // a few words a line [ours]
  int width = std::min(longest_word(table.columns[c].title), short_words);
  if (may_break) return beside + std::max(width, of_long_text);
  for (const auto& row : table.rows)
    width = std::max(width, display_width(row[c]));
  return beside + width;
}

struct Extent {
  int width = 0;           ///< the least, in characters
  bool may_break = false;  ///< a column is as wide as there is room
};

Extent extent_of(const Table& table) {
  const std::vector<std::string> classes = column_classes(table);
  Extent extent;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const bool may_break = classes[c].empty() || classes[c].ends_with("breaks");
    extent.width += least_width(table, c, may_break);
    extent.may_break = extent.may_break || may_break;
  }
  return extent;
}

}  // namespace

std::string html_table(const Table& table) {
  expects(!table.columns.empty(), "a table with columns");
  std::string inside;
  if (!is_blank(table.caption))
    inside += "\n" + html_element("caption", html_escaped(table.caption));
  const bool titled = std::any_of(table.columns.begin(), table.columns.end(),
                                  [](const Column& c) { return !is_blank(c.title); });
  if (titled) inside += "\n" + html_element("thead", head_row(table));
  const std::size_t naming_cells = titled ? cells_of_names(table) : 0;
  inside += "\n" + html_element("tbody", body_rows(table, naming_cells)) + '\n';
  return html_element("table", inside, form_class(table));
}

TableBox table_box(const Table& table) {
  // Widths in characters, from the sizes of type in the style sheet [ours].
  constexpr int telephone = 34;
  constexpr int sheet = 92;
  constexpr int sheet_in_small = 112;
  constexpr int sheet_in_smallest = 138;
  constexpr std::size_t rows_at_a_glance = 24;
  TableBox box{.classes = "scroll", .may_scroll = true};
  if (table.to_fill_in) return box;
  const bool tall = table.rows.size() > rows_at_a_glance;
  const auto [width, may_break] = extent_of(table);
  box.may_scroll = tall || may_break || width > telephone;
  box.off_paper = width > sheet_in_smallest && !table.file.empty();
  if (tall) box.classes += " tall";
  if (box.off_paper) {
    box.classes += " off-paper";
  } else if (width > sheet_in_small) {
    box.classes += " smallest";
  } else if (width > sheet) {
    box.classes += " small";
  }
  return box;
}

}  // namespace hailwright::detail
