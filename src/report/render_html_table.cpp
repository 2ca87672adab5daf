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

/// Whether the first cell of a row says which row it is.
bool rows_have_names(const Table& table) {
  std::set<std::string> names;
  return std::all_of(table.rows.begin(), table.rows.end(), [&](const auto& row) {
    return !row.empty() && !is_blank(row.front()) && names.insert(row.front()).second;
  });
}

std::string cell(bool name, const std::string& set_as, std::string_view text) {
  return html_element(name ? "th" : "td", html_escaped(text),
                      with_class(name ? "scope=\"row\"" : "", set_as));
}

std::string body_rows(const Table& table, bool named) {
  for (const auto& row : table.rows)
    expects(row.size() == table.columns.size(), "as many cells as columns");
  const std::vector<std::string> classes = column_classes(table);
  std::string rows = "\n";
  for (const auto& row : table.rows) {
    std::string cells;
    for (std::size_t c = 0; c < row.size(); ++c)
      cells += cell(c == 0 && named, classes[c], row[c]);
    rows += html_element("tr", cells) + '\n';
  }
  if (table.rows.empty()) {
    const std::string wide = "class=\"none\" colspan=\"" + std::to_string(table.columns.size());
    rows += html_element("tr", html_element("td", "(no rows)", wide + '"')) + '\n';
  }
  return rows;
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
  const bool named = titled && rows_have_names(table);
  inside += "\n" + html_element("tbody", body_rows(table, named)) + '\n';
  return html_element("table", inside, form_class(table));
}

std::string scroll_classes(const Table& table) {
  constexpr std::size_t rows_at_a_glance = 24;    // [ours]
  constexpr std::size_t columns_on_a_sheet = 12;  // of paper [ours]
  std::string classes = "scroll";
  if (table.to_fill_in) return classes;
  if (table.rows.size() > rows_at_a_glance) classes += " tall";
  if (table.columns.size() > columns_on_a_sheet) classes += " wide";
  return classes;
}

}  // namespace hailwright::detail
