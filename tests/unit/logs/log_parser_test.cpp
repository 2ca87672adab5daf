#include "logs/log_parser.hpp"

#include <bit>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "support/catch.hpp"
#include "support/log_samples.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

const std::string head = "time,power [W],temperature [degC],note\n";

LogBlock parse(const std::string& text, bool at_begin = true, bool last = true,
               LogShape shape = test::small_shape()) {
  LogParser parser(shape);
  LogBlock block;
  parser.parse(text, at_begin, last, block);
  return block;
}

std::vector<std::uint64_t> bits_of(const std::vector<double>& numbers) {
  std::vector<std::uint64_t> bits;
  for (const double number : numbers)
    bits.push_back(std::bit_cast<std::uint64_t>(number));
  return bits;
}

std::string row(const std::string& rest) {
  return "2026-06-14T10:00:00," + rest + "\n";
}

}  // namespace

TEST_CASE("log_parser: plain rows", "[logs]") {
  const LogBlock block = parse(head + row("79.123,30.5,x") + "2026-06-14T10:00:01,-0.25,,\n");
  REQUIRE(block.rows() == 2);
  CHECK(block.problems.empty());
  CHECK(block.lines == 3);
  CHECK(block.bytes == head.size() + 34 + 28);
  CHECK(block.line == std::vector<std::uint32_t>{1, 2});
  // 2026-06-14T10:00:00 as seconds since 1970: `date -u -d 2026-06-14T10:00:00 +%s`.
  CHECK(block.time_us[0] == 1781431200LL * 1000000);
  CHECK(block.time_us[1] - block.time_us[0] == 1000000);
  CHECK(block.column(LogRole::power) == std::vector<double>{79.123, -0.25});
  CHECK(block.column(LogRole::temperature)[0] == 30.5 + 273.15);
  CHECK(std::isnan(block.column(LogRole::temperature)[1]));
  CHECK(block.column(LogRole::energy).empty());
}

TEST_CASE("log_parser: line ends, blanks and other separators", "[logs]") {
  CHECK(parse(row("79.5,30,x\r"), false).column(LogRole::power).at(0) == 79.5);
  CHECK(parse("2026-06-14T10:00:00 ,  79.5 , 30 , x\n", false).column(LogRole::power).at(0) ==
        79.5);
  LogShape shape = test::small_shape();
  shape.separator = ';';
  shape.decimal = ',';
  CHECK(
      parse("2026-06-14T10:00:00;79,5;30;x\r\n", false, true, shape).column(LogRole::power).at(0) ==
      79.5);
  const LogBlock lone = parse(row("79.5,30,a\rb"), false);
  CHECK(lone.unreadable == 1);
  CHECK(lone.problems.at(0).code == "L18");
}

TEST_CASE("log_parser: what stands above the rows is stepped over", "[logs]") {
  LogShape shape = test::small_shape();
  shape.header_line = 3;
  shape.first_row_line = 4;
  const std::string text = "\xEF\xBB\xBFlogger 7\n\xFF,\"\n" + head + row("1,2,x");
  const LogBlock block = parse(text, true, true, shape);
  CHECK(block.rows() == 1);
  CHECK(block.problems.empty());
  CHECK(block.lines == 4);
  CHECK(parse(head).rows() == 0);
  CHECK(parse(head.substr(0, head.size() - 1)).lines == 1);
  CHECK(parse("").lines == 0);
}

TEST_CASE("log_parser: odd lines among plain ones keep their numbers", "[logs]") {
  const LogBlock block =
      parse(head + row("1,2,x") + "\n" + row("ERR,2,x") + "# remark, with, three, commas\n" +
            row("3,2,\"a,b\"") + row("4,2") + head + row("5,2,\xC3\xBC") + row("999999,2,x") +
            row("6,2,x") + "2026-06-14T10:00:00,7,2,x");
  CHECK(block.column(LogRole::power) == std::vector<double>{1, 3, 5, 6, 7});
  CHECK(block.line == std::vector<std::uint32_t>{1, 5, 8, 10, 11});
  CHECK(block.lines == 12);
  CHECK(block.unreadable == 3);
  CHECK(block.comments == 2);
  CHECK(block.repeated_headers == 1);
  std::vector<std::string> found;
  for (const LogProblem& p : block.problems)
    found.push_back(std::string(p.code) + "@" + std::to_string(p.line));
  CHECK(found == std::vector<std::string>{"L11@3", "L10@6", "L21@7", "L13@9", "L22@11"});
}

TEST_CASE("log_parser: date and clock in two columns, markers", "[logs]") {
  LogShape shape;
  shape.headers = {"clock", "set-up", "P", "date"};
  shape.stamp.dates = DateOrder::year_first;
  shape.used = {{LogRole::clock, 0, {}, "clock"},
                {LogRole::marker, 1, {}, "set-up"},
                {LogRole::power, 2, test::unit_named("W", Measure::power), "P"},
                {LogRole::date, 3, {}, "date"}};
  const LogBlock block = parse("10:00:00,before 1,5,2026-06-14\n"
                               "10:00:01,before 1 ,5,2026-06-14\n"
                               "10:00:02,\"before 1\",5,2026-06-14\n"
                               "10:00:03,,5,2026-06-14\n"
                               "10:00:04,before 2,x,2026-06-14\n"
                               "10:00:05,before 3,5,2026-06-14\n",
                               false, true, shape);
  REQUIRE(block.rows() == 5);
  REQUIRE(block.markers.size() == 3);
  CHECK(block.markers[0].row == 0);
  CHECK(block.markers[0].text == "before 1");
  CHECK(block.markers[1].row == 3);
  CHECK(block.markers[1].text.empty());
  CHECK(block.markers[2].row == 4);
  CHECK(block.markers[2].text == "before 3");
}

TEST_CASE("log_parser: the quick way and the slow way agree on every row", "[logs]") {
  // A quote around the last, unused cell sends a row the slow way.
  std::mt19937_64 random(11);
  std::string quick;
  std::string slow;
  for (int i = 0; i < 5000; ++i) {
    const auto number = [&] {
      const std::string digits = std::to_string(random() % 1000000);
      const std::string sign = random() % 5 == 0 ? "-" : "";
      switch (random() % 12) {
      case 0:
        return std::string();
      case 1:
        return digits + "e-3";
      case 2:
        return std::string("ERR");
      case 3:
        return "0." + std::string(random() % 20, '0') + digits;
      default:
        return sign + digits.substr(0, 2) + "." + digits;
      }
    };
    const std::string cells = "2026-06-14T10:" + std::to_string(10 + random() % 55) + ":00," +
                              number() + (random() % 9 == 0 ? " " : "") + "," + number() + ",";
    quick += cells + "x\n";
    slow += cells + "\"x\"\n";
  }
  const LogBlock a = parse(quick, false);
  const LogBlock b = parse(slow, false);
  CHECK(a.rows() > 2000);
  CHECK(a.unreadable > 500);
  CHECK(a.time_us == b.time_us);
  CHECK(a.line == b.line);
  for (const LogRole role : {LogRole::power, LogRole::temperature}) {
    REQUIRE(a.column(role).size() == b.column(role).size());
    bool same = true;
    for (std::size_t i = 0; i < a.rows(); ++i)
      same = same && std::bit_cast<std::uint64_t>(a.column(role)[i]) ==
                         std::bit_cast<std::uint64_t>(b.column(role)[i]);
    CHECK(same);
  }
  REQUIRE(a.problems.size() == b.problems.size());
  for (std::size_t i = 0; i < a.problems.size(); ++i)
    CHECK(a.problems[i].message == b.problems[i].message);
}

namespace {

/// Columns: note (not read), date, power, marker, clock.
LogShape wide_shape() {
  LogShape shape;
  shape.headers = {"note", "date", "P", "set-up", "clock"};
  shape.stamp.dates = DateOrder::year_first;
  shape.used = {{LogRole::date, 1, {}, "date"},
                {LogRole::power, 2, test::unit_named("W", Measure::power), "P"},
                {LogRole::marker, 3, {}, "set-up"},
                {LogRole::clock, 4, {}, "clock"}};
  return shape;
}

/// Nearly all of them plain.
std::vector<std::string> wide_lines(std::mt19937_64& random, std::size_t count) {
  const std::vector<std::string> odd = {"# x,2026-06-14,5,a,10:00:00",
                                        "x,2026-06-14,ERR,a,10:00:00",
                                        "x,2026-06-14,5,a,10:61:00",
                                        "x,2026-13-14,5,a,10:00:00",
                                        "x,2026-06-14,5,a",
                                        "",
                                        "x,2026-06-14,-,\"a\",10:00:00",
                                        "x,2026-06-14,5,\"a, b\",10:00:00",
                                        "note,date,P,set-up,clock",
                                        "x,2026-06-14,5,a,10:00:00,7",
                                        "x , 2026-06-14 , 5 , a , 10:00:00 ",
                                        "x,2026-06-14,1e2,a,10:00:00",
                                        "x,2026-06-14,200000,a,10:00:00"};
  std::vector<std::string> lines;
  while (lines.size() < count) {
    const std::string clock =
        "10:" + std::to_string(10 + random() % 50) + ":0" + std::to_string(random() % 10);
    const std::string power = random() % 10 == 0 ? "" : std::to_string(random() % 9999) + ".25";
    lines.push_back(random() % 90 == 0
                        ? odd[random() % odd.size()]
                        : "x,2026-06-14," + power + (random() % 30 == 0 ? ",b," : ",a,") + clock);
  }
  return lines;
}

}  // namespace

TEST_CASE("log_parser: many rows at once are what they are one by one", "[logs]") {
  std::mt19937_64 random(12);
  for (const std::string ending : {"\n", "\r\n"}) {
    const std::vector<std::string> lines = wide_lines(random, 5000);
    std::string text;
    LogBlock wanted;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      text += lines[i] + ending;
      // A piece of one line has no rows to be read together.
      const LogBlock one = parse(lines[i] + ending, false, true, wide_shape());
      wanted.unreadable += one.unreadable;
      wanted.comments += one.comments;
      wanted.repeated_headers += one.repeated_headers;
      if (one.rows() == 0) continue;
      wanted.line.push_back(static_cast<std::uint32_t>(i));
      wanted.time_us.push_back(one.time_us[0]);
      wanted.values[index_of(LogRole::power)].push_back(one.column(LogRole::power)[0]);
      const std::string& marker = one.markers.at(0).text;
      if (wanted.markers.empty() || wanted.markers.back().text != marker)
        wanted.markers.push_back({wanted.time_us.size() - 1, marker});
    }
    const LogBlock found = parse(text, false, true, wide_shape());
    CHECK(found.lines == lines.size());
    CHECK(found.unreadable == wanted.unreadable);
    CHECK(found.comments == wanted.comments);
    CHECK(found.repeated_headers == wanted.repeated_headers);
    CHECK(found.line == wanted.line);
    CHECK(found.time_us == wanted.time_us);
    CHECK(bits_of(found.column(LogRole::power)) == bits_of(wanted.column(LogRole::power)));
    REQUIRE(found.markers.size() == wanted.markers.size());
    for (std::size_t i = 0; i < found.markers.size(); ++i) {
      CHECK(found.markers[i].row == wanted.markers[i].row);
      CHECK(found.markers[i].text == wanted.markers[i].text);
    }
  }
}

TEST_CASE("log_parser: a used block is filled anew", "[logs]") {
  LogParser parser(test::small_shape());
  LogBlock block;
  block.values[index_of(LogRole::energy)] = {1.0};
  for (const int rows : {50, 3, 70, 0}) {
    std::string text;
    for (int i = 0; i < rows; ++i)
      text += row(std::to_string(i) + ",2,x");
    parser.parse(text, false, true, block);
    CHECK(block.rows() == static_cast<std::size_t>(rows));
    CHECK(block.column(LogRole::power).size() == static_cast<std::size_t>(rows));
    CHECK(block.column(LogRole::energy).empty());
    CHECK(block.line.size() == static_cast<std::size_t>(rows));
  }
}
