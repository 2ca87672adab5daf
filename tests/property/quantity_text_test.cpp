// What is printed can be read again, for every unit of the table.
#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "hailwright/core/quantity_text.hpp"
#include "support/catch.hpp"
#include "support/property.hpp"

namespace hailwright::testing {

namespace {

constexpr double rounding = std::numeric_limits<double>::epsilon();

double signed_number(Draw& draw) {
  const double size = draw.magnitude("size", 1e-12, 1e12);
  return draw.coin("below zero") ? -size : size;
}

double read_si(const std::string& text, Measure measure) {
  const TextResult<Amount> read = read_amount(text, measure);
  must(read.value.has_value(), text + " is not read");
  return read.value->si;
}

/// Number and zero point together in the unit: what the rounding of a conversion goes by.
double reach_in(double number, const Unit& unit) {
  return std::abs(number) + std::abs(unit.offset / unit.factor);
}

}  // namespace

TEST_CASE("Property: an amount typed in any unit is its number in SI") {
  holds("read(number unit) is to_si(number)", [](Draw& draw) {
    const double number = signed_number(draw);
    const std::string blanks = draw.one_of<std::string>("between", {" ", "", "\t ", "\u00a0"});
    for (const Unit& unit : units()) {
      const std::string text = fmt::format("{}{}{}", number, blanks, unit.symbol);
      must_equal(read_si(text, unit.measure), to_si(number, unit), text);
    }
  });
}

TEST_CASE("Property: a conversion to SI and back gives the number") {
  holds("number_in(to_si(number)) is the number", [](Draw& draw) {
    const double number = signed_number(draw);
    for (const Unit& unit : units()) {
      // Multiplication, addition, factor, zero point and the way back round by half a last digit
      // each.
      must_be_close(number_in(to_si(number, unit), unit), number,
                    4.0 * rounding * reach_in(number, unit), std::string(unit.symbol));
    }
  });
}

TEST_CASE("Property: an amount printed is read as what was printed") {
  holds("print(read(print(x))) is print(x), and read(print(x)) is x to half a digit",
        [](Draw& draw) {
          const double number = signed_number(draw);
          const int decimals = draw.whole("decimals", 0, 15);
          for (const Unit& unit : units()) {
            // A double holds 15 digits of any decimal number.
            if (reach_in(number, unit) * std::pow(10.0, decimals) > 1e14) continue;
            const double si = to_si(number, unit);
            const std::string text = in_unit(si, unit.measure, unit.symbol, decimals);
            const double again = read_si(text, unit.measure);
            const std::string twice = in_unit(again, unit.measure, unit.symbol, decimals);
            must(twice == text, text + " is printed again as " + twice);
            must_be_close(number_in(again, unit), number,
                          0.5 * std::pow(10.0, -decimals) * (1.0 + 1e-9) +
                              4.0 * rounding * reach_in(number, unit),
                          text);
          }
        });
}

TEST_CASE("Property: a number to seventeen digits is read bit for bit") {
  holds(
      "read(significant(x, 17)) is x",
      [](Draw& draw) {
        const double size = draw.magnitude("size", 1e-300, 1e300);
        const double number = draw.coin("below zero") ? -size : size;
        const TextResult<Amount> read = read_number(significant(number, 17));
        must(read.value.has_value(), significant(number, 17) + " is not read");
        must_equal(read.value->si, number, significant(number, 17));
      },
      1000);
}

TEST_CASE("Property: fewer digits printed are the same digits when read and printed again") {
  holds(
      "significant(read(significant(x, n)), n) is significant(x, n)",
      [](Draw& draw) {
        const double number = signed_number(draw);
        const int digits = draw.whole("digits", 1, 15);
        const std::string text = significant(number, digits);
        const TextResult<Amount> read = read_number(text);
        must(read.value.has_value(), text + " is not read");
        const std::string twice = significant(read.value->si, digits);
        must(twice == text, text + " is printed again as " + twice);
        must_be_close(read.value->si, number, std::abs(number) * 5.0 * std::pow(10.0, -digits),
                      text);
      },
      1000);
}

}  // namespace hailwright::testing
