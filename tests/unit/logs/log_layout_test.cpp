#include "logs/log_layout.hpp"

#include <string>

#include "support/catch.hpp"
#include "support/log_beginning.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using test::LogBeginning;

namespace {

std::optional<LogLayout> layout_of(LogBeginning& log, std::optional<char> separator = {}) {
  HeadNotes notes(log.file, log.sources, log.notes);
  return find_layout(log.text, separator, notes);
}

std::optional<char> decimal_of(LogBeginning& log, std::optional<char> stated = {}) {
  HeadNotes notes(log.file, log.sources, log.notes);
  const auto layout = find_layout(log.text, std::nullopt, notes);
  REQUIRE(layout);
  return find_decimal(*layout, {1, 2}, stated, notes);
}

}  // namespace

TEST_CASE("log layout: the header behind a preamble") {
  LogBeginning log("Logger,unnamed\nSerial,12345\nInterval s,60\n# a comment\n\n"
                   "time,power W,irradiance W/m2\n"
                   "2026-06-14T10:02:03,79.1,812\n2026-06-14T10:02:04,79.2,813\n");
  const auto layout = layout_of(log);
  REQUIRE(layout);
  CHECK(log.notes.empty());
  CHECK(layout->separator == ',');
  CHECK(layout->header_line.number == 6);
  CHECK(layout->first_row_line == 7);
  CHECK(layout->rows.size() == 2);
  CHECK(layout->headers[1].unit == "W");
}

TEST_CASE("log layout: a preamble of as many cells as the rows") {
  LogBeginning log("Logger;unnamed\nSerial;12345\nInterval;60\nTime;Power [W]\n"
                   "14.06.2026 10:02;79,1\n14.06.2026 10:03;79,2\n14.06.2026 10:04;79,3\n");
  const auto layout = layout_of(log);
  REQUIRE(layout);
  CHECK(layout->separator == ';');
  CHECK(layout->header_line.number == 4);
  CHECK(layout->rows.size() == 3);
}

TEST_CASE("log layout: a sheet's preamble is padded to as many cells") {
  LogBeginning log("Logger,unnamed,\nDone,,\nTime,V,A\n2026-06-14 10:02,20.1,4.1\n"
                   "2026-06-14 10:03,20.1,4.2\n");
  const auto layout = layout_of(log);
  REQUIRE(layout);
  CHECK(layout->header_line.number == 3);
  CHECK(layout->headers[1].whole == "V");
}

TEST_CASE("log layout: units in a line below the names") {
  LogBeginning log("Time;Power;Irradiance\n;[W];[W/m2]\n14.06.2026 10:02;79,1;812\n");
  const auto layout = layout_of(log);
  REQUIRE(layout);
  CHECK(layout->header_line.number == 1);
  CHECK(layout->first_row_line == 3);
  CHECK(layout->headers[1].unit == "W");
  CHECK(layout->headers[2].unit == "W/m2");
  LogBeginning more("\"Station\",\"7\"\n\"TIMESTAMP\",\"RECORD\",\"Power\"\n\"TS\",\"RN\",\"W\"\n"
                    "\"\",\"\",\"Avg\"\n\"2026-06-14 10:02:00\",0,79.1\n");
  const auto four = layout_of(more);
  REQUIRE(four);
  CHECK(four->header_line.number == 2);
  CHECK(four->first_row_line == 5);
  CHECK(four->headers[2].unit == "W");
}

TEST_CASE("log layout: tabs and quoted headers and CRLF and a byte order mark") {
  LogBeginning log("\xEF\xBB\xBF\"Time\"\t\"Power, W\"\r\n2026-06-14 10:02\t79,1\r\n");
  const auto layout = layout_of(log);
  REQUIRE(layout);
  CHECK(layout->separator == '\t');
  CHECK(layout->header_cells[0].text == "Time");
  CHECK(layout->headers[1].name == "Power");
  CHECK(layout->headers[1].unit == "W");
}

TEST_CASE("log layout: a broken first row does not hide the header") {
  LogBeginning log("time,power W\nERR,ERR\n2026-06-14 10:02,79.1\n2026-06-14 10:03,79.1\n");
  const auto layout = layout_of(log);
  REQUIRE(layout);
  CHECK(layout->header_line.number == 1);
  // It stays a row, so that it is counted.
  CHECK(layout->first_row_line == 2);
  CHECK(layout->rows.size() == 3);
}

TEST_CASE("log layout: what is refused and where") {
  struct Case {
    std::string text;
    std::string place;
    std::string part;
  };
  for (const Case& c : {
           Case{"", "L02 0:0", "no rows"},
           Case{"# only\n# comments\n", "L02 0:0", "no rows"},
           Case{"2026-06-14 10:02,79.1\n2026-06-14 10:03,79.2\n", "L02 1:1",
                "without a line of headers"},
           Case{"text\nmore text\n", "L02 0:0", "no line of headers"},
           Case{"time,power W\n2026-06-14 10:02,79.1,4\n2026-06-14 10:03,79.2,4\n", "L02 1:1",
                "2 headers above rows of 3 cells"},
           Case{"time;power W\n", "L02 1:1", "this line alone"},
           Case{"time,power W\n2026-06-14 10:02,79,1\n2026-06-14 10:03,79,2\n", "L02 1:1",
                "decimal comma"},
           Case{"time,power W\n2026-06-14 10:02,79,\n2026-06-14 10:03,79,\n", "L02 1:1",
                "end with a separator"},
           Case{"time,\"W\n2026-06-14 10:02,1\n2026-06-14 10:03,1\n", "L16 1:6", "not closed"},
           Case{"2026-06-14 10:01,1\ntime,W\n2026-06-14 10:02,1\n2026-06-14 10:03,1\n", "L02 1:1",
                "above the line of headers"},
       }) {
    CAPTURE(c.text);
    LogBeginning log(c.text);
    CHECK_FALSE(layout_of(log));
    CHECK(log.only() == c.place);
    CHECK_THAT(log.messages(), Contains(c.part));
  }
  LogBeginning other("time,power W\n2026-06-14 10:02,79.1\n");
  CHECK_FALSE(layout_of(other, ';'));
}

TEST_CASE("log layout: first rows that are not built like the others are rows") {
  for (const std::string first :
       {"0:00,60", "2026-06-14 10:00,ERR,ERR", "2026-06-14 10:00,\"a,1"}) {
    CAPTURE(first);
    LogBeginning log("time,power W,G W/m2\n" + first +
                     "\n2026-06-14 10:02,1,1\n2026-06-14 10:03,1,1\n");
    const auto layout = layout_of(log);
    REQUIRE(layout);
    CHECK(layout->header_line.number == 1);
    CHECK(layout->first_row_line == 2);
  }
}

TEST_CASE("log layout: a stamp above the headers may say when the log was exported") {
  LogBeginning log("2026-06-14 18:00:00,logger 7\ntime,power W\n2026-06-14 10:02,1\n"
                   "2026-06-14 10:03,1\n");
  const auto layout = layout_of(log);
  REQUIRE(layout);
  CHECK(layout->header_line.number == 2);
}

TEST_CASE("log layout: two separators that fit equally well") {
  LogBeginning log("time,a;power,W\n2026-06-14 10:02,1;7,1\n2026-06-14 10:03,1;7,2\n");
  CHECK_FALSE(layout_of(log));
  CHECK(log.only() == "L02 1:1");
  CHECK_THAT(log.messages(), Contains("state which one"));
  LogBeginning stated(log.text);
  CHECK(layout_of(stated, ';'));
}

TEST_CASE("log layout: the decimal mark") {
  const std::string head = "Time;Power W;G W/m2\n";
  LogBeginning commas(head + "14.06.2026 10:02;79,1;812,34\n14.06.2026 10:03;79,2;812\n");
  CHECK(decimal_of(commas) == ',');
  LogBeginning points(head + "14.06.2026 10:02;79.1;812.34\n");
  CHECK(decimal_of(points) == '.');
  LogBeginning whole(head + "14.06.2026 10:02;79;812\n");
  CHECK(decimal_of(whole) == '.');
  LogBeginning mixed(head + "14.06.2026 10:02;79,1;812,34\n14.06.2026 10:03;79.2;812\n");
  CHECK_FALSE(decimal_of(mixed));
  CHECK(mixed.only() == "L07 3:18");
  CHECK_THAT(mixed.messages(), Contains("log.csv:2:18"));
  LogBeginning stated(mixed.text);
  CHECK(decimal_of(stated, ',') == ',');
  LogBeginning groups(head + "14.06.2026 10:02;1,234;2,345\n14.06.2026 10:03;1,300;812\n");
  CHECK_FALSE(decimal_of(groups));
  CHECK_THAT(groups.messages(), Contains("thousands"));
  LogBeginning zero(head + "14.06.2026 10:02;1,234;2,345\n14.06.2026 10:03;0,300;812\n");
  CHECK(decimal_of(zero) == ',');
  LogBeginning quoted("Time,Power W,G W/m2\n2026-06-14 10:02,\"79,1\",812\n");
  CHECK_FALSE(decimal_of(quoted));
  CHECK(quoted.only() == "L07 2:19");
  LogBeginning declared(quoted.text);
  CHECK(decimal_of(declared, ',') == ',');
}

TEST_CASE("log layout: a stated separator that does not fit is named") {
  LogBeginning log("time,power W\n2026-06-14 10:02,1\n2026-06-14 10:03,1\n");
  HeadNotes notes(log.file, log.sources, log.notes);
  CHECK_FALSE(find_layout(log.text, ';', notes));
  CHECK(log.only() == "L02 1:1");
  CHECK_THAT(log.messages(), Contains("semicolon is stated to divide the cells; here it is comma"));
  CHECK_THAT(log.messages(), Contains("--separator comma"));
}
