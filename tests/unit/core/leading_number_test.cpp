#include "core/leading_number.hpp"

#include <string_view>

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

TEST_CASE("leading_number: what follows the number is left to the caller") {
  struct Case {
    std::string_view text;
    double value;
    double step;
    std::size_t begin;
    std::size_t end;
  };
  const Case c = GENERATE(values<Case>({
      {"25 mm", 25.0, 1.0, 0, 2},
      {"  -2.50mm", -2.5, 0.01, 2, 7},
      {"\u22125 m", -5.0, 1.0, 0, 4},  // U+2212 is three bytes
      {"1e3m", 1000.0, 1000.0, 0, 3},
      {"1em", 1.0, 1.0, 0, 1},
      {"1e+ m", 1.0, 1.0, 0, 1},
      {"12:30", 12.0, 1.0, 0, 2},
      {"5.", 5.0, 1.0, 0, 2},
      {"3 x 4", 3.0, 1.0, 0, 1},
  }));
  CAPTURE(c.text);
  const auto number = leading_number(c.text, '.');
  REQUIRE(number.value.has_value());
  CHECK(number.value->value == c.value);
  CHECK(number.value->step == c.step);
  CHECK(number.value->begin == c.begin);
  CHECK(number.value->end == c.end);
}

TEST_CASE("leading_number: a slip inside a number is not left to the caller") {
  struct Case {
    std::string_view text;
    char decimal;
    std::string_view code;
  };
  const Case c = GENERATE(values<Case>({
      {"", '.', "U01"},
      {"23,5 mm", '.', "U05"},
      {"23.5 mm", ',', "U05"},
      {"1 000 mm", '.', "U06"},
      {"1.000 mm", ',', "U06"},
      {"1 2 mm", '.', "U12"},
      {"1,2,3 mm", '.', "U12"},
      {"1.2.3 mm", '.', "U12"},
      {"e5", '.', "U12"},
      {"-", '.', "U12"},
  }));
  CAPTURE(c.text);
  const auto number = leading_number(c.text, c.decimal);
  REQUIRE(number.problem.has_value());
  CHECK(number.problem->code == c.code);
}

TEST_CASE("skip_blanks: plain, no-break and narrow no-break") {
  CHECK(skip_blanks("  \t5", 0) == 3);
  CHECK(skip_blanks("5", 0) == 0);
  CHECK(skip_blanks("\u00A0\u202F5", 0) == 5);
  CHECK(skip_blanks("", 0) == 0);
  CHECK(skip_blanks("ab", 2) == 2);
  CHECK(skip_blanks("\xC2", 0) == 0);  // half a character
}

TEST_CASE("problem_at: bytes become characters") {
  const TextProblem problem = problem_at("U12", "µm ±5", 4, 6, "here");
  CHECK(problem.offset == 3);
  CHECK(problem.length == 1);
}
