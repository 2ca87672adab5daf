#include <cmath>
#include <cstdio>
#include <limits>
#include <random>
#include <string>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// printf of the C library rounds by the exact value of the double: an independent second opinion.
std::string printed_by_c(double value, int decimals) {
  char buffer[512];
  const int length = std::snprintf(buffer, sizeof buffer, "%.*f", decimals, value);
  REQUIRE(length > 0);
  REQUIRE(static_cast<std::size_t>(length) < sizeof buffer);
  return buffer;
}

}  // namespace

TEST_CASE("fixed: halves go away from zero, by what the double really is") {
  CHECK(fixed(0.5, 0) == "1");
  CHECK(fixed(1.5, 0) == "2");
  CHECK(fixed(2.5, 0) == "3");
  CHECK(fixed(-2.5, 0) == "-3");
  CHECK(fixed(0.125, 2) == "0.13");
  CHECK(fixed(-0.125, 2) == "-0.13");
  CHECK(fixed(0.375, 2) == "0.38");
  CHECK(fixed(1.005, 2) == "1.00");  // the double is 1.00499999999999989...
  CHECK(fixed(2.675, 2) == "2.67");  // 2.67499999999999982...
  CHECK(fixed(1.115, 2) == "1.11");  // 1.11499999999999999...
  CHECK(fixed(8.325, 2) == "8.32");  // 8.32499999999999928...
  CHECK(fixed(0.15, 1) == "0.1");    // 0.14999999999999999...
  CHECK(fixed(0.35, 1) == "0.3");    // 0.34999999999999997...
  CHECK(fixed(0.45, 1) == "0.5");    // 0.45000000000000001...
}

TEST_CASE("fixed: no negative zero, no grouping, no exponent") {
  CHECK(fixed(-0.0, 0) == "0");
  CHECK(fixed(-0.0, 2) == "0.00");
  CHECK(fixed(-0.004, 2) == "0.00");
  CHECK(fixed(-0.5, 0) == "-1");
  CHECK(fixed(-0.49, 0) == "0");
  CHECK(fixed(-1e-300, 3) == "0.000");
  CHECK(fixed(1234567.891, 1) == "1234567.9");
  CHECK(fixed(1e21, 0) == "1000000000000000000000");
  CHECK(fixed(9007199254740993.0, 1) == "9007199254740992.0");
  CHECK(fixed(9.999, 2) == "10.00");
}

TEST_CASE("fixed: agrees with the C library over many values that are not halves") {
  std::mt19937_64 random(4711);
  std::uniform_real_distribution<double> mantissa(-10.0, 10.0);
  std::uniform_int_distribution<int> exponent(-12, 12);
  std::uniform_int_distribution<int> decimals(0, 15);
  int compared = 0;
  for (int i = 0; i < 50000; ++i) {
    const double value = mantissa(random) * std::pow(10.0, exponent(random));
    const int d = decimals(random);
    std::string expected = printed_by_c(value, d);
    if (expected.find_first_of("123456789") == std::string::npos && expected.front() == '-')
      expected.erase(0, 1);
    const double halves = std::ldexp(value, d + 1);
    if (halves == std::trunc(halves)) continue;  // may be a half; those are below
    ++compared;
    if (fixed(value, d) != expected) {
      CAPTURE(value, d, expected);
      FAIL(fixed(value, d));
    }
  }
  CHECK(compared > 30000);
  // True halves: odd multiples of 1/2, 1/4, ... of a unit, where the C library goes to even.
  for (int k = 1; k < 2000; k += 2) {
    const double eighths = k / 8.0;  // ends in 125, 375, 625 or 875: a half of the second decimal
    CAPTURE(eighths);
    const double up = std::nextafter(eighths, 1e9);
    CHECK(fixed(eighths, 2) == printed_by_c(up, 2));
    CHECK(fixed(-eighths, 2) == "-" + printed_by_c(up, 2));
    CHECK(fixed(eighths, 3) == printed_by_c(eighths, 3));
  }
}

TEST_CASE("significant: so many digits, plain where a person would write it plain") {
  CHECK(significant(0.0, 3) == "0");
  CHECK(significant(-0.0, 3) == "0");
  CHECK(significant(1.9917, 3) == "1.99");
  CHECK(significant(1234.5, 2) == "1200");
  CHECK(significant(1250.0, 2) == "1300");  // a true half, away from zero
  CHECK(significant(-1250.0, 2) == "-1300");
  CHECK(significant(2.5, 1) == "3");
  CHECK(significant(0.125, 2) == "0.13");
  CHECK(significant(999.6, 3) == "1000");
  CHECK(significant(9.996, 3) == "10.0");
  CHECK(significant(0.09996, 3) == "0.100");
  CHECK(significant(-0.00123456, 3) == "-0.00123");
  CHECK(significant(100.0, 5) == "100.00");
  CHECK(significant(123.0, 3) == "123");
  CHECK(significant(1e-5, 2) == "0.000010");
  CHECK(significant(9.99e-6, 2) == "1.0e-5");
  CHECK(significant(1234567.0, 3) == "1230000");
  CHECK(significant(9999999.0, 2) == "10000000");
  CHECK(significant(1e7, 3) == "1.00e7");
  CHECK(significant(1.5e8, 3) == "1.50e8");
  CHECK(significant(2.5e20, 1) == "3e20");
  CHECK(significant(-1.5e-9, 1) == "-1e-9");  // 1.49999999999999999...e-9
  CHECK(significant(9.5e15, 1) == "1e16");    // a true half with a carry
  CHECK(significant(9.5, 1) == "10");
  CHECK(fixed(99.5, 0) == "100");
  CHECK(fixed(-9.96875, 4) == "-9.9688");
  // A half whose double is coarser than the decimals printed.
  CHECK(fixed(579468064295.1068115234375, 12) == "579468064295.106811523438");
  CHECK(fixed(4294967296.00000095367431640625, 19) == "4294967296.0000009536743164063");
  CHECK(significant(std::numeric_limits<double>::max(), 4) == "1.798e308");
  CHECK(significant(std::numeric_limits<double>::denorm_min(), 3) == "4.94e-324");
}

TEST_CASE("significant: 17 digits give the double back") {
  std::mt19937_64 random(99);
  std::uniform_real_distribution<double> mantissa(-10.0, 10.0);
  std::uniform_int_distribution<int> exponent(-300, 300);
  for (int i = 0; i < 5000; ++i) {
    const double value = mantissa(random) * std::pow(10.0, exponent(random));
    const std::string text = significant(value, 17);
    const auto back = read_number(text);
    CAPTURE(value, text);
    REQUIRE(back.value.has_value());
    CHECK(back.value->si == value);
  }
}

TEST_CASE("formatting: what is not a number is our bug") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double inf = std::numeric_limits<double>::infinity();
  CHECK_THROWS_AS(fixed(nan, 1), BugError);
  CHECK_THROWS_AS(fixed(inf, 1), BugError);
  CHECK_THROWS_AS(fixed(1.0, -1), BugError);
  CHECK_THROWS_AS(fixed(1.0, 31), BugError);
  CHECK_THROWS_AS(significant(-inf, 1), BugError);
  CHECK_THROWS_AS(significant(1.0, 0), BugError);
  CHECK_THROWS_AS(significant(1.0, 18), BugError);
  CHECK_THROWS_AS(in_unit(1.0, "furlong", 1), BugError);
  CHECK_THROWS_AS(in_unit(1.0, Measure::speed, "mm", 1), BugError);
  CHECK_THROWS_AS(in_unit(nan, "mm", 1), BugError);
  CHECK_THROWS_AS(in_unit(1.0_mm, "J", 1), BugError);
  CHECK_THROWS_AS(decimals_for(nan), BugError);
  CHECK_THROWS_AS(decimals_for(-1.0), BugError);
}

TEST_CASE("decimals_for: the second digit of the uncertainty") {
  CHECK(decimals_for(0.2) == 2);
  CHECK(decimals_for(0.021) == 3);
  CHECK(decimals_for(1.5) == 1);
  CHECK(decimals_for(15.0) == 0);
  CHECK(decimals_for(1500.0) == 0);
  CHECK(decimals_for(0.0994) == 3);  // 0.099
  CHECK(decimals_for(0.0996) == 2);  // 0.10
  CHECK(decimals_for(9.96) == 0);    // 10
  CHECK(decimals_for(1e-9) == 6);
  CHECK(decimals_for(0.0) == 6);
  CHECK(decimals_for(std::numeric_limits<double>::infinity()) == 0);
}

TEST_CASE("decimals_for: the example of JCGM 100:2008, 7.2.6") {
  // "if y = 10,057 62 ohm with u_c(y) = 27 mohm, y should be rounded to 10,058 ohm"; the clause was
  // read as quoted at support.transmille.com (ProCal uncertainty rounding rules), not in the Guide.
  CHECK(in_unit(10.05762, "ohm", decimals_for(0.027)) == "10.058 ohm");
  // "u(x_i) = 28,05 kHz should be rounded down to 28 kHz"
  CHECK(significant(28.05, 2) == "28");
}

TEST_CASE("in_unit: amounts in a unit of the table") {
  CHECK(in_unit(1.9917, "J", 2) == "1.99 J");
  CHECK(in_unit(0.025, "mm", 0) == "25 mm");
  CHECK(in_unit(27.71648, "mph", 1) == "62.0 mph");
  CHECK(in_unit(0.05, "%", 1) == "5.0 %");
  CHECK(in_unit(-0.0035, "%/K", 2) == "-0.35 %/K");
  CHECK(in_unit(298.15, "degC", 1) == "25.0 degC");
  CHECK(in_unit(313.15, "degF", 1) == "104.0 degF");
  CHECK(in_unit(273.15 - 0.001, "degC", 1) == "0.0 degC");
  CHECK(in_unit(1.9917_J, "J", 2) == "1.99 J");
  CHECK(in_unit(percent(5.0), "%", 0) == "5 %");
  CHECK(in_unit(TemperaturePoint::from_celsius(-18.0), "degC", 0) == "-18 degC");
  CHECK(in_unit(TemperatureDifference::from_si(2.0), "degC", 1) == "2.0 degC");
  CHECK(in_unit(TemperatureDifference::from_si(2.0), "degF", 1) == "3.6 degF");
}

TEST_CASE("round trip: what is printed is read back, and prints the same again") {
  std::mt19937_64 random(31415);
  std::uniform_real_distribution<double> mantissa(-1000.0, 1000.0);
  std::uniform_int_distribution<int> decimals(0, 6);
  for (const Unit& unit : units()) {
    for (int i = 0; i < 200; ++i) {
      const double number = mantissa(random);
      const int d = decimals(random);
      const std::string text = in_unit(to_si(number, unit), unit.measure, unit.symbol, d);
      const auto read = read_amount(text, unit.measure);
      if (!read.value) {
        CAPTURE(text);
        FAIL(read.problem->message);
      }
      const double back = number_in(read.value->si, unit);
      const double half_step = 0.5 * std::pow(10.0, -d);
      const double bits = 1e-12 * (std::abs(number) + std::abs(unit.offset / unit.factor) + 1.0);
      CAPTURE(text, number, back);
      REQUIRE(std::abs(back - number) <= half_step + bits);
      REQUIRE(in_unit(read.value->si, unit.measure, unit.symbol, d) == text);
      REQUIRE_THAT(read.value->step_si, WithinRel(std::pow(10.0, -d) * unit.factor, 1e-14));
    }
  }
}
