#include "logs/log_parser_rows.hpp"

#include <cmath>
#include <limits>

#include "support/catch.hpp"
#include "support/log_samples.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using hailwright::test::unit_named;

TEST_CASE("log_parser_rows: numbers become SI with the bits of to_si", "[logs]") {
  // Units of the table that logs come in.
  for (const auto& [symbol, measure] :
       std::vector<std::pair<std::string_view, Measure>>{{"W", Measure::power},
                                                         {"kW", Measure::power},
                                                         {"Wh", Measure::energy},
                                                         {"degC", Measure::temperature},
                                                         {"V", Measure::voltage},
                                                         {"mV", Measure::voltage},
                                                         {"mA", Measure::current}}) {
    const Unit* unit = find_unit(symbol, measure);
    if (unit == nullptr) continue;
    CAPTURE(symbol);
    LogShape shape = test::small_shape();
    const LogRole role = measure == Measure::power         ? LogRole::power
                         : measure == Measure::energy      ? LogRole::energy
                         : measure == Measure::temperature ? LogRole::temperature
                         : measure == Measure::voltage     ? LogRole::voltage
                                                           : LogRole::current;
    shape.used = {{LogRole::time, 0, {}, "time"}, {role, 1, *unit, "x"}};
    const RowLayout layout(shape);
    LogBlock block;
    RowsInMaking rows(layout, block, 5);
    const std::vector<double> numbers{0.3, 79.123, -0.0, 12.7};
    for (const double number : numbers) {
      rows.set_time(1);
      rows.set_number(0, number);
      rows.complete_row();
    }
    CHECK(rows.finish());
    REQUIRE(block.rows() == numbers.size());
    for (std::size_t i = 0; i < numbers.size(); ++i)
      CHECK(block.column(role)[i] == to_si(numbers[i], *unit));
    CHECK_FALSE(std::signbit(block.column(role)[2] - to_si(0.0, *unit)));
  }
}

TEST_CASE("log_parser_rows: limits of instruments are inside, blanks are no numbers", "[logs]") {
  const RowLayout layout(test::small_shape());
  const auto all_shown = [&](double power_W, double temperature_degC, std::size_t rows_before) {
    LogBlock block;
    RowsInMaking rows(layout, block, 9);
    for (std::size_t i = 0; i <= rows_before; ++i) {
      rows.set_time(0);
      rows.set_number(0, i < rows_before ? 1.0 : power_W);
      rows.set_number(1, i < rows_before ? 1.0 : temperature_degC);
      rows.complete_row();
    }
    return rows.finish();
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (std::size_t before = 0; before < 9; ++before) {
    CAPTURE(before);
    CHECK(all_shown(-1000.0, -60.0, before));
    CHECK(all_shown(100e3, 150.0, before));
    CHECK(all_shown(nan, nan, before));
    CHECK_FALSE(all_shown(-1001.0, 0.0, before));
    CHECK_FALSE(all_shown(100001.0, 0.0, before));
    CHECK_FALSE(all_shown(0.0, -61.0, before));
    CHECK_FALSE(all_shown(0.0, 151.0, before));
  }
}

TEST_CASE("log_parser_rows: power is made of voltage and current where it has no column",
          "[logs]") {
  LogShape shape = test::small_shape();
  shape.used = {{LogRole::time, 0, {}, "time"},
                {LogRole::voltage, 1, unit_named("V", Measure::voltage), "U"},
                {LogRole::current, 2, unit_named("A", Measure::current), "I"}};
  const RowLayout layout(shape);
  LogBlock block;
  RowsInMaking rows(layout, block, 2);
  rows.set_time(0);
  rows.set_number(0, 18.5);
  rows.set_number(1, 4.0);
  rows.complete_row();
  CHECK(rows.finish());
  CHECK(block.column(LogRole::power) == std::vector<double>{74.0});
  CHECK(block.column(LogRole::voltage) == std::vector<double>{18.5});
}

TEST_CASE("log_parser_rows: rows that are read together stand in their places", "[logs]") {
  const RowLayout layout(test::small_shape());
  LogBlock block;
  RowsInMaking rows(layout, block, 6);
  rows.count_line();
  for (const std::size_t together : {3U, 1U, 2U}) {
    for (std::size_t i = 0; i < together; ++i) {
      const double next = static_cast<double>(block.lines) + static_cast<double>(i);
      rows.times()[i] = static_cast<std::int64_t>(next);
      rows.numbers(0)[i] = next;
      rows.numbers(1)[i] = -next;
    }
    rows.complete_rows(together);
    rows.count_line();  // a comment
  }
  CHECK(rows.finish());
  CHECK(block.lines == 10);
  CHECK(block.line == std::vector<std::uint32_t>{1, 2, 3, 5, 7, 8});
  CHECK(block.time_us == std::vector<std::int64_t>{1, 2, 3, 5, 7, 8});
  CHECK(block.column(LogRole::power) == std::vector<double>{1, 2, 3, 5, 7, 8});
}
