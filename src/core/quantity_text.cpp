// Amounts from text. The numbers themselves are read in leading_number.cpp, the unit table is in
// unit_table.cpp, the way back to text in number_format.cpp.
//
// Codes of the problems (docs/errors.md):
//   U01  empty text
//   U02  number without its unit
//   U03  unit of another measure
//   U04  unknown unit
//   U05  decimal comma (or decimal point where the table's mark is the comma)
//   U06  digits grouped in thousands
//   U07  leading zero, as octal numbers have
//   U08  number of another base
//   U09  nan or inf
//   U10  number beyond the range that can be computed with
//   U11  "±" alone
//   U12  not a number
//   U13  something after the number or its unit
//   U14  not a whole number
//   U15  money without a currency
//   U16  not a currency code
#include "hailwright/core/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include "core/leading_number.hpp"
#include "core/quoted.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/core/source.hpp"

namespace hailwright {

namespace {

using detail::leading_number;
using detail::LeadingNumber;
using detail::out_of_range;
using detail::problem_at;
using detail::quoted;
using detail::skip_blanks;
using detail::skip_digits;

/// Without blanks at the end; the start stays, so that offsets stay.
std::string_view without_tail(std::string_view text) {
  return text.substr(0, text.find_last_not_of(" \t") + 1);
}

/// `text` is the whole text; a unit is looked for behind the number.
TextResult<Amount> amount_in(const LeadingNumber& number, const Unit& unit, std::string_view text) {
  const Amount amount{to_si(number.value, unit),
                      to_si(number.step, {unit.symbol, unit.measure, unit.factor, 0.0})};
  if (!std::isfinite(amount.si) || !std::isfinite(amount.step_si) || amount.step_si == 0.0) {
    return {std::nullopt, out_of_range(text, number.begin, number.end)};
  }
  return {amount, std::nullopt};
}

/// A number with its unit, in a text without "±".
TextResult<Amount> plain_amount(std::string_view text, Measure measure) {
  TextResult<LeadingNumber> number = leading_number(text, '.');
  if (number.problem) {
    if (number.problem->code == "U01" || number.problem->code == "U12") {
      number.problem->message += fmt::format(", {} was expected", name(measure));
      const TextResult<Unit> no_unit = read_unit({}, measure);
      for (const std::string& hint : no_unit.problem->hints)
        number.problem->hints.push_back(hint);
    }
    return {std::nullopt, std::move(number.problem)};
  }
  const auto [value, step, begin, end] = *number.value;
  const std::size_t unit_at = skip_blanks(text, end);
  TextResult<Unit> unit = read_unit(text.substr(unit_at), measure);
  if (unit.problem) {
    TextProblem& problem = *unit.problem;
    problem.offset += count_characters(text.substr(0, unit_at));
    if (unit_at == text.size()) {
      problem.offset = count_characters(text.substr(0, begin));
      problem.length = count_characters(text.substr(begin, end - begin));
      problem.message = fmt::format("{} has no unit, {} was expected",
                                    quoted(text.substr(begin, end - begin)), name(measure));
    }
    return {std::nullopt, std::move(problem)};
  }
  return amount_in(*number.value, *unit.value, text);
}

/// The last "±", or one of its typed forms, as a range of bytes.
std::optional<std::pair<std::size_t, std::size_t>> last_plus_minus(std::string_view text) {
  constexpr std::array<std::string_view, 5> forms{"±", "+-", "+/-", "+−", "+/−"};
  std::optional<std::pair<std::size_t, std::size_t>> last;
  for (const std::string_view form : forms) {
    const std::size_t at = text.rfind(form);
    if (at == std::string_view::npos || (last && at < last->first)) continue;
    last = {at, at + form.size()};
  }
  return last;
}

constexpr std::string_view plus_minus_message = "± alone does not say what it promises";

/// Offers the three ways with the size that the user gave, when it can be read.
TextProblem plus_minus_problem(std::string_view text, std::pair<std::size_t, std::size_t> mark,
                               Measure measure) {
  const Measure size_measure =
      measure == Measure::temperature ? Measure::temperature_difference : measure;
  const std::string_view after = text.substr(skip_blanks(text, mark.second));
  std::string size;
  if (plain_amount(after, size_measure).value || plain_amount(after, Measure::ratio).value) {
    size = std::string(after);
  } else {
    const auto first = std::find_if(units().begin(), units().end(),
                                    [&](const Unit& unit) { return unit.measure == size_measure; });
    size = fmt::format("1 {}", first->symbol);
  }
  return problem_at("U11", text, mark.first, mark.second, std::string(plus_minus_message),
                    {fmt::format("accuracy: {} if no error is larger, as a maker states it", size),
                     fmt::format("spread: {} for the standard deviation of your own repeats", size),
                     fmt::format("within: {}, 95 % for a certificate that names its level", size)});
}

}  // namespace

TextResult<Amount> read_number(std::string_view text, char decimal) {
  return read_number_in(text, {"", Measure::ratio, 1.0, 0.0}, decimal);
}

TextResult<Amount> read_number_in(std::string_view text, const Unit& unit, char decimal) {
  expects(decimal == '.' || decimal == ',', "the decimal mark is a point or a comma");
  text = without_tail(text);
  if (const auto mark = last_plus_minus(text)) {
    return {std::nullopt,
            problem_at("U11", text, mark->first, mark->second, std::string(plus_minus_message),
                       {"write the number alone, and its error once beside the tool: accuracy, "
                        "spread or within"})};
  }
  TextResult<LeadingNumber> number = leading_number(text, decimal);
  if (number.problem) return {std::nullopt, std::move(number.problem)};
  const std::size_t rest_at = skip_blanks(text, number.value->end);
  if (rest_at < text.size()) {
    return {std::nullopt,
            problem_at("U13", text, rest_at, text.size(),
                       fmt::format("found {} after the number", quoted(text.substr(rest_at))),
                       {"write the number alone"})};
  }
  return amount_in(*number.value, unit, text);
}

TextResult<Amount> read_amount(std::string_view text, Measure measure) {
  text = without_tail(text);
  if (const auto mark = last_plus_minus(text)) {
    return {std::nullopt, plus_minus_problem(text, *mark, measure)};
  }
  return plain_amount(text, measure);
}

TextResult<int> read_count(std::string_view text) {
  text = without_tail(text);
  const std::size_t begin = skip_blanks(text, 0);
  const std::size_t end = skip_digits(text, begin);
  const auto refuse = [&](std::string_view code, std::string message, std::string hint) {
    return TextResult<int>{std::nullopt, problem_at(code, text, begin, text.size(),
                                                    std::move(message), {std::move(hint)})};
  };
  if (begin == text.size()) {
    return {std::nullopt, problem_at("U01", text, 0, text.size(),
                                     "nothing is written here, a whole number was expected",
                                     {"write a whole number, such as 3"})};
  }
  if (end == begin || end < text.size()) {
    return refuse("U14",
                  fmt::format("{} is not a whole number of 0 or more", quoted(text.substr(begin))),
                  "write digits alone, without sign, point or unit");
  }
  if (end - begin > 1 && text[begin] == '0') {
    const std::size_t keep = std::min(text.find_first_not_of('0', begin), end - 1);
    return refuse(
        "U07",
        fmt::format("{} starts with a zero, as octal numbers do", quoted(text.substr(begin))),
        fmt::format("write {}", text.substr(keep)));
  }
  int count = 0;
  if (std::from_chars(text.data() + begin, text.data() + end, count).ec != std::errc{}) {
    return {std::nullopt, out_of_range(text, begin, end)};
  }
  return {count, std::nullopt};
}

namespace {

bool is_currency_code(std::string_view word) {
  return word.size() == 3 &&
         std::all_of(word.begin(), word.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

/// What to write instead of a word that is not a currency code.
std::string currency_hint(std::string_view word) {
  std::string upper(word);
  for (char& c : upper) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  if (is_currency_code(upper)) return "write " + upper;
  if (word == "€") return "write EUR";
  if (word == "£") return "write GBP";
  return "a currency is three capital letters, such as EUR or USD";
}

}  // namespace

TextResult<Money> read_money(std::string_view text) {
  text = without_tail(text);
  TextResult<LeadingNumber> number = leading_number(text, '.');
  if (number.problem) {
    if (number.problem->code == "U12") {
      number.problem->hints.emplace_back("the number comes first, then the currency: 89 EUR");
    }
    return {std::nullopt, std::move(number.problem)};
  }
  const auto [value, step, begin, end] = *number.value;
  const std::size_t code_at = skip_blanks(text, end);
  const std::string_view code = text.substr(code_at);
  if (code.empty()) {
    const std::string_view typed = text.substr(begin, end - begin);
    return {std::nullopt,
            problem_at("U15", text, begin, end, fmt::format("{} has no currency", quoted(typed)),
                       {fmt::format("write {} EUR, or another code of three letters", typed)})};
  }
  if (!is_currency_code(code)) {
    return {std::nullopt, problem_at("U16", text, code_at, text.size(),
                                     fmt::format("{} is not a currency code", quoted(code)),
                                     {currency_hint(code)})};
  }
  return {Money{value, std::string(code)}, std::nullopt};
}

}  // namespace hailwright
