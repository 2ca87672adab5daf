#include <string>
#include <string_view>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/render.hpp"
#include "report/text_layout.hpp"

namespace hailwright {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::size_t skip_digits(std::string_view text, std::size_t i) {
  while (i < text.size() && is_digit(text[i]))
    ++i;
  return i;
}

/// A decimal number and nothing else: "-1.7", "+5", "2e-3".
bool is_number(std::string_view text) {
  std::size_t i = 0;
  if (i < text.size() && (text[i] == '-' || text[i] == '+')) ++i;
  const std::size_t whole = i;
  i = skip_digits(text, i);
  if (i == whole) return false;
  if (i < text.size() && text[i] == '.') {
    const std::size_t fraction = i + 1;
    i = skip_digits(text, fraction);
    if (i == fraction) return false;
  }
  if (i < text.size() && (text[i] == 'e' || text[i] == 'E')) {
    ++i;
    if (i < text.size() && (text[i] == '-' || text[i] == '+')) ++i;
    const std::size_t exponent = i;
    i = skip_digits(text, exponent);
    if (i == exponent) return false;
  }
  return i == text.size();
}

/// Characters that make spreadsheets read a cell as a formula. Source: OWASP, "CSV Injection"
/// (= + - @, tab, carriage return, line feed and the full-width forms; from memory).
bool starts_formula(char32_t c) {
  constexpr std::u32string_view starters = U"=+-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20";
  return starters.find(c) != std::u32string_view::npos;
}

/// Blanks and invisible characters in front do not make a formula harmless.
bool could_be_formula(std::string_view text) {
  constexpr char32_t no_break_space = 0x00A0;
  for (std::size_t i = 0; i < text.size();) {
    const detail::Character c = detail::character_at(text, i);
    if (starts_formula(c.code)) return !is_number(text);
    const bool unseen =
        c.code == U' ' || c.code == no_break_space || detail::character_width(c.code) == 0;
    if (!unseen) return false;
    i += c.length;
  }
  return false;
}

std::string csv_cell(std::string_view raw) {
  std::string text = detail::printable(raw, detail::Breaks::kept);
  const bool guarded = could_be_formula(text);
  if (guarded) text.insert(text.begin(), '\'');
  if (!guarded && text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace

std::string render_csv(const Table& table) {
  expects(!table.columns.empty(), "a table with columns");
  std::string out;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    if (c > 0) out += ',';
    out += csv_cell(table.columns[c].title);
  }
  out += "\r\n";
  for (const auto& row : table.rows) {
    expects(row.size() == table.columns.size(), "as many cells as columns");
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (c > 0) out += ',';
      out += csv_cell(row[c]);
    }
    out += "\r\n";
  }
  return out;
}

}  // namespace hailwright
