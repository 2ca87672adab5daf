#include "logs/log_parser_cells.hpp"

#include <string>
#include <vector>

#include "support/catch.hpp"

using namespace hailwright::detail;

namespace {

std::vector<std::string> cells_of(std::string_view line, char separator = ',') {
  std::vector<LineCell> cells;
  REQUIRE_FALSE(cut_into_cells(line, separator, cells));
  std::vector<std::string> texts;
  for (const LineCell& cell : cells)
    texts.push_back(cell.text(line));
  return texts;
}

using Texts = std::vector<std::string>;

}  // namespace

TEST_CASE("log_parser_cells: a line is cut at its separators, blanks fall away", "[logs]") {
  CHECK(cells_of("a,b,c") == Texts{"a", "b", "c"});
  CHECK(cells_of("") == Texts{""});
  CHECK(cells_of(",") == Texts{"", ""});
  CHECK(cells_of(" a ; b c ;", ';') == Texts{"a", "b c", ""});
  CHECK(cells_of("a\t\tb", '\t') == Texts{"a", "", "b"});
  CHECK(cells_of("a\t,b") == Texts{"a", "b"});
}

TEST_CASE("log_parser_cells: quotes hold separators and doubled quotes", "[logs]") {
  CHECK(cells_of("\"a,b\",c") == Texts{"a,b", "c"});
  CHECK(cells_of(" \"a\" , \"\"") == Texts{"a", ""});
  CHECK(cells_of("\"say \"\"on\"\"\",2") == Texts{"say \"on\"", "2"});
  CHECK(cells_of("\"\"\"\"") == Texts{"\""});
  CHECK(cells_of("5\",x") == Texts{"5\"", "x"});
}

TEST_CASE("log_parser_cells: faults of quotes are placed", "[logs]") {
  std::vector<LineCell> cells;
  const auto open = cut_into_cells("1,\"two,3", ',', cells);
  REQUIRE(open);
  CHECK(open->offset == 2);
  CHECK_THAT(open->message, Contains("not closed"));
  const auto behind = cut_into_cells("1,\"two\" x,3", ',', cells);
  REQUIRE(behind);
  CHECK(behind->offset == 8);
}

TEST_CASE("log_parser_cells: bytes that are no text are found", "[logs]") {
  // Well-formed and ill-formed sequences of The Unicode Standard, tables 3-7 and 3-8 (from memory).
  for (const std::string good : {"", "plain\ttext", "\xC3\xBC", "\xE2\x82\xAC", "\xF0\x9F\x94\xA5",
                                 "\xEF\xBF\xBD", "\xF4\x8F\xBF\xBF"}) {
    CAPTURE(good);
    CHECK_FALSE(find_bad_byte(good));
  }
  for (const std::string bad :
       {"\xC0\xAF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xF0\x8F\xBF\xBF", "\x80",
        "\xC3", "\xE2\x82", "\xFC\x80", "\x01", "\x7F", "\xC2\x85", "\r", "\x1B[0m"}) {
    CAPTURE(bad);
    const std::string line = "ab" + bad + "cd";
    const auto fault = find_bad_byte(line);
    REQUIRE(fault);
    CHECK(fault->offset == 2);
    CHECK_FALSE(fault->hint.empty());
  }
  CHECK(find_bad_byte(std::string("a\0b", 3))->offset == 1);
}

TEST_CASE("log_parser_cells: columns count characters", "[logs]") {
  CHECK(column_of("\xC3\xBC,b", 0) == 1);
  CHECK(column_of("\xC3\xBC,b", 3) == 3);
}
