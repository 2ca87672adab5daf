#include "core/leading_number.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>

#include "core/quoted.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/core/source.hpp"

namespace hailwright::detail {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

}  // namespace

std::size_t skip_blanks(std::string_view text, std::size_t pos) {
  constexpr std::array<std::string_view, 4> blanks{" ", "\t", "\u00A0", "\u202F"};
  for (;;) {
    const std::string_view rest = text.substr(pos);
    const auto blank = std::find_if(blanks.begin(), blanks.end(),
                                    [&](std::string_view b) { return rest.starts_with(b); });
    if (blank == blanks.end()) return pos;
    pos += blank->size();
  }
}

std::size_t skip_digits(std::string_view text, std::size_t pos) {
  while (pos < text.size() && is_digit(text[pos]))
    ++pos;
  return pos;
}

TextProblem problem_at(std::string_view code, std::string_view text, std::size_t begin,
                       std::size_t end, std::string message, std::vector<std::string> hints) {
  return {code, count_characters(text.substr(0, begin)),
          count_characters(text.substr(begin, end - begin)), std::move(message), std::move(hints)};
}

TextProblem out_of_range(std::string_view text, std::size_t begin, std::size_t end) {
  return problem_at("U10", text, begin, end,
                    fmt::format("{} is beyond the numbers that can be computed with",
                                quoted(text.substr(begin, end - begin))),
                    {"check the digits and the exponent"});
}

namespace {

/// Groups of digits with marks between them, such as "1,234.5" or "1 000".
struct DigitGroups {
  std::vector<std::string_view> groups;
  std::vector<std::string_view> marks;
  std::size_t end = 0;
};

DigitGroups digit_groups(std::string_view text, std::size_t begin) {
  constexpr std::array<std::string_view, 5> joiners{".", ",", "_", "'", "’"};
  DigitGroups found;
  std::size_t pos = begin;
  for (;;) {
    found.end = skip_digits(text, pos);
    found.groups.push_back(text.substr(pos, found.end - pos));
    std::size_t next = skip_blanks(text, found.end);
    if (next == found.end) {
      const std::string_view rest = text.substr(next);
      const auto joiner = std::find_if(joiners.begin(), joiners.end(),
                                       [&](std::string_view j) { return rest.starts_with(j); });
      if (joiner != joiners.end()) next += joiner->size();
    }
    if (next == found.end || next >= text.size() || !is_digit(text[next])) return found;
    const std::string_view mark = text.substr(found.end, next - found.end);
    found.marks.push_back(skip_blanks(mark, 0) == mark.size() ? " " : mark);
    pos = next;
  }
}

std::string joined(const std::vector<std::string_view>& groups, std::size_t count) {
  std::string digits;
  for (std::size_t i = 0; i < count; ++i)
    digits += groups[i];
  return digits;
}

/// What is wrong with digits that go on behind another mark than the decimal one. `begin` is the
/// first digit.
TextProblem grouping_problem(std::string_view text, std::size_t begin, char decimal) {
  const DigitGroups run = digit_groups(text, begin);
  const auto& groups = run.groups;
  const auto& marks = run.marks;
  const std::size_t end = run.end;
  const std::string_view whole = text.substr(begin, end - begin);
  const std::string_view other = decimal == '.' ? "," : ".";
  const std::string_view decimal_name = decimal == '.' ? "point" : "comma";
  const bool threes = std::all_of(groups.begin() + 1, groups.end(),
                                  [](std::string_view g) { return g.size() == 3; });
  const bool one_mark = std::all_of(marks.begin(), marks.end(),
                                    [&](std::string_view m) { return m == marks.front(); });
  const std::string all = joined(groups, groups.size());
  const std::string parted =
      joined(groups, groups.size() - 1) + decimal + std::string(groups.back());
  const auto problem = [&](std::string_view code, std::string message,
                           std::vector<std::string> hints) {
    return problem_at(code, text, begin, end, std::move(message), std::move(hints));
  };

  if (marks.size() == 1 && marks.front() == other) {
    if (threes && groups.front().size() <= 3 && groups.front() != "0") {
      return problem("U06", fmt::format("{} can be read in two ways", whole),
                     {"write " + all + ", thousands are not grouped",
                      "write " + parted + fmt::format(", the decimal mark is a {}", decimal_name)});
    }
    return problem("U05", fmt::format("the decimal mark is a {}, found {}", decimal_name, whole),
                   {"write " + parted});
  }
  const bool odd_mark = marks.front() == "_" || marks.front() == "'" || marks.front() == "’";
  if (one_mark && (threes || odd_mark)) {
    return problem("U06", fmt::format("digits are not grouped, found {}", whole), {"write " + all});
  }
  const bool decimals_last = marks.size() >= 2 && (marks.back() == "." || marks.back() == ",") &&
                             std::count(marks.begin(), marks.end(), marks.front()) + 1 ==
                                 static_cast<std::ptrdiff_t>(marks.size());
  if (decimals_last && marks.front() != marks.back()) {
    return problem("U06", fmt::format("digits are not grouped, found {}", whole),
                   {"write " + parted});
  }
  return problem("U12", fmt::format("{} is not one number", quoted(whole)),
                 {"write one number, such as 23.5"});
}

/// The parts of a number by the grammar, before its value is taken.
struct Parts {
  bool negative = false;
  std::string_view whole;     ///< digits before the decimal mark
  std::string_view fraction;  ///< digits after it
  std::string_view exponent;  ///< with its sign, without the e
  std::size_t digits_at = 0;  ///< where the sign ends
  std::size_t end = 0;
};

Parts number_parts(std::string_view text, std::size_t begin, char decimal) {
  constexpr std::string_view minus = "−";  // U+2212
  Parts parts;
  std::size_t pos = begin;
  if (text.substr(pos).starts_with(minus)) {
    parts.negative = true;
    pos += minus.size();
  } else if (pos < text.size() && (text[pos] == '-' || text[pos] == '+')) {
    parts.negative = text[pos] == '-';
    ++pos;
  }
  parts.digits_at = pos;
  parts.end = skip_digits(text, pos);
  parts.whole = text.substr(pos, parts.end - pos);
  if (parts.end < text.size() && text[parts.end] == decimal) {
    const std::size_t after = skip_digits(text, parts.end + 1);
    parts.fraction = text.substr(parts.end + 1, after - parts.end - 1);
    if (!parts.whole.empty() || !parts.fraction.empty()) parts.end = after;
  }
  if (parts.whole.empty() && parts.fraction.empty()) return parts;
  if (parts.end < text.size() && (text[parts.end] == 'e' || text[parts.end] == 'E')) {
    std::size_t digits = parts.end + 1;
    if (digits < text.size() && (text[digits] == '-' || text[digits] == '+')) ++digits;
    const std::size_t after = skip_digits(text, digits);
    if (after > digits) {
      parts.exponent = text.substr(parts.end + 1, after - parts.end - 1);
      parts.end = after;
    }
  }
  return parts;
}

/// The beginning of a hexadecimal, octal or binary number, in small letters. "0oz" is an amount.
bool has_other_base(std::string_view start) {
  const char digit = start.size() > 2 ? start[2] : '\0';
  return start.starts_with("0x") || (start.starts_with("0o") && digit >= '0' && digit <= '7') ||
         (start.starts_with("0b") && (digit == '0' || digit == '1'));
}

/// A text that is a number in some program but not here: nan, inf, hexadecimal.
std::optional<TextProblem> foreign_number(std::string_view text, std::size_t begin,
                                          std::size_t digits_at) {
  std::string start(text.substr(digits_at, 4));
  for (char& c : start) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  const std::string_view word = std::string_view(start).substr(start.starts_with('.') ? 1 : 0);
  if (word.starts_with("nan") || word.starts_with("inf")) {
    return problem_at("U09", text, begin, text.size(),
                      fmt::format("{} is not a finite number", quoted(text.substr(begin))),
                      {"what was not measured is left out, not written as nan or inf"});
  }
  if (has_other_base(start)) {
    return problem_at("U08", text, begin, text.size(),
                      fmt::format("{} is not a decimal number", quoted(text.substr(begin))),
                      {"write the number in decimal digits"});
  }
  return std::nullopt;
}

/// Reads "<whole>.<fraction>e<exponent>"; nothing when it is out of the range of a double.
std::optional<double> double_of(const std::string& digits) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (error == std::errc::result_out_of_range || !std::isfinite(value)) return std::nullopt;
  expects(error == std::errc{} && end == digits.data() + digits.size(),
          "a text that follows the grammar of numbers is read to its end");
  return value;
}

/// Value and step of the parts; nothing when one of them is out of range.
std::optional<LeadingNumber> number_of(const Parts& parts, std::size_t begin) {
  int exponent = 0;
  if (!parts.exponent.empty()) {
    const std::string_view digits =
        parts.exponent.substr(parts.exponent.starts_with('+') ? 1 : 0);  // from_chars refuses "+"
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), exponent);
    constexpr int beyond_any_double = 100000;
    if (read.ec != std::errc{} || std::abs(exponent) > beyond_any_double) return std::nullopt;
  }
  const std::optional<double> size =
      double_of(fmt::format("0{}.{}e{}", parts.whole, parts.fraction, exponent));
  const std::optional<double> step =
      double_of(fmt::format("1e{}", exponent - static_cast<std::int64_t>(parts.fraction.size())));
  if (!size || !step || *step == 0.0) return std::nullopt;
  return LeadingNumber{(parts.negative ? -*size : *size) + 0.0, *step, begin, parts.end};
}

}  // namespace

TextResult<LeadingNumber> leading_number(std::string_view text, char decimal) {
  const std::size_t begin = skip_blanks(text, 0);
  const Parts parts = number_parts(text, begin, decimal);
  const auto refuse = [](TextProblem problem) {
    return TextResult<LeadingNumber>{std::nullopt, std::move(problem)};
  };
  if (begin == text.size()) {
    return refuse(problem_at("U01", text, 0, text.size(), "nothing is written here",
                             {"write a number, or leave the line out"}));
  }
  if (auto foreign = foreign_number(text, begin, parts.digits_at))
    return refuse(std::move(*foreign));
  if (parts.whole.empty() && parts.fraction.empty()) {
    return refuse(
        problem_at("U12", text, begin, text.size(),
                   fmt::format("{} does not start with a number", quoted(text.substr(begin))),
                   {"write a number in digits, such as 23.5"}));
  }
  if (!parts.whole.empty() && parts.exponent.empty()) {
    const std::size_t run_end = digit_groups(text, parts.digits_at).end;
    if (run_end > parts.end) return refuse(grouping_problem(text, parts.digits_at, decimal));
  }
  if (parts.whole.size() > 1 && parts.whole.front() == '0') {
    const std::size_t keep = std::min(parts.whole.find_first_not_of('0'), parts.whole.size() - 1);
    const std::string_view mended =
        text.substr(parts.digits_at + keep, parts.end - parts.digits_at - keep);
    return refuse(
        problem_at("U07", text, parts.digits_at, parts.end,
                   fmt::format("{} starts with a zero, as octal numbers do",
                               quoted(text.substr(parts.digits_at, parts.end - parts.digits_at))),
                   {fmt::format("write {}", mended)}));
  }
  const std::optional<LeadingNumber> number = number_of(parts, begin);
  if (!number) {
    return refuse(out_of_range(text, begin, parts.end));
  }
  const std::string_view rest = text.substr(number->end);
  if (!rest.empty() && (is_digit(rest.front()) || rest.front() == '.' || rest.front() == ',')) {
    return refuse(problem_at("U12", text, begin, text.size(),
                             fmt::format("{} is not one number", quoted(text.substr(begin))),
                             {"write one number, such as 23.5"}));
  }
  return {number, std::nullopt};
}

}  // namespace hailwright::detail
