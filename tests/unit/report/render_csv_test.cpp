#include <string>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/render.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

std::string one_cell(const std::string& text) {
  const std::string csv = render_csv({"", {{"t", Align::left}}, {{text}}});
  REQUIRE(csv.substr(0, 3) == "t\r\n");
  REQUIRE(csv.substr(csv.size() - 2) == "\r\n");
  return csv.substr(3, csv.size() - 5);
}

}  // namespace

// RFC 4180, section 2 (from memory).
TEST_CASE("a table as comma-separated values") {
  const Table table{"not written",
                    {{"place", Align::left}, {"energy, J", Align::right}},
                    {{"corner \"a\"", "1.99"}, {"two\nlines", "-0.5"}, {"", ""}}};
  CHECK(render_csv(table) == "place,\"energy, J\"\r\n"
                             "\"corner \"\"a\"\"\",1.99\r\n"
                             "\"two\nlines\",-0.5\r\n"
                             ",\r\n");
}

TEST_CASE("a table without rows still has its titles") {
  CHECK(render_csv({"", {{"a", Align::left}, {"b", Align::left}}, {}}) == "a,b\r\n");
}

TEST_CASE("text cannot become a formula") {
  CHECK(one_cell("=1+1") == "\"'=1+1\"");
  CHECK(one_cell("+cmd") == "\"'+cmd\"");
  CHECK(one_cell("-2+3") == "\"'-2+3\"");
  CHECK(one_cell("@SUM(A1)") == "\"'@SUM(A1)\"");
  CHECK(one_cell("\t=1") == "\"'\t=1\"");
  CHECK(one_cell("\r=1") == "\"'\r=1\"");
  CHECK(one_cell("  =1") == "\"'  =1\"");
  CHECK(one_cell("\u00a0=1") == "\"'\u00a0=1\"");
  CHECK(one_cell("\u200b=1") == "\"'\u200b=1\"");
  CHECK(one_cell("\uff1d1") == "\"'\uff1d1\"");
  CHECK(one_cell("=\"a\",1") == "\"'=\"\"a\"\",1\"");
  CHECK(one_cell("-1.7 to 3.6") == "\"'-1.7 to 3.6\"");
}

TEST_CASE("a column title cannot become a formula") {
  CHECK(render_csv({"", {{"=A1", Align::left}}, {}}) == "\"'=A1\"\r\n");
}

TEST_CASE("numbers stay numbers") {
  for (const char* text : {"1", "-1.7", "+5", "2e-3", "-2.5E+10", "0.00"}) {
    CAPTURE(text);
    CHECK(one_cell(text) == text);
  }
  for (const char* text : {"-", "+", "-.5", "-1.", "-1e", "-1e+", "--1", "+1 ", "-1,5", "-0x1"}) {
    CAPTURE(text);
    CHECK(one_cell(text) == "\"'" + std::string(text) + "\"");
  }
}

TEST_CASE("harmless text is left alone") {
  for (const char* text : {"panel A", "a=b", "3 + 4", "'quoted'", "<b>|x|", "世界"}) {
    CAPTURE(text);
    CHECK(one_cell(text) == text);
  }
}

TEST_CASE("control characters do not reach a file") {
  CHECK(one_cell("a\x1b[2J\u202e") == "a?[2J?");
}

TEST_CASE("a ragged table is a broken promise") {
  CHECK_THROWS_AS(render_csv({"", {{"a", Align::left}}, {{"1", "2"}}}), BugError);
  CHECK_THROWS_AS(render_csv({"", {}, {}}), BugError);
}
