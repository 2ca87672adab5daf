#include "logs/log_parser_slow.hpp"

#include <string>

#include "support/catch.hpp"
#include "support/log_samples.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

/// A line read on its own.
LogBlock read_line(const std::string& line, const LogShape& shape = test::small_shape(),
                   bool unended = false) {
  const RowLayout layout(shape);
  StampReader stamps(shape.stamp);
  SlowLines slow(layout, stamps);
  LogBlock block;
  RowsInMaking rows(layout, block, 2);
  slow.read(line, unended, rows);
  rows.finish();
  return block;
}

/// "L11:22+3 message" of the only problem; "" when there is none.
std::string problem_of(const LogBlock& block) {
  if (block.problems.empty()) return {};
  REQUIRE(block.problems.size() == 1);
  const LogProblem& p = block.problems.front();
  return std::string(p.code) + ":" + std::to_string(p.column) + "+" + std::to_string(p.length) +
         " " + p.message;
}

std::string problem_of(const std::string& line) {
  const LogBlock block = read_line(line);
  CHECK(block.rows() + block.unreadable == 1);
  return problem_of(block);
}

}  // namespace

TEST_CASE("log_parser_slow: quoted and blank cells are read", "[logs]") {
  const LogBlock block = read_line("\"2026-06-14T10:00:00\", \"79.5\" ,,\"wind, gusts\"");
  REQUIRE(block.rows() == 1);
  CHECK(problem_of(block).empty());
  CHECK(block.column(LogRole::power)[0] == 79.5);
  CHECK(block.column(LogRole::temperature)[0] != block.column(LogRole::temperature)[0]);
}

TEST_CASE("log_parser_slow: each mistake is placed", "[logs]") {
  CHECK_THAT(problem_of("2026-06-14T10:00:00,79.5,30"),
             Catch::Matchers::StartsWith("L10:28+1 this row has 3 cells, the header 4"));
  CHECK_THAT(problem_of("2026-06-14T10:00:00,79,5,30,x"),
             Catch::Matchers::StartsWith("L10:29+1 this row has 5 cells, the header 4"));
  CHECK(problem_of("2026-06-14T10:00:00,ERR,30,x") ==
        "L11:21+3 \"ERR\" is not a number in column \"power [W]\"");
  CHECK_THAT(problem_of("2026-06-14T10:00:00,\"79,5\",30,x"), Contains("L11:22+4 \"79,5\""));
  CHECK_THAT(problem_of("2026-06-14T10:00:00,\xC3\xBC,30,x"), Contains("L11:21+1"));
  CHECK_THAT(problem_of("2026-13-14T10:00:00,79.5,30,x"), Contains("L12:6+2"));
  CHECK_THAT(problem_of(",79.5,30,x"), Contains("L12:1+1"));
  CHECK(problem_of("2026-06-14T10:00:00,250000,30,x") ==
        "L13:21+6 250000 W in column \"power [W]\" is outside what an instrument shows (-1000 to "
        "100000 W)");
  CHECK_THAT(problem_of("2026-06-14T10:00:00,79.5,151,x"),
             Contains("L13:26+3 151 degC") && Contains("(-60 to 150 degC)"));
  CHECK_THAT(problem_of("2026-06-14T10:00:00,\"79.5,30,x"), Contains("L16:21+1"));
  CHECK_THAT(problem_of("2026-06-14T10:00:00,79.5,30,\"x\"y"), Contains("L16:32+1"));
  CHECK_THAT(problem_of(std::string(longest_line + 1, 'x')), Contains("L17:1+1"));
  CHECK_THAT(problem_of("2026-06-14T10:00:00,79.5,30,\xFF"), Contains("L18:29+1"));
  CHECK_THAT(problem_of(std::string("2026\0", 5)), Contains("L18:5+1"));
}

TEST_CASE("log_parser_slow: words instead of numbers come with what to write", "[logs]") {
  const auto hint = [](const std::string& cell) {
    return read_line("2026-06-14T10:00:00," + cell + ",30,x").problems.at(0).hints.at(0);
  };
  CHECK_THAT(hint("nan"), Contains("leave the cell blank"));
  CHECK_THAT(hint("-inf"), Contains("leave the cell blank"));
  CHECK_THAT(hint("---"), Contains("leave the cell blank"));
  CHECK_THAT(hint("n/a"), Contains("leave the cell blank"));
  CHECK_THAT(hint("\"79,5\""), Contains("decimal mark"));
  CHECK_THAT(hint("79.5 W"), Contains("without its unit"));
  CHECK_THAT(hint("0x10"), Contains("without its unit"));
}

TEST_CASE("log_parser_slow: comments, blank lines and headers are counted", "[logs]") {
  CHECK(read_line("").comments == 1);
  CHECK(read_line(" \t").comments == 1);
  CHECK(read_line("# 2026, a remark").comments == 1);
  const LogBlock header = read_line("time, \"power [W]\",temperature [degC],note");
  CHECK(header.repeated_headers == 1);
  CHECK(header.unreadable == 0);
  CHECK_THAT(problem_of(header), Contains("L21:1+"));
  CHECK(header.lines == 1);
}

TEST_CASE("log_parser_slow: a last line without a line break", "[logs]") {
  const LogBlock whole = read_line("2026-06-14T10:00:00,79.5,30,x", test::small_shape(), true);
  CHECK(whole.rows() == 1);
  CHECK_THAT(problem_of(whole), Contains("L22:29+1"));
  const LogBlock cut = read_line("2026-06-14T10:00:00,79", test::small_shape(), true);
  CHECK(cut.unreadable == 1);
  CHECK_THAT(problem_of(cut), Contains("L10:23+1") && Contains("the file ends in the middle"));
  CHECK(problem_of(read_line("# done", test::small_shape(), true)).empty());
}

TEST_CASE("log_parser_slow: voltage times current is looked at too", "[logs]") {
  LogShape shape = test::small_shape();
  shape.used = {{LogRole::time, 0, {}, "time"},
                {LogRole::voltage, 1, test::unit_named("V", Measure::voltage), "U"},
                {LogRole::current, 2, test::unit_named("A", Measure::current), "I"}};
  CHECK_THAT(problem_of(read_line("2026-06-14T10:00:00,1400,900,x", shape)),
             Contains("L13") && Contains("voltage times current"));
  CHECK(problem_of(read_line("2026-06-14T10:00:00,1400,,x", shape)).empty());
}
