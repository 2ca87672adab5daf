#include "input/schema_patterns.hpp"

#include <fmt/format.h>

namespace hailwright::input::pattern {

namespace {

constexpr std::string_view blanks = "(?:[ \\t]|\u00A0|\u202F)*";
constexpr std::string_view tail = "[ \\t]*";
constexpr std::string_view sign = "(?:[-+]|−)?";
// No zero leads, and a point stands beside at least one digit.
constexpr std::string_view digits =
    "(?:(?:0|[1-9][0-9]*)(?:\\.[0-9]*)?|\\.[0-9]+)(?:[eE][-+]?[0-9]+)?";
constexpr std::string_view whole = "(?:0|[1-9][0-9]*)";

std::string exactly(std::string_view inside) {
  return fmt::format("^{}$", inside);
}

std::string signed_number() {
  return fmt::format("{}{}{}", blanks, sign, digits);
}

/// Symbols of the measure. None holds a character that means something to an expression.
std::string units_of(Measure measure) {
  std::string all;
  for (const Unit& unit : units()) {
    if (unit.measure == measure) all += fmt::format("{}{}", all.empty() ? "" : "|", unit.symbol);
  }
  return fmt::format("(?:{})", all);
}

std::string unit_behind(Measure measure) {
  return fmt::format("{}{}{}", blanks, units_of(measure), tail);
}

/// A size is more than nothing: no minus. A plus joins terms, and where there is but one it leads.
std::string positive(Measure measure, bool plus) {
  return fmt::format("{}{}{}{}", blanks, plus ? "\\+?" : "", digits, unit_behind(measure));
}

/// What one term of a statement may be.
std::string term(const StatedForm& form, bool plus) {
  std::string ways = positive(form.measure, plus);
  if (form.percent && form.measure != Measure::ratio) ways += '|' + positive(Measure::ratio, plus);
  if (form.digits)
    ways += fmt::format("|{}{}{}{}digits?", blanks, plus ? "\\+?" : "", digits, blanks);
  return fmt::format("(?:{})", ways);
}

std::string one_term(const StatedForm& form) {
  return term({form.measure, form.percent, false}, true);
}

}  // namespace

std::string amount(Measure measure) {
  return exactly(signed_number() + unit_behind(measure));
}

std::string count() {
  return exactly(fmt::format("{}{}{}", blanks, whole, tail));
}

std::string number() {
  return exactly(signed_number() + std::string(blanks));
}

std::string sides(std::size_t least, std::size_t most) {
  const std::string times = fmt::format("{}(?:x|×)", blanks);
  const std::string more = most > least ? fmt::format("{{{},{}}}", least - 1, most - 1)
                                        : fmt::format("{{{}}}", least - 1);
  return exactly(fmt::format("(?:{}{}){}{}{}", signed_number(), times, more, signed_number(),
                             unit_behind(Measure::length)));
}

std::string grid() {
  constexpr std::string_view cells = "(?:[1-9][0-9]?|1[0-9]{2}|200)";
  return exactly(fmt::format("{0}{1}{0}(?:x|×){0}{1}{0}", blanks, cells));
}

std::string money() {
  return exactly(fmt::format("{}{}[A-Z]{{3}}{}", signed_number(), blanks, tail));
}

std::string date() {
  return "^(?!0000)[0-9]{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])$";
}

std::string accuracy(const StatedForm& form) {
  const std::string one = term(form, false);
  return exactly(fmt::format("(?:unknown|{}(?: *\\+{})*)", one, one));
}

std::string size(const StatedForm& form) {
  return exactly(one_term(form));
}

std::string within(const StatedForm& form) {
  return exactly(fmt::format("{},{}", one_term(form), positive(Measure::ratio, true)));
}

std::string any_of_plain(const std::vector<std::string>& texts) {
  std::string all;
  for (const std::string& text : texts) {
    if (!all.empty()) all += '|';
    for (const char c : text) {
      const bool upper = c >= 'A' && c <= 'Z';
      const bool lower = c >= 'a' && c <= 'z';
      if (upper || lower) {
        const char other = static_cast<char>(upper ? c - 'A' + 'a' : c - 'a' + 'A');
        all += upper ? fmt::format("[{}{}]", c, other) : fmt::format("[{}{}]", other, c);
      } else if (c == ' ') {
        all += "\\s+";
      } else if (c == '.' || c == '(' || c == ')' || c == '+' || c == '/') {
        all += fmt::format("\\{}", c);
      } else {
        all += c;
      }
    }
  }
  return exactly(fmt::format("\\s*(?:{})\\s*", all));
}

}  // namespace hailwright::input::pattern
